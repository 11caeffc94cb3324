"""Who stands where: finding a place in the beds for every wave."""

from sowtide.schedule.beds.place_all import Grown, Placed, place_all

__all__ = ["Grown", "Placed", "place_all"]
