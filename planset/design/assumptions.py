"""What the design takes for granted, said once and printed on the cover."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from planset.catalog.access import effective_access, has_dwelling_access
from planset.codes.nds.clauses import nds_clauses
from planset.design.electrical.assumed import electrical_assumptions
from planset.design.fastening import DRY_FACTOR
from planset.design.loads import Loads
from planset.design.lumber import (
    STIFFNESS_TEMPERATURE_FACTOR,
    TEMPERATURE_FACTOR,
    WOOD_TEMPERATURE_F,
)
from planset.design.rafter_basis import BEARING_IN
from planset.units import format_inches

_TOPOGRAPHY = "26.8"  # of ASCE 7 since 2010 [from memory]

if TYPE_CHECKING:
    from planset.job.framing import Framing
    from planset.job.load import Inputs


@dataclass(frozen=True, slots=True)
class Assumption:
    """One thing taken for granted.

    Attributes:
        text: What is assumed, one sentence.
        basis: Where it comes from: a clause, a survey, common practice.
        structural: Whether it concerns loads and what bears them.
    """

    text: str
    basis: str
    structural: bool = False


_PRYING = {
    "hook": "Prying of a hook's arm on its screws is not computed",
    "standoff": "Bending of a post and prying of its plate are not computed",
    "flashed_foot": "Prying of a foot on its screws is not computed",
}

_OTHER_ACCESS = Assumption(
    "A vent pipe or a roof drain does not close a pathway or the perimeter.", "interpretation"
)


def assumptions_of(inputs: Inputs, loads: Loads) -> tuple[Assumption, ...]:
    """The assumptions of a job, most consequential first."""
    job = inputs.job
    framing = inputs.job.framing
    structure = (
        *(_structure(inputs, framing, loads) if framing else ()),
        *_wind(loads),
        Assumption(
            f"Topographic factor Kzt = {job.site.topographic_factor:g}, stated by the designer.",
            inputs.jurisdiction.codes.loads.code_edition.cite(_TOPOGRAPHY),
        ),
    )
    return (
        *(replace(item, structural=True) for item in structure),
        *(Assumption(text, basis) for text, basis in electrical_assumptions(inputs)),
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


def _structure(inputs: Inputs, framing: Framing, loads: Loads) -> tuple[Assumption, ...]:
    """What attachments and their loads rest on."""
    return (
        *_engineering(inputs),
        Assumption(
            f"Framing is {framing.members} of {framing.member} {framing.species} {framing.grade} "
            f"at {framing.spacing:g} in, sound and unsplit, as surveyed.",
            framing.source,
        ),
        *_letter(framing),
        *_light_frame(framing),
        *_wood(framing),
        *_uplift(inputs, loads),
        *_screws(inputs),
    )


def _screws(inputs: Inputs) -> tuple[Assumption, ...]:
    """What the lag screws rest on, nothing where none are driven."""
    kinds = dict.fromkeys(system.attachment.kind for system in inputs.mountings.values())
    prying = [_PRYING[kind] for kind in kinds if kind in _PRYING]
    if not prying:
        return ()
    wood = inputs.jurisdiction.codes.wood.code_edition
    factors = (nds_clauses(clause).get(wood, "") for clause in ("Table 2.3.3", "11.3.3"))
    return (
        Assumption(
            f"Wood is up to {WOOD_TEMPERATURE_F:g} F, Ct {TEMPERATURE_FACTOR:g} of rafters and lag "
            f"screws, {STIFFNESS_TEMPERATURE_FACTOR:g} of E, and dry, CM {DRY_FACTOR:.1f}.",
            wood.cite(" and ".join(factors)),
        ),
        *(
            Assumption(f"{words}; its maker's capacity covers it.", "common practice, no source")
            for words in prying
        ),
        Assumption(
            "Across their axis lag screws bridge what lies between plate and rafter, which holds "
            "nothing.",
            "AWC TR12, dowel equations with a gap",
        ),
    )


def _letter(framing: Framing) -> tuple[Assumption, ...]:
    """What the trusses rest on, where a letter answers for them."""
    letter = framing.letter
    if letter is None:
        return ()
    words = (
        f"A letter lets the trusses carry up to {letter.added_load:g} psf of arrays on slope; "
        f"it covers {letter.covered}."
    )
    return (Assumption(words, letter.cited),)


def _light_frame(framing: Framing) -> tuple[Assumption, ...]:
    """What the exception from the limit on added load rests on."""
    if not framing.light_frame:
        return ()
    words = (
        "The house is of conventional light-frame construction, which the exception for small "
        "dwellings from the limit on added gravity load asks for."
    )
    return (Assumption(words, framing.source),)


def _wood(framing: Framing) -> tuple[Assumption, ...]:
    """What stands for a species that nobody could tell."""
    if framing.species == framing.wood:
        return ()
    words = f"The species of the framing is not known: {framing.wood}, the weakest, is taken."
    return (Assumption(words, "NDS Table 12.3.3A"),)


def _engineering(inputs: Inputs) -> tuple[Assumption, ...]:
    """What the engineer decided, by name."""
    chosen = inputs.job.engineering
    if chosen is None:
        return ()
    words = (
        f"The edge factor is that of {chosen.edge_factor.replace('_', ' ')}; a rafter takes "
        f"{chosen.point_load_share:g} of an attachment's load"
    )
    return (Assumption(f"{words}.", f"decided by {chosen.by}"),)


def _uplift(inputs: Inputs, loads: Loads) -> tuple[Assumption, ...]:
    """What the loads of attachments rest on, nothing where they are not computed."""
    if loads.reason or loads.standard is None:
        return ()
    chosen = inputs.job.engineering
    strict = chosen is not None and chosen.edge_factor == "exposed_panels"
    where = "near exposed ends of rows alone" if strict else "on every attachment"
    cited = loads.standard.cite("edge_factor")
    return (
        Assumption(
            f"Uplift takes the array edge factor 1.5 {where}.",
            cited if strict else f"{cited}, taken for all edges",
        ),
        Assumption(
            "The modules' own weight alone resists uplift; rails and attachments are not counted.",
            "the smallest dead load that is sure",
        ),
        Assumption(
            "An attachment takes half the way to its neighbors, times 1.15 (1.25 on two spans, "
            "more at a long rail end), or what the rail as one beam lays on it where that is more.",
            "beam reactions and three-moment equation, any handbook",
        ),
        *_turned(loads),
        Assumption(
            "A rafter bends as simple spans; for bearing and shear it runs through at inner "
            "supports or is lapped there, whichever is worse, and its tail bears on the lowest. "
            "Wind on the bare roof is not added.",
            "common practice, no source",
        ),
        *_bearing(inputs.framing),
    )


def _turned(loads: Loads) -> tuple[Assumption, ...]:
    """Attachments at which a rail levers itself up, or presses down what pulls elsewhere."""
    found = [load.attachment for load in loads.attachments if load.reversal > 0]
    if not found:
        return ()
    names = ", ".join(found[:3]) + (" and others" if len(found) > 3 else "")
    words = (
        f"At {names} a long span beside a short one turns the rail's load round: what presses on "
        "the others pulls there, and it is held against that too."
    )
    return (Assumption(words, "three-moment equation, any handbook"),)


def _bearing(framing: Framing) -> tuple[Assumption, ...]:
    """What stands for a bearing that nobody measured, nothing where trusses do."""
    if framing.kind == "truss" or framing.bearing is not None:
        return ()
    words = f"A rafter bears on {format_inches(BEARING_IN)} of each support; nobody measured it."
    return (Assumption(words, "common practice, no source"),)


def _wind(loads: Loads) -> tuple[Assumption, ...]:
    """What was judged where the figures of roof zones draw no such roof."""
    if loads.standard is None or not loads.buildings:
        return ()
    said: list[str] = []
    for building in loads.buildings.values():
        said += building.size.assumptions
        for plane in building.planes.values():
            said += plane.assumptions if plane.plane in loads.planes else ()
    figures = f"{loads.standard.edition} Figures 30.3-2 and 30.3-5"
    return tuple(Assumption(text, f"reading of {figures}") for text in dict.fromkeys(said))


def _ratio_base(inputs: Inputs) -> str:
    if not has_dwelling_access(inputs.jurisdiction):
        return "the whole roof"
    by_plane = effective_access(inputs.jurisdiction).readings.ratio_base == "plane"
    return "their own plane" if by_plane else "the whole roof"


def _ratio_basis(inputs: Inputs) -> str:
    if not has_dwelling_access(inputs.jurisdiction):
        return "interpretation"
    return f"reading of {effective_access(inputs.jurisdiction).cite('ridge')}"
