"""What the design takes for granted, said once and printed on the cover."""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING

from planset.catalog.access import effective_access, has_dwelling_access
from planset.design.circuits import FLUSH_ROOF_RISE_C
from planset.design.uplift import DRY_FACTOR, HOT_ATTIC_FACTOR
from planset.design.wind import SUPPORTED_EDITIONS

_TOPOGRAPHY = "26.8"  # of ASCE 7 since 2010 [from memory]
_LAG_FACTORS = MappingProxyType(  # temperature and moisture [from memory]
    {2012: "Table 2.3.3 and 10.3.3"} | dict.fromkeys((2015, 2018, 2024), "Table 2.3.3 and 11.3.3")
)

if TYPE_CHECKING:
    from planset.job.framing import Framing
    from planset.job.load import Inputs


@dataclass(frozen=True, slots=True)
class Assumption:
    """One thing taken for granted.

    Attributes:
        text: What is assumed, one sentence.
        basis: Where it comes from: a clause, a survey, common practice.
    """

    text: str
    basis: str


_OTHER_ACCESS = Assumption(
    "A vent pipe or a roof drain does not close a pathway or the perimeter.", "interpretation"
)


def assumptions_of(inputs: Inputs) -> tuple[Assumption, ...]:
    """The assumptions of a job, most consequential first."""
    job = inputs.job
    structure = _structure(inputs, inputs.job.framing) if inputs.job.framing else ()
    loads = inputs.jurisdiction.codes.loads.code_edition
    return (
        *structure,
        Assumption(
            f"Topographic factor Kzt = {job.site.topographic_factor:g}, stated by the designer.",
            loads.cite(_TOPOGRAPHY),
        ),
        Assumption(
            f"Cells run {FLUSH_ROOF_RISE_C:g} C over ambient, flush to the roof.",
            "common practice, no source",
        ),
        *((_OTHER_ACCESS,) if job.building.use == "other" else _dwelling_access(inputs)),
    )


def _dwelling_access(inputs: Inputs) -> tuple[Assumption, ...]:
    """How the access rules of dwellings are read."""
    overhang = "may" if inputs.jurisdiction.access.pathway_on_overhang.value else "may not"
    return (
        Assumption(
            f"A pathway {overhang} lie over the rake overhang; a vent pipe does not close it.",
            inputs.jurisdiction.access.pathway_on_overhang.source,
        ),
        Assumption(
            "The area ratio counts whole arrays, gaps included, over "
            f"{_ratio_base(inputs)} in plan.",
            _ratio_basis(inputs),
        ),
    )


def _structure(inputs: Inputs, framing: Framing) -> tuple[Assumption, ...]:
    """What attachments and their loads rest on."""
    wood = inputs.jurisdiction.codes.wood.code_edition
    return (
        Assumption(
            f"Rafters are {framing.member} {framing.species} {framing.grade} at "
            f"{framing.spacing:g} in, sound and unsplit, as surveyed.",
            framing.source,
        ),
        *_uplift(inputs),
        Assumption(
            f"Lag withdrawal takes Ct = {HOT_ATTIC_FACTOR} (wood to 125 F) and "
            f"CM = {DRY_FACTOR:.1f} (19 % moisture or less).",
            wood.cite(_LAG_FACTORS.get(wood.year, "")),
        ),
    )


def _uplift(inputs: Inputs) -> tuple[Assumption, ...]:
    """What the loads of attachments rest on, nothing by an edition they are not computed by."""
    loads = inputs.jurisdiction.codes.loads.code_edition
    if loads.document != "ASCE 7" or loads.year not in SUPPORTED_EDITIONS:
        return ()
    return (
        Assumption(
            "Uplift takes the array edge factor 1.5 on every attachment.",
            f"{loads.cite('29.4.4')}, taken for all edges",
        ),
        Assumption(
            "An attachment takes half the way to its neighbors, times 1.15 (1.25 on two spans, "
            "more at a long rail end) for the continuous rail.",
            "beam reactions, any handbook",
        ),
    )


def _ratio_base(inputs: Inputs) -> str:
    if not has_dwelling_access(inputs.jurisdiction):
        return "the whole roof"
    by_plane = effective_access(inputs.jurisdiction).readings.ratio_base == "plane"
    return "their own plane" if by_plane else "the whole roof"


def _ratio_basis(inputs: Inputs) -> str:
    if not has_dwelling_access(inputs.jurisdiction):
        return "interpretation"
    return f"reading of {effective_access(inputs.jurisdiction).cite('ridge')}"
