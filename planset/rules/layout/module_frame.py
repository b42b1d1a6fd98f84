"""The module is one that the mounting system takes: by its frame, and by the listing."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.layout import PlacedArray
from planset.finding import Finding, Outcome
from planset.rules.limits import NOISE
from planset.rules.lines import array_line
from planset.rules.rule import Rule, sentence
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the module of each array with the frames and models of its system."""
    for array in design.mounted:
        frames = array.system.modules
        if frames is None:
            message = (
                f"Which frames {array.system.model} takes is not in the catalog; add modules with "
                "depth_from, depth_to and listed to the system, from its manual and its listing."
            )
            yield _unknown(design, array, message)
            continue
        yield _depth(design, array, frames.depth_from, frames.depth_to)
        if array.product.model not in frames.listed:
            message = (
                f"The {array.product.model} is not among the modules on the listing of "
                f"{array.system.model} that the catalog names; look it up there, and add it to "
                "modules.listed or choose another module."
            )
            yield _unknown(design, array, message)


def _depth(design: Design, array: PlacedArray, low: float, high: float) -> Finding:
    depth = array.product.depth
    fits = low - NOISE <= depth <= high + NOISE
    outcome = Outcome.PASS if fits else Outcome.FAIL
    fact = (
        f"The frame of the {array.product.model} is {format_feet_inches(depth, 32)} deep, and "
        f"{array.system.model} takes {format_feet_inches(low, 32, 'up')} to "
        f"{format_feet_inches(high, 32, 'down')}"
    )
    return RULE.found(
        outcome,
        array.system.document,
        sentence(outcome, fact, "choose a module or a system that fit each other"),
        measured=depth,
        limit=low if depth < low else high,
        unit="in",
        objects=(array.id,),
        line=array_line(design, array.id, "module"),
    )


def _unknown(design: Design, array: PlacedArray, message: str) -> Finding:
    line = array_line(design, array.id, "module")
    document = array.system.document
    return RULE.found(Outcome.OPEN, document, message, objects=(array.id,), line=line)


RULE = Rule(
    id="layout.module-frame",
    title="Module in the mounting system",
    subject="layout",
    held_by="",
    clauses={},
    check=check,
)
