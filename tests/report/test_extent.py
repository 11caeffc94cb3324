"""Widths of letters on paper: those of the metrics that were published with the face."""

from __future__ import annotations

import pytest

from sowtide.report.formats.html.extent import extent, shortened_to

# Widths of the AFM files of the core 14 fonts (Adobe, 1989, 1997), from memory: the plain and the
# bold face of the first of them without serifs, in order of the letters of ASCII. [em/1000]
LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
PLAIN_CAPITALS = (
    *(667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833),
    *(722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611),
)
PLAIN_SMALL = (
    *(556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833),
    *(556, 556, 556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500),
)
BOLD_CAPITALS = (
    *(722, 722, 722, 722, 667, 611, 778, 722, 278, 556, 722, 611, 833),
    *(722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611),
)
BOLD_SMALL = (
    *(556, 611, 556, 611, 556, 333, 611, 611, 278, 278, 556, 278, 889),
    *(611, 611, 611, 611, 389, 556, 333, 611, 556, 778, 556, 556, 500),
)
SIGNS = " !%&()+,-./:;<=>[]"
PLAIN_SIGNS = (
    *(278, 278, 889, 667, 333, 333, 584, 278, 333, 278, 278, 278, 278),
    *(584, 584, 584, 278, 278),
)
BOLD_SIGNS = (
    *(278, 333, 889, 722, 333, 333, 584, 278, 333, 278, 278, 333, 333),
    *(584, 584, 584, 333, 333),
)


@pytest.mark.parametrize(
    ("letters", "plain", "bold"),
    [
        (LETTERS, PLAIN_CAPITALS, BOLD_CAPITALS),
        (LETTERS.lower(), PLAIN_SMALL, BOLD_SMALL),
        (SIGNS, PLAIN_SIGNS, BOLD_SIGNS),
        ("0123456789", (556,) * 10, (556,) * 10),
        ("—…×²", (1000, 1000, 584, 333), (1000, 1000, 584, 333)),
    ],
)
def test_letters_are_as_wide_as_published(
    letters: str, plain: tuple[int, ...], bold: tuple[int, ...]
) -> None:
    assert tuple(extent(letter, 1000) for letter in letters) == plain
    assert tuple(extent(letter, 1000, bold=True) for letter in letters) == bold


def test_what_has_no_published_width_takes_a_likely_one() -> None:
    # An accent takes no room of its own, other capitals that of most, East Asian letters a square.
    assert extent("e\N{COMBINING ACUTE ACCENT}", 1000) == extent("é", 1000) == 556
    assert extent("Ö", 1000) == 722
    assert extent("作", 1000) == 1000


def test_a_text_is_shortened_only_where_it_is_too_wide() -> None:
    # "kale" is 500 + 556 + 222 + 556 = 1.834 em wide, "…" one em.
    assert shortened_to("kale", 1, 1.834) == "kale"
    assert shortened_to("kale", 1, 1.833) == "k…"  # 1.5; "ka…" would be 2.056
    assert shortened_to("kale", 1, 1.5) == "k…"
    assert shortened_to("kale", 1, 1.499) == "…"
    assert shortened_to("kale", 1, 0) == "…"
