"""The bill of materials holds what the drawing shows: each part as often as it is inserted."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping

from planset.design.conductor_materials import ELECTRICAL
from planset.design.material_line import MaterialLine
from planset.design.materials import ATTACHMENTS, MODULES, ON_RAILS, WIRING
from planset.drawing.primitives import Block, Insert
from planset.finding import Finding, Outcome
from planset.review.page_rule import DRAFTING_RULE

_NAMES = frozenset({"MODEL", "TYPE", "PART"})
"""Values of a block that name what each of its insertions is."""

_SHOWN_BY = {
    MODULES: "ARRAY-",
    ATTACHMENTS: "RACKING-",
    ON_RAILS: "PARTS-",
    WIRING: "WIRING-",
    ELECTRICAL: "MODULE-DEVICES",
}
"""Blocks that hold the parts of a group of lines; a set without them shows none of it."""


def judge_bill(lines: Iterable[MaterialLine], blocks: Mapping[str, Block]) -> Finding:
    """Return whether bill and drawing agree on every part that the drawing shows.

    Args:
        lines: The bill.
        blocks: All blocks of the set by name.
    """
    shown = {
        group
        for group, start in _SHOWN_BY.items()
        if any(name.startswith(start) for name in blocks)
    }
    billed: Counter[str] = Counter()
    for line in lines:
        if line.drawn_as and line.group in shown:
            billed[line.drawn_as] += line.quantity or 0
    drawn = _insertions(blocks)
    names = sorted(billed.keys() | drawn.keys())
    wrong = [name for name in names if billed[name] != drawn[name]]
    if wrong:
        told = [f"{name}: {billed[name]} on the bill, {drawn[name]} drawn" for name in wrong]
        message = f"{'; '.join(told)}; order by the drawing, and report this fault of planset."
    else:
        message = f"Bill and drawing agree: {_listed(billed)}."
    return Finding(
        rule="drafting.bill-counts",
        title="Bill and drawing agree",
        outcome=Outcome.FAIL if wrong else Outcome.PASS,
        citation=DRAFTING_RULE,
        message=message,
        objects=tuple(wrong),
    )


def _listed(billed: Counter[str]) -> str:
    return ", ".join(f"{count} {name}" for name, count in sorted(billed.items()))


def _insertions(blocks: Mapping[str, Block]) -> Counter[str]:
    """How often each named thing is inserted."""
    inserted = Counter(
        part.block
        for block in blocks.values()
        for part in block.primitives
        if isinstance(part, Insert)
    )
    found: Counter[str] = Counter()
    for name, count in inserted.items():
        for value in blocks[name].constants:
            if value.tag in _NAMES:
                found[value.value] += count
    return found
