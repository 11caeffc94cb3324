"""Make the pictures of the README from what the commands print: ``python tests/pictures.py``.

A picture is the page itself, set into an SVG file, so it is drawn sharp at any size and compared to
the letter.
"""

from __future__ import annotations

import re
from pathlib import Path
from xml.etree import ElementTree as ET

import html5lib
from click.testing import CliRunner

from sowtide.cli import cli

FOLDER = Path(__file__).parents[1] / "docs" / "pictures"
PICTURES = {"calendar": (297, 200), "week": (210, 297)}
"""What is shown, and how large. [mm]"""

_SVG, _HTML = "http://www.w3.org/2000/svg", "http://www.w3.org/1999/xhtml"


def picture(command: str) -> str:
    """Return the page of a command on the demo garden as SVG."""
    printed = CliRunner().invoke(cli, [command, "--demo", "--format", "html"]).output
    page = html5lib.parse(printed, namespaceHTMLElements=True)
    body, style = page.find(f"{{{_HTML}}}body"), page.find(f".//{{{_HTML}}}style")
    assert body is not None
    assert style is not None
    assert style.text is not None
    wide, high = PICTURES[command]
    ET.register_namespace("", _HTML)
    ET.register_namespace("svg", _SVG)
    for details in body.iter(f"{{{_HTML}}}details"):  # folded on a screen, not printed at all
        details.clear()
    inner = "".join(ET.tostring(each, encoding="unicode") for each in body)
    # A still picture is as the printer has it.
    css = style.text.replace("@media print", "@media all").replace("body {", ".page {")
    css = re.sub(r"@page {.*} }\n", "", css).replace("break-before", "order")
    return (
        f'<svg xmlns="{_SVG}" width="{wide}mm" height="{high}mm" viewBox="0 0 {wide} {high}">\n'
        f"<style><![CDATA[{css}]]></style>\n"
        f'<rect width="{wide}" height="{high}" fill="#fff"/>\n'
        f'<foreignObject width="{wide * 96 / 25.4:.1f}" height="{high * 96 / 25.4:.1f}"'
        f' transform="scale({25.4 / 96:.6f})">\n'
        f'<div xmlns="{_HTML}" class="page" style="padding: 9mm">{inner}</div>\n'
        "</foreignObject>\n</svg>\n"
    )


def update() -> None:
    """Make the pictures anew."""
    for name in PICTURES:
        (FOLDER / f"{name}.svg").write_text(picture(name), encoding="utf-8")


if __name__ == "__main__":
    update()
