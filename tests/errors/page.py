"""The error page of the documentation, made from the case files beside this module.

A case file holds what a grower might write, then the line ``# expected``, then exactly what
sowtide says to it. Its name is the error's code, with a word more where a code has several cases.
A first line ``# saved as: …`` says in which way the text is turned into bytes, see `SAVED_AS`; it
is not part of the file.

    python tests/errors/update.py  # after a change of words; then read the diff
    python tests/errors/page.py > docs/errors.md
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

SAVED_AS: dict[str, Callable[[str], bytes]] = {
    "UTF-16": lambda text: text.encode("utf-16"),
    "UTF-32": lambda text: text.encode("utf-32"),
    "Windows-1252": lambda text: text.encode("cp1252"),
    "UTF-8 with a byte order mark": lambda text: text.encode("utf-8-sig"),
    "UTF-8 with the line ends of Windows": lambda text: text.replace("\n", "\r\n").encode(),
    "UTF-8 with the line ends of old Macs": lambda text: text.replace("\n", "\r").encode(),
    "UTF-8, a NUL for the ¤": lambda text: text.replace("¤", "\0").encode(),
    "UTF-8, a no-break space for the ¤": lambda text: text.replace("¤", "\u00a0").encode(),
    "UTF-8, repeated up to 6 MB": lambda text: text.encode() * (6_000_000 // len(text)),
}
"""Ways to turn a case's text into bytes."""

MEANING = {
    "alias": "An anchor (`&name`), an alias (`*name`) or a merge (`<<`) makes one place of the "
    "file stand for another. What is meant has to be written out, so that every value can be "
    "traced to its own line.",
    "amount": "An amount is not written as a number and its unit.",
    "amount-kind": "An amount measures something else than what is wanted there.",
    "amount-per": "An amount is not said to be for a plant, a bed, a length of row or an area.",
    "amount-unit": "A number stands without its unit, or with one that nobody knows. Of spoons, "
    "cups and gallons, US measures are meant.",
    "analysis": "The numbers of a feed are not nitrogen, phosphate and potash in percent.",
    "bracket": "A list in `[ ]` or a mapping in `{ }` is not closed, or a comma is missing in it.",
    "care-conflict": "Two things asked of care can never both be kept.",
    "care-density": "A weight is asked for, and what a spoon of the material weighs is not known.",
    "care-group": "The code of a group is not written as on a label.",
    "care-label": "Something is to be put on a crop that is not on its label.",
    "care-material": "What is to be kept apart from is no routine of this file. A warning: it may "
    "be in the journal.",
    "care-mix": "A mix stands there twice, or how much of it is put on is not said.",
    "care-name": "Two routines of care have one name.",
    "care-rule": "How often a thing is done is no number of days, and no rule that gives days.",
    "care-stage": "A day is counted from a stage that there is not.",
    "care-target": "Care is to be given to something that is not in the file.",
    "care-work": "What is to be done is spelt much like a known kind of work.",
    "character": "A character that cannot be seen and does not belong in a text file.",
    "choice": "A value that has to be one of a few words is another one.",
    "colon": "A key and its value are not parted by a colon and a space, or a text holds both.",
    "comment": "A `#` begins a comment, and here it cuts a value short.",
    "crop-incomplete": "A crop lacks numbers without which it cannot be planned.",
    "crop-numbers": "Two numbers of a crop do not go together.",
    "date": "A date is not written `MM-DD`, `YYYY-MM-DD` or as an ISO week.",
    "date-range": "A span of days is not written `07-01..08-20`, or ends before it begins.",
    "documents": "A line `---` begins a second document in the same file.",
    "duplicate-key": "A key stands twice in one place, and only one of them could count.",
    "duplicate-name": "Two beds, crops or series have one name, or a series that of a wave.",
    "empty-file": "Nothing stands in the file, or comments only.",
    "encoding": "The file is not saved as UTF-8.",
    "every": "An entry says how long or how often to go on, but not after how many days.",
    "frost-none": "A place is said to have no frost, and something beside it says that it has.",
    "frost-order": "The average first frost of autumn does not come after the last of spring.",
    "frost-season": "A frost date lies more than 150 days from early spring or early autumn.",
    "frost-table": "The dates of a frost table are out of order.",
    "harvest": "What is wanted or what a plant gives is no weight and no count, as `5 lb`.",
    "indentation": "A line begins in another column than the lines it belongs to.",
    "journal-name": "The journal that a file names is not beside it.",
    "key": "There is no word in front of a colon.",
    "missing": "Something that cannot be left out is left out, or nothing is written after a key.",
    "no-bed-fits": "None of the beds is large enough for a single plant.",
    "no-such-day": "No calendar has that day or week.",
    "normals": "The monthly normals are not twelve, or cannot be those of a garden at this "
    "latitude.",
    "not-a-list": "A list was meant, each entry of which begins with `- `.",
    "not-a-mapping": "Keys with values were meant.",
    "not-text": "A list or keys stand where a single value was meant.",
    "number": "A number is not written in plain digits. Nothing is guessed: `010` may be ten or "
    "eight, `12:30` a time of day.",
    "out-of-range": "A number is too small, too large, or in the wrong unit.",
    "percent": "A share of years or of seeds is not written as a percentage, `80%`.",
    "quote": "A quote is not closed, or a text that needs quotes has none.",
    "raised": "An entry raises a crop in a way that the crop is not raised in.",
    "range": "Two numbers with a hyphen between are not the smaller and the larger one.",
    "raw-manure": "Raw manure is to be put on a standing crop.",
    "record": "The record of daily temperatures that the site names cannot be used as it is named.",
    "series-name": "A series is called something that its waves cannot be called.",
    "size": "The size of a bed is not `WIDTH x LENGTH`, or leaves no area.",
    "standby": "Seedlings are to stand by of something that is not raised in trays.",
    "tab": "A line is indented with a tab; how wide that is, nobody knows.",
    "tag": "A tag (`!word`) would change what a value is.",
    "text": "A text is too long or holds what cannot be shown.",
    "too-big": "The file is larger than any garden's.",
    "too-deep": "Lists in lists in lists: more of them than a garden needs.",
    "too-many-plants": "The plants of one wave do not fit into its beds even when those are empty.",
    "too-many-waves": "An entry asks for more than 366 waves.",
    "unknown-bed": "A wave names a bed that is not in the file.",
    "unknown-crop": "A wave names a crop that is neither in the file nor built in.",
    "unknown-family": "A family that grew in a bed is called what no crop's family is called, and "
    "is spelt much like one. A warning: families of your own are fine.",
    "unknown-key": "A key is misspelt, or stands in the wrong place.",
    "want-people": "Something is wanted for each person, and nothing says how many there are.",
    "want-unit": "A crop is wanted by weight and gives by count, or the other way round.",
    "want-when": "Something is wanted once and again and again.",
    "want-year": "Something is wanted in a season other than the one that is planned.",
    "watch-numbers": "Numbers or days of something to look for do not go together.",
    "year": "A year is not written in four digits, or lies outside of 1900 to 2200.",
    "years": "The years to use of a record are not written `last 30` or `1991-2020`.",
}
"""What each code means, in a sentence."""

