"""What a design tells of the lines of a screening list."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from planset.codes.screening.lists import Judged
from planset.design.containment import room_in
from planset.design.staggering import shared_lines

if TYPE_CHECKING:
    from planset.design.design import Design

_ROOF_PLAN = "A-101"  # which shows attachments, too
_ROOFING_OFF_THE_LIST = ("curved_tile",)  # which names metal, wood and composition
_Fact = float | bool | str | None


def words_of(lines: tuple[Judged, ...], outcome: str) -> str:
    """Return the lines of a list that came out so, in words."""
    return "; ".join(one.item.words for one in lines if one.outcome == outcome)


def screening_facts(design: Design) -> Mapping[str, _Fact]:
    """Return what the design knows of the lists' lines; what it does not know is left out.

    Args:
        design: A design with a mounted array.
    """
    job, mounted = design.inputs.job, design.mounted
    framing = job.framing
    covered = max((building.percent for building in design.access.buildings.values()), default=0.0)
    facts: dict[str, _Fact] = {
        "roof_layers": float(job.roof.layers),
        "parallel": True,
        "gap_in": min((one.clear_space_in for one in design.mounts), default=None),
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
        "height_in": max(one.build_up.height_above_roof_in for one in design.mounts),
        "spacing_in": max(
            (gap for rack in design.racking for gap in rack.apart_along_in), default=None
        ),
    }
    if job.roof.covering.kind in _ROOFING_OFF_THE_LIST:
        facts["roofing_allowed"] = False
    if all(array.system.across for array in mounted):
        facts["staggered"] = not any(map(any, map(shared_lines, design.racking)))
    if framing is not None:
        facts["framing_spacing_in"] = framing.spacing
        facts["to_framing"] = True
        facts["wood_dwelling"] = job.building.use in ("one_family_dwelling", "two_family_dwelling")
    return facts
