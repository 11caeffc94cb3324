"""The file a grower starts from."""

from __future__ import annotations

from pathlib import Path

_TEMPLATE = Path(__file__).with_name("starter.yaml")


def starter_text(season: int) -> str:
    """Return a commented garden file for a season, ready to be changed."""
    return _TEMPLATE.read_text(encoding="utf-8").replace("{season}", str(season))
