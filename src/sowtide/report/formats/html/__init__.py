"""Blocks as one HTML file: to look at on any screen, and to print and pin up."""

from sowtide.report.formats.html.document import html_page

__all__ = ["html_page"]
