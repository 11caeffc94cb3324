"""From keys to values: what the file says becomes a garden, with every problem at once."""

from sowtide.garden.making.beds import beds_of, spans_of
from sowtide.garden.making.comments import check_comments
from sowtide.garden.making.crops import Crops
from sowtide.garden.making.entries import Entries
from sowtide.garden.making.families import check_families
from sowtide.garden.making.quotes import check_curly_quotes
from sowtide.garden.making.sites import site_of
from sowtide.garden.making.wants import Wants
from sowtide.garden.making.watches import watches_of

__all__ = [
    "Crops",
    "Entries",
    "Wants",
    "beds_of",
    "check_comments",
    "check_curly_quotes",
    "check_families",
    "site_of",
    "spans_of",
    "watches_of",
]
