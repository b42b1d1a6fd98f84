"""The published list by which a small array may go without an engineer's calculation."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

from planset.codes.screening.lists import Judged, judge, overall
from planset.design.containment import room_in
from planset.finding import Finding, Outcome
from planset.rules.rule import Rule

if TYPE_CHECKING:
    from planset.design.design import Design

_ROOF_PLAN = "A-101"  # which shows attachments, too
_Fact = float | bool | str | None


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Judge the list that the jurisdiction goes by, line by line."""
    stated = design.inputs.jurisdiction.review.screening
    if stated is None or not design.mounted:
        return
    lines = judge(stated.value, _facts(design))
    words = {kind: _words(lines, kind) for kind in ("met", "not met", "unknown")}
    outcome = Outcome.PASS if overall(lines) == "met" else Outcome.ASK
    message = f"Of the list {stated.value}: met ({words['met']})"
    if words["not met"]:
        message += f"; not met ({words['not met']})"
    if words["unknown"]:
        message += f"; to be shown ({words['unknown']})"
    message += "."
    if outcome is Outcome.ASK:
        message += " Show what is missing, or have the set sealed by an engineer."
    line = design.inputs.line_of("arrays")
    yield RULE.found(outcome, f"{stated.source}, {stated.date}", message, line=line)


def _words(lines: tuple[Judged, ...], outcome: str) -> str:
    return "; ".join(one.item.words for one in lines if one.outcome == outcome)


def _facts(design: Design) -> Mapping[str, _Fact]:
    """What the design knows of the lists' lines; what it does not know is left out."""
    job, mounted = design.inputs.job, design.mounted
    framing = job.framing
    covered = max((building.percent for building in design.access.buildings.values()), default=0.0)
    spaces = [
        one.height_above_roof_in - array.product.depth
        for one, array in zip(design.build_ups, mounted, strict=True)
    ]
    facts: dict[str, _Fact] = {
        "roof_layers": float(job.roof.layers),
        "parallel": True,
        "gap_in": min(spaces, default=None),
        "array_psf": max(array.system.dead_load_psf for array in mounted),
        "roof_share": covered / 100,
        "ground_snow_psf": job.site.ground_snow,
        "exposure": job.site.exposure,
        "within_roof_edges": all(
            room_in(array.plane, module.surface) >= 0
            for array in mounted
            for module in array.modules
        ),
        "roof_plan_attached": _ROOF_PLAN in job.drafting.sheets,
        "one_roof_face": len({array.plane.id for array in design.arrays}) == 1,
        "height_in": max(one.height_above_roof_in for one in design.build_ups),
        "spacing_in": max(
            (array.stated_mounting.attachment_spacing for array in mounted), default=None
        ),
    }
    if framing is not None:
        facts["framing_spacing_in"] = framing.spacing
        facts["to_framing"] = True
        facts["wood_dwelling"] = job.building.use in ("one_family_dwelling", "two_family_dwelling")
    return facts


RULE = Rule(
    id="structure.screening",
    title="List for review without engineering",
    subject="structure",
    held_by="",
    clauses={},
    check=check,
)
