"""The sheet of a week of heat: what to shade, water and pick first, and what had better wait."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sowtide.report.heat.heat_values import HeatView, PutOffView

if TYPE_CHECKING:  # only where heat is forecast
    from sowtide.report.heat.heat_page import page_of_heat
    from sowtide.report.heat.heat_view import view_of_heat

__all__ = ["HeatView", "PutOffView", "page_of_heat", "view_of_heat"]


def __getattr__(name: str) -> Any:
    """Load what only a week of heat needs when it is first asked for."""
    if name == "page_of_heat":
        from sowtide.report.heat.heat_page import page_of_heat

        return page_of_heat
    if name == "view_of_heat":
        from sowtide.report.heat.heat_view import view_of_heat

        return view_of_heat
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
