"""Look at the printed pages in a browser: ``python tests/overlaps.py [--browser chromium]``.

The geometry of the drawings is tested without a browser. This asks a real one, since only that one
sets the words: it opens the pages of the demo and of each example at the width of both papers and
of a phone, and reads from the page itself which words lie on others, which are cut off, and whether
anything is wider than the page. It prints what it finds, and how many pages each makes on paper;
the exit code is 1 where there is anything.
"""

from __future__ import annotations

import argparse
import html
import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory

from click.testing import CliRunner

from sowtide.cli import cli

ROOT = Path(__file__).parents[1]
GARDENS = {
    "demo": ("--demo",),
    **{
        path.parent.name: ("--garden", str(path), "--today", day)
        for path, day in (
            (ROOT / "examples/allotment/garden.yaml", "2027-01-15"),
            (ROOT / "examples/market-garden/garden.yaml", "2026-07-16"),
        )
    },
}
PAGES = (
    ("week",),
    ("week", "--high", "97F"),
    ("calendar",),
    ("frost",),
    ("frost", "--tonight", "30F"),
    ("fits",),
    ("fits", "bush bean"),
    ("plan",),
    ("supply",),
    ("needs",),
    ("plan", "--labels"),
    ("did", "season"),
)
_INCH = 25.4
WIDTHS = {"a4": 297.0, "letter": 279.4, "phone": 103.0}
"""How wide a window is: the long side of a paper, or 390 pixels of a phone. [mm]"""

PROBE = """
const found = [], seen = [];
const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
while (walk.nextNode()) {
  const node = walk.currentNode, of = node.parentElement;
  if (!node.textContent.trim() || !of.checkVisibility({visibilityProperty: true})) continue;
  if (of.closest('.unseen, style, script, details:not([open]) > :not(summary)')) continue;
  const range = document.createRange();
  range.selectNodeContents(node);
  const sticky = of.closest('.season th') !== null;
  for (const box of range.getClientRects())
    if (box.width > 1 && box.height > 1) seen.push([node.textContent.trim(), box, of, sticky]);
}
seen.sort((one, other) => one[1].top - other[1].top);
for (let i = 0; i < seen.length; i++) {
  const [text, box, of, sticky] = seen[i];
  const drawing = of.closest('svg');
  if (drawing) {
    const bounds = drawing.getBoundingClientRect();
    if (box.left < bounds.left - 1 || box.right > bounds.right + 1) found.push('cut off: ' + text);
  }
  if (!of.closest('.wide') && box.right > document.documentElement.clientWidth + 1)
    found.push('beyond the page: ' + text);
  for (let j = i + 1; j < seen.length && seen[j][1].top < box.bottom; j++) {
    const other = seen[j][1];
    if (seen[j][2] === of || sticky !== seen[j][3]) continue;
    const across = Math.min(box.right, other.right) - Math.max(box.left, other.left);
    const down = Math.min(box.bottom, other.bottom) - Math.max(box.top, other.top);
    if (across > 1.5 && down > 0.35 * Math.min(box.height, other.height))
      found.push('on each other: ' + text + ' | ' + seen[j][0]);
  }
}
document.body.innerText = '';
document.title = JSON.stringify([seen.length, found.length, found.slice(0, 8)]);
"""


def written(command: tuple[str, ...], of: tuple[str, ...], paper: str) -> str:
    """Return a page as the command prints it."""
    asked = [*command, *of, "--format", "html", "--paper", paper]
    ran = CliRunner().invoke(cli, asked, catch_exceptions=False)
    if ran.exit_code:
        raise SystemExit(f"sowtide {' '.join(asked)}: {ran.output}")
    return ran.stdout


def probed(page: Path, wide: float, browser: str) -> str:
    """Return what the probe says of a page in a window so wide. [mm]"""
    text = page.read_text(encoding="utf-8")
    probe = page.with_name(f"probe-{page.name}")
    script = f"<script>addEventListener('load', () => {{{PROBE}}});</script></body>"
    probe.write_text(text.replace("</body>", script), encoding="utf-8")
    pixels = round(wide * 96 / _INCH)
    if wide < 130:  # no window is so narrow: the page is set into a frame that is
        frame = page.with_name("frame.html")
        frame.write_text(
            f'<iframe src="{probe.name}" style="width:{pixels}px;height:3000px;border:0" '
            'onload="setTimeout(() => { document.title = frames[0].document.title; }, 200)">'
            "</iframe>",
            encoding="utf-8",
        )
        probe = frame
    shown = _ran(browser, f"--window-size={max(pixels, 600)},3000", "--dump-dom", probe)
    title = re.search(r"<title>(.*?)</title>", shown, re.DOTALL)
    return html.unescape(title[1]) if title else "[0, 1, ['no title']]"


def pages_of(page: Path, browser: str) -> int:
    """Return how many pages it takes on paper."""
    made = page.with_suffix(".pdf")
    _ran(browser, "--no-pdf-header-footer", f"--print-to-pdf={made}", page)
    return len(re.findall(rb"/Type\s*/Page\b", made.read_bytes()))


def _ran(browser: str, *asked: str | Path) -> str:
    quiet = ("--headless", "--no-sandbox", "--disable-gpu", "--allow-file-access-from-files")
    *options, page = map(str, asked)
    command = [browser, *quiet, "--virtual-time-budget=4000", *options, Path(page).as_uri()]
    return subprocess.run(command, capture_output=True, text=True, check=True).stdout


def lines(browser: str, only: str, folder: Path) -> Iterator[tuple[bool, str]]:
    """Yield a line for each page in each window, and whether anything is wrong with it."""
    for name, garden in GARDENS.items():
        for command in PAGES:
            for window, wide in WIDTHS.items():
                label = f"{name} {' '.join(command)} {window}"
                if not re.search(only, label):
                    continue
                paper = "a4" if window == "phone" else window
                page = folder / f"{label.replace(' ', '-')}.html"
                page.write_text(written(command, garden, paper), encoding="utf-8")
                said = probed(page, wide, browser)
                printed = "" if window == "phone" else f"{pages_of(page, browser):3} pages"
                wrong = not re.match(r"\[\d+,0,", said)
                yield wrong, f"{label:40}{printed:12}{said if wrong else said.split(',')[0][1:]}"


def main() -> int:
    """Look at every page, and say what is found."""
    options = argparse.ArgumentParser(description="Look at the printed pages in a browser.")
    options.add_argument("--browser", default="chromium", help="the browser's program")
    options.add_argument("--only", default="", help="a regular expression of pages' names")
    chosen = options.parse_args()
    wrong = False
    with TemporaryDirectory() as folder:
        for bad, line in lines(chosen.browser, chosen.only, Path(folder)):
            wrong = wrong or bad
            sys.stdout.write(f"{line}\n")
            sys.stdout.flush()
    return int(wrong)


if __name__ == "__main__":
    raise SystemExit(main())