_HERE = Path(__file__).parent
_HEAD = """\
# What can be wrong with a garden's file

<!-- made by tests/errors/page.py from the cases in tests/errors; do not edit -->

sowtide reads the whole file and shows all of its mistakes in one run: file, line and column, what
is wrong, a code in brackets, the line itself, and what to write instead. While there is one, no
command does anything else, and the exit status is 1. A file that is not there or cannot be opened
gets one line and the exit status 2. Below are the codes, each with what is said to an example; the
first example of each is shown whole.
"""


@dataclass(frozen=True, slots=True)
class Case:
    """One mistake and what is said to it.

    Parameters
    ----------
    name
        The code, with a word more where there are several.
    text
        What the grower wrote.
    saved_as
        How it is turned into bytes; None for plain UTF-8.
    expected
        What sowtide says.
    """

    name: str
    text: str
    saved_as: str | None
    expected: str

    @property
    def code(self) -> str:
        """The code it is a case of; empty for a case of several."""
        return code_of(self.name, MEANING)

    @property
    def data(self) -> bytes:
        """The bytes of the file."""
        return SAVED_AS[self.saved_as](self.text) if self.saved_as else self.text.encode()


def code_of(name: str, codes: Collection[str]) -> str:
    """Return the code that a case's name begins with; empty where it is none of them."""
    fits = (code for code in codes if f"{name}-".startswith(f"{code}-"))
    return max(fits, key=len, default="")


def cases() -> list[Case]:
    """Return all cases in order of name."""
    return [
        Case(path.stem, text, given.get("saved as"), expected)
        for path, given, text, expected in written(_HERE, "saved as")
    ]


def written(folder: Path, *keys: str) -> Iterator[tuple[Path, dict[str, str], str, str]]:
    """Yield each case file, what its first lines say of it, its text, and what is expected.

    Parameters
    ----------
    folder
        Where the cases stand; they come in order of name.
    keys
        What the first lines may say, as ``# KEY: …``.
    """
    for path in sorted(folder.glob("*.txt")):
        yield path, *_split(path, keys)


def _split(path: Path, keys: tuple[str, ...]) -> tuple[dict[str, str], str, str]:
    text, mark, expected = path.read_bytes().decode().partition("# expected\n")
    assert mark, f"{path.name} has no line '# expected'"
    given: dict[str, str] = {}
    while text.startswith(tuple(f"# {key}: " for key in keys)):
        first, _, text = text.partition("\n")
        key, _, said = first.removeprefix("# ").partition(": ")
        given[key] = said
    return given, text, expected


@dataclass(frozen=True, slots=True)
class Example:
    """A case as a page shows it.

    Parameters
    ----------
    code
        The code it is a case of.
    before
        What is said of the file in front of it; empty where there is nothing to say.
    block
        The file, as a block of the page; empty where there is nothing to see.
    expected
        What sowtide says.
    """

    code: str
    before: str
    block: str
    expected: str


def sections(meaning: Mapping[str, str], examples: Collection[Example]) -> Iterator[str]:
    """Yield a section for each code: its meaning, then its examples.

    The file is shown of the first of them, and of those of which there is something to say.
    """
    for code, means in sorted(meaning.items()):
        yield f"## {code}\n\n{means}\n"
        for number, each in enumerate(each for each in examples if each.code == code):
            if each.before:
                yield f"{each.before}\n"
            if each.block and (number == 0 or each.before):
                yield each.block
            yield f"```text\n{each.expected}```\n"


def page() -> str:
    """Return the page."""
    known = cases()
    examples = [
        Example(
            case.code,
            f"Saved as {case.saved_as}:" if case.saved_as else "",
            f"```yaml\n{case.text}```\n" if case.text else "",
            case.expected,
        )
        for case in known
    ]
    parts = [_HEAD, *sections(MEANING, examples)]
    several = [case for case in known if not case.code]
    parts.append("## Several at once\n")
    for case in several:
        parts.append(f"```yaml\n{case.text}```\n")
        parts.append(f"```text\n{case.expected}```\n")
    return "\n".join(parts)


if __name__ == "__main__":
    import sys

    sys.stdout.buffer.write(page().encode())
