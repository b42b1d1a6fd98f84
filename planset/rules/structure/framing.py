"""Rafters carry what stands on them and what the arrays add, span by span."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.codes.nds.clauses import nds_clauses
from planset.design.framing_loads import RafterUse
from planset.design.rafter import CHECKS
from planset.finding import Finding, Outcome
from planset.rules.ratios import not_computed, use_outcome, use_ratio
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


_UNITS = {"bending": "psi", "shear": "psi", "deflection": "in", "bearing": "psi"}


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Judge the worst span of each plane in bending, shear, deflection and bearing."""
    if missing := not_computed(RULE, design, citation):
        yield missing
        return
    surveyed = design.inputs.job.framing
    if surveyed is None or surveyed.kind == "truss":
        return  # structure.by-others and structure.trusses tell what their designers must show
    framing = design.loads.framing
    for plane, reason in framing.reasons.items():
        yield _not_computed(design, citation, plane, reason)
    for plane in dict.fromkeys(use.plane for use in framing.rafters):
        uses = [use for use in framing.rafters if use.plane == plane]
        for name in CHECKS:
            worst = max(uses, key=lambda use: use.check.named(name).ratio)
            yield _judged(design, citation, name, worst)
    if framing.beyond_supports:
        yield _on_tails(design, citation, framing.beyond_supports)


def _judged(design: Design, citation: str, name: str, use: RafterUse) -> Finding:
    asked, unit = use.check.named(name), _UNITS[name]
    ratio = use_ratio(asked.demand, asked.capacity)
    outcome = use_outcome(ratio)
    digits = 2 if unit == "in" else 0
    place = f"{use.from_in:.4g} to {use.to_in:.4g} in"
    if name == "bearing":
        place = f"at its support {use.bears_at_in:.4g} in"
    fact = (
        f"Rafter {use.rafter} of plane {use.plane}, {place} from the eave in plan, under "
        f"{use.case}: {name} {asked.demand:.{digits}f} {unit}, "
        f"{asked.capacity:.{digits}f} {unit} at most"
    )
    change = _change(design, use.plane)
    return RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, change),
        measured=ratio,
        limit=1.0,
        demand=asked.demand,
        capacity=asked.capacity,
        use_unit=unit,
        objects=(use.plane, name),
        line=design.inputs.line_of("framing"),
    )


def _change(design: Design, plane: str) -> str:
    """What to do; the search for the fewest attachments does not know the rafters' limit."""
    spread = "spread the attachments over more rafters"
    found = [
        array
        for array in design.mounted
        if array.plane.id == plane and array.stated_mounting.fewest_attachments
    ]
    if found:
        fields = "first_line and attach_every"
        if not found[0].system.across:
            fields = "first_rail_rafter, rail_every, first_attachment and attachment_spacing"
        names = " and ".join(array.id for array in found)
        spread = (
            f"fewest_attachments does not look at the rafters, so state {fields} of array {names} "
            "closer than it found"
        )
    return f"{spread}, strengthen the rafters, or have an engineer judge them"


def _not_computed(design: Design, citation: str, plane: str, reason: str) -> Finding:
    message = (
        f"Rafters under the arrays on {plane} are not checked: {reason}; have them judged, and "
        "add the letter to the set."
    )
    line = design.inputs.line_of("framing")
    return RULE.found(Outcome.OPEN, citation, message, objects=(plane,), line=line)


def _on_tails(design: Design, citation: str, attachments: tuple[str, ...]) -> Finding:
    names = ", ".join(attachments[:3]) + (" and others" if len(attachments) > 3 else "")
    message = (
        f"{names} stand beyond the supports of their rafters, on the tail or above the last one, "
        "which is not computed; have the engineer check it, or move the array."
    )
    line = design.inputs.line_of("framing", "supports")
    return RULE.found(Outcome.OPEN, citation, message, objects=attachments, line=line)


RULE = Rule(
    id="structure.framing",
    title="Rafters under the added load",
    subject="structure",
    held_by="wood",
    clauses=nds_clauses("3.3 to 3.10"),  # from memory
    check=check,
)
