"""Roof access for the fire service on buildings other than dwellings, by every fire code."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

from planset.citation import CodeEdition
from planset.codes import _check, _table

_FOLDERS = {"IFC": "ifc", "CFC": "cfc", "NFPA 1": "nfpa1"}
_TOPICS = (
    "perimeter",
    "centerline",
    "sections",
    "standpipes",
    "skylights",
    "hatch",
    "smoke_ventilation",
)


@dataclass(frozen=True, slots=True)
class SmokeVentilation:
    """Ways to part one array section from the next for smoke ventilation, all widths in inches.

    Attributes:
        open_in: Option A, a pathway with nothing beside it.
        beside_vents_in: Option B, a pathway along skylights or smoke and heat vents.
        around_vents_in: Option B2, a pathway on all sides of vents that do not open by gravity;
            0 where the edition has no such option.
        cut_outs_in: Option C, a pathway with cut-outs on alternating sides.
        cut_out_across_in: Depth of a cut-out into the array, across the pathway.
        cut_out_along_in: Length of a cut-out along the pathway.
        cut_out_every_in: From the start of one cut-out to that of the next.

    Source: IFC 2015, 605.11.1.3.3; IFC 2018, 1204.3.3; the spacing of cut-outs, and B2, which some
    printings make a duty instead of an option, are from memory.
    """

    open_in: float
    beside_vents_in: float
    around_vents_in: float
    cut_outs_in: float
    cut_out_across_in: float
    cut_out_along_in: float
    cut_out_every_in: float


@dataclass(frozen=True, slots=True)
class OtherAccess:
    """The numbers of one edition's rules for roof access on other buildings.

    A topic of `not_entered` was never seen in this edition: its numbers here are 0 and say nothing,
    and no rule may pass on them.

    Attributes:
        edition: Document and year.
        perimeter_in: Clear width around the roof edges [in].
        perimeter_small_in: The same for a small building [in].
        small_axis_in: Greatest axis of a small building [in].
        small_takes_both_axes: Whether both axes must be so short, or either will do.
        centerline_pathway_in: Width of a pathway on the center line of the roof in each axis [in]
            [interpretation: no width is stated]; 0 where there is no such rule.
        greatest_section_in: Greatest side of an array section, and so the greatest spacing of
            interior pathways [in].
        straight_pathway_in: Width of a straight pathway to standpipes and ventilation hatches [in].
        skylight_pathway_in: Width of a straight pathway to skylights [in]; 0 where there is no such
            rule.
        hatch_clear_in: Clear width around a roof access hatch, and of one pathway from there to
            the roof edge or parapet [in].
        smoke: Ways to provide for smoke ventilation; None where it is not entered.
        clauses: Topic to clause; a topic the edition has no rule for is left out. Topics: scope,
            like_dwellings (a roof shaped like a dwelling's), perimeter, centerline, sections,
            standpipes, skylights, hatch, smoke_ventilation.
        not_entered: Topics this edition may have a rule for that was never seen.

    Source: IFC 2012, 605.11.3.3 [from memory]; IFC 2015, 605.11.1.3; IFC 2018, 1204.3; IFC 2021
    and 2024, 1205.3; NFPA 1 2018, 11.12.
    """

    edition: CodeEdition
    perimeter_in: float
    perimeter_small_in: float
    small_axis_in: float
    small_takes_both_axes: bool
    centerline_pathway_in: float
    greatest_section_in: float
    straight_pathway_in: float
    skylight_pathway_in: float
    hatch_clear_in: float
    smoke: SmokeVentilation | None
    clauses: Mapping[str, str]
    not_entered: frozenset[str]


@cache
def _editions() -> Mapping[CodeEdition, OtherAccess]:
    tables = _table.adopted(_FOLDERS, "other_roof_access")
    return MappingProxyType(
        {edition: _access(edition, *columns) for edition, columns in tables.items()}
    )


def _access(
    edition: CodeEdition, row: Mapping[str, str], clauses: Mapping[str, str]
) -> OtherAccess:
    whole = "smoke_open_in" in row
    return OtherAccess(
        edition=edition,
        perimeter_in=float(row["perimeter_in"]),
        perimeter_small_in=float(row["perimeter_small_in"]),
        small_axis_in=float(row["small_axis_in"]),
        small_takes_both_axes=row["small_takes_both_axes"] == "yes",
        centerline_pathway_in=float(row.get("centerline_pathway_in", 0)),
        greatest_section_in=float(row.get("greatest_section_in", 0)),
        straight_pathway_in=float(row.get("straight_pathway_in", 0)),
        skylight_pathway_in=float(row.get("skylight_pathway_in", 0)),
        hatch_clear_in=float(row.get("hatch_clear_in", 0)),
        smoke=_smoke(row) if whole else None,
        clauses=MappingProxyType(dict(clauses)),
        not_entered=frozenset() if whole else frozenset(_TOPICS).difference(clauses),
    )


def _smoke(row: Mapping[str, str]) -> SmokeVentilation:
    return SmokeVentilation(
        open_in=float(row["smoke_open_in"]),
        beside_vents_in=float(row["smoke_beside_vents_in"]),
        around_vents_in=float(row["smoke_around_vents_in"]),
        cut_outs_in=float(row["smoke_cut_outs_in"]),
        cut_out_across_in=float(row["cut_out_across_in"]),
        cut_out_along_in=float(row["cut_out_along_in"]),
        cut_out_every_in=float(row["cut_out_every_in"]),
    )


def other_editions() -> tuple[CodeEdition, ...]:
    """The editions whose rules for other buildings are entered.

    Source: IFC 2021, 1205.3.
    """
    return tuple(_editions())


def other_access(edition: CodeEdition) -> OtherAccess:
    """The rules of an edition for roof access on buildings other than dwellings.

    Args:
        edition: A fire code, such as IFC 2018.

    Raises:
        ValueError: Edition not entered.

    Source: IFC 2018, 1204.3; the other editions by their tables.
    """
    if edition not in _editions():
        known = ", ".join(map(str, other_editions()))
        msg = f"roof access on other buildings by {edition} is not entered; expected one of {known}"
        raise ValueError(msg)
    return _editions()[edition]


def perimeter_in(access: OtherAccess, axis_a_in: float, axis_b_in: float) -> float:
    """Clear width around the edges of a roof [in].

    Args:
        access: The edition's numbers.
        axis_a_in: One axis of the building [in].
        axis_b_in: The other [in].

    Raises:
        ValueError: An axis not above zero.

    Source: IFC 2018, 1204.3.1 (either axis); NFPA 1 2018, 11.12 (both axes).
    """
    for axis in (axis_a_in, axis_b_in):
        _check.above_zero(axis, "axis of the building, inches,")
    short = [_check.at_most(axis, access.small_axis_in) for axis in (axis_a_in, axis_b_in)]
    small = all(short) if access.small_takes_both_axes else any(short)
    return access.perimeter_small_in if small else access.perimeter_in


def sections_along(access: OtherAccess, free_in: float, gap_in: float) -> int:
    """Array sections a free length must be parted into, at least.

    Args:
        access: The edition's numbers.
        free_in: Length within the perimeter [in].
        gap_in: Width of the pathway between two sections [in].

    Returns:
        The least n with n sections and n - 1 gaps filling the length.

    Raises:
        ValueError: A length not above zero, or an edition whose greatest section is not entered.

    Source: IFC 2015, 605.11.1.3.3; IFC 2018, 1204.3.2 and 1204.3.3.
    """
    _check.above_zero(free_in, "free length, inches,")
    _check.above_zero(gap_in, "gap between sections, inches,")
    _check.above_zero(access.greatest_section_in, f"greatest section of {access.edition}, inches,")
    exact = (free_in + gap_in) / (access.greatest_section_in + gap_in)
    return math.ceil(exact - 1e-9)


def cut_outs(smoke: SmokeVentilation, pathway_in: float) -> int:
    """Cut-outs beside a pathway, the first at its start, on alternating sides.

    Args:
        smoke: The edition's numbers.
        pathway_in: Length of the pathway [in].

    Raises:
        ValueError: Length not above zero.

    Source: IFC 2018, 1204.3.3 [spacing from memory].
    """
    _check.above_zero(pathway_in, "length of the pathway, inches,")
    return math.ceil(pathway_in / smoke.cut_out_every_in - 1e-9)


def cut_out_area_sqin(smoke: SmokeVentilation) -> float:
    """Area one cut-out takes from the arrays [sq in].

    Source: IFC 2018, 1204.3.3.
    """
    return smoke.cut_out_across_in * smoke.cut_out_along_in
