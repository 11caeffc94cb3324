"""What an amount may measure."""

from enum import Enum


class Dimension(Enum):
    """What an amount measures, and in what its size is counted."""

    VOLUME = "volume"
    """[ml]"""
    WEIGHT = "weight"
    """[g]"""
    LENGTH = "length"
    """[µm]"""
    AREA = "area"
    """[µm²]"""
    PLANTS = "plants"
    BEDS = "beds"
