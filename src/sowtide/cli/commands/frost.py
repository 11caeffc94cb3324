"""``sowtide frost``."""

from __future__ import annotations

import click

from sowtide.cli.options import with_place
from sowtide.cli.printing import prints
from sowtide.report.frost import REPORT, FrostView, view
from sowtide.season import Place


@click.command()
@prints(REPORT)
@with_place
def command(place: Place) -> FrostView:
    """The site's frost odds, what they rest on, and the season's length."""
    return view(place)
