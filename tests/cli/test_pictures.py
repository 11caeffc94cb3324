"""The pictures of the README are what the commands print today."""

from __future__ import annotations

from xml.etree import ElementTree as ET

import pytest

import pictures


@pytest.mark.parametrize("name", pictures.PICTURES)
def test_a_picture_is_what_the_command_prints(name: str) -> None:
    kept = (pictures.FOLDER / f"{name}.svg").read_text(encoding="utf-8")
    assert kept == pictures.picture(name), "python tests/pictures.py makes them anew"
    assert ET.fromstring(kept).tag == "{http://www.w3.org/2000/svg}svg"
