"""Blocks as lines of styled text, as wide as the terminal is."""

from sowtide.report.formats.terminal.render import rendered

__all__ = ["rendered"]
