"""What the grower wrote: reading the file, the values made of it, the built-in crops."""

from __future__ import annotations

from sowtide.garden.crop import Crop
from sowtide.garden.model import Bed, Entry, Garden
from sowtide.garden.read import Reading, read_file, read_garden
from sowtide.garden.site import Site

__all__ = ["Bed", "Crop", "Entry", "Garden", "Reading", "Site", "read_file", "read_garden"]
