"""Write the listings of the example's sheets: `python -m tests.sheets.regenerate`.

Look at every page of the plotted set first: what is written here is what the tests then hold true.
"""

from __future__ import annotations

from pathlib import Path

from planset.formats.listing import listing
from tests.sheets.drawn_sets import example

GOLDEN = Path(__file__).parent / "golden"
BLOCKS = "blocks"


def listings() -> dict[str, str]:
    """The listing of every sheet without its blocks, and of all blocks, by file name."""
    drawing = example().drawing
    made: dict[str, str] = {}
    blocks: dict[str, str] = {}
    for page in drawing.pages:
        sheet, *listed = listing(page, drawing.blocks).split("\nblock ")
        made[page.sheet] = sheet.rstrip("\n") + "\n"
        blocks |= {text.split(" ", 1)[0]: f"block {text}".rstrip("\n") + "\n" for text in listed}
    made[BLOCKS] = "".join(blocks[name] for name in sorted(blocks))
    return made


def main() -> None:
    """Replace all listings."""
    GOLDEN.mkdir(exist_ok=True)
    for old in GOLDEN.glob("*.txt"):
        old.unlink()
    for name, text in listings().items():
        (GOLDEN / f"{name}.txt").write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
