"""The access rules in force in a jurisdiction: the adopted code's, with what is amended there."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Literal, TypeVar

from planset.catalog.fields import Sourced
from planset.catalog.jurisdiction import Jurisdiction
from planset.catalog.local_access import LocalAccess, RulesOffWhen, SmokeOption, ThreeSides
from planset.citation import CodeEdition
from planset.codes.other_roof_access import OtherAccess, other_access
from planset.codes.roof_access import (
    WITHOUT_ROOF_ACCESS,
    DwellingAccess,
    dwelling_access,
    dwelling_editions,
)

T = TypeVar("T")

_RIDGE = ("ridge", "ridge_sprinklered")

AMENDED_TOPICS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "ridge_setback": _RIDGE,
        "ridge_setback_high": _RIDGE,
        "area_limit": _RIDGE,
        "area_limit_sprinklered": _RIDGE,
        "ratio_base": _RIDGE,
        "hip_valley_setback": ("hip_valley",),
        "greatest_array_side": ("array_size",),
    }
)
"""Field of a profile to the topics of the code that it amends."""


@dataclass(frozen=True, slots=True)
class Readings:
    """How the rules are read where the codes are silent; the defaults are interpretations.

    Attributes:
        pathway_on_overhang: Whether a pathway may run on a roof overhang.
        street_angle_deg: Largest angle at which a roof side still faces a street.
        ridges: Which horizontal ridges need a setback.
        far_side_of_ridge_is_adjacent: Whether a pathway across the ridge serves a plane.
        pathway_serves_planes: How many planes one pathway may serve.
        ratio_base: Whether array area is held against the whole roof or the one plane.
        shed_high_edge: What the high edge of a single plane counts as.
        centerline_pathways: For which arrays of other buildings they are asked for.
        smoke_ventilation: Options that other buildings may choose from.
    """

    pathway_on_overhang: bool
    street_angle_deg: float
    ridges: Literal["all", "highest"] = "all"
    far_side_of_ridge_is_adjacent: bool = False
    pathway_serves_planes: int = 2
    ratio_base: Literal["roof", "plane"] = "roof"
    shed_high_edge: Literal["ridge", "edge", "ask"] = "ask"
    centerline_pathways: Literal["always", "over_150_ft"] = "always"
    smoke_ventilation: tuple[SmokeOption, ...] = ("A", "B", "B2", "C")


@dataclass(frozen=True, slots=True)
class EffectiveAccess:
    """The access rules for dwellings in force in a jurisdiction.

    Attributes:
        code: The adopted code's numbers, as amended.
        model: The same as published.
        amended: Topic of the code to the local text that changes it.
        readings: How the rules are read there.
        edge_setback_in: From every edge of the roof [in]; 0 without such a local rule.
        between_arrays_in: From one array to the next [in]; 0 without such a local rule.
        rules_off_when: When a dwelling is free of all of it; None where never.
        three_sides: The rule that takes the place of the code's pathways; None where none does.
    """

    code: DwellingAccess
    model: DwellingAccess
    amended: Mapping[str, str]
    readings: Readings
    edge_setback_in: float
    between_arrays_in: float
    rules_off_when: RulesOffWhen | None
    three_sides: ThreeSides | None

    def cite(self, topic: str) -> str:
        """Return the citation of a topic, such as "IRC 2021 R324.6.2 as amended by Ordinance 7".

        Args:
            topic: One of those `DwellingAccess.clauses` lists. Where only the jurisdiction has
                such a rule its text stands alone; where nobody has, the edition does.
        """
        clause, local = self.code.clauses.get(topic, ""), self.amended.get(topic)
        if local is None:
            return self.code.edition.cite(clause)
        return f"{self.code.edition.cite(clause)} as amended by {local}" if clause else local

    def cite_ridge(self, *, sprinklered: bool) -> str:
        """Return the citation of the ridge setback, with its own clause for sprinklers if any."""
        relieved = sprinklered and "ridge_sprinklered" in self.code.clauses
        return self.cite("ridge_sprinklered" if relieved else "ridge")


def dwelling_edition(jurisdiction: Jurisdiction) -> CodeEdition:
    """Return the adopted edition whose access rules hold for dwellings.

    The fire codes leave buildings under the residential code to it, so that one judges unless the
    profile says otherwise, or it has no section on roof access.
    """
    residential = jurisdiction.codes.residential.code_edition
    fire = jurisdiction.codes.fire.code_edition
    judged_by = jurisdiction.access.judged_by
    if judged_by is not None:
        return residential if judged_by.value == "residential" else fire
    return fire if residential in WITHOUT_ROOF_ACCESS else residential


def has_dwelling_access(jurisdiction: Jurisdiction) -> bool:
    """Tell whether the rules for dwellings that a jurisdiction adopts are entered."""
    return dwelling_edition(jurisdiction) in dwelling_editions()


def effective_access(jurisdiction: Jurisdiction) -> EffectiveAccess:
    """Return the access rules for dwellings in force in a jurisdiction.

    Raises:
        ValueError: The rules of the adopted edition are not entered.
    """
    local = jurisdiction.access
    model = dwelling_access(dwelling_edition(jurisdiction))
    return EffectiveAccess(
        code=_amended(model, local),
        model=model,
        amended=_amended_topics(local),
        readings=readings(jurisdiction),
        edge_setback_in=_value(local.edge_setback, 0.0),
        between_arrays_in=_value(local.between_arrays, 0.0),
        rules_off_when=None if local.rules_off_when is None else local.rules_off_when.value,
        three_sides=None if local.three_sides is None else local.three_sides.value,
    )


def effective_other_access(jurisdiction: Jurisdiction) -> OtherAccess:
    """Return the access rules for other buildings, which are always the fire code's.

    Raises:
        ValueError: The rules of the adopted edition are not entered.
    """
    return other_access(jurisdiction.codes.fire.code_edition)


def readings(jurisdiction: Jurisdiction) -> Readings:
    """Return how a jurisdiction reads the rules."""
    local = jurisdiction.access
    plain = Readings(local.pathway_on_overhang.value, local.street_angle.value)
    return replace(
        plain,
        ridges=_value(local.ridges, plain.ridges),
        far_side_of_ridge_is_adjacent=_value(
            local.far_side_of_ridge_is_adjacent, plain.far_side_of_ridge_is_adjacent
        ),
        pathway_serves_planes=_value(local.pathway_serves_planes, plain.pathway_serves_planes),
        ratio_base=_value(local.ratio_base, plain.ratio_base),
        shed_high_edge=_value(local.shed_high_edge, plain.shed_high_edge),
        centerline_pathways=_value(local.centerline_pathways, plain.centerline_pathways),
        smoke_ventilation=_value(local.smoke_ventilation, plain.smoke_ventilation),
    )


def _value(given: Sourced[T] | None, otherwise: T) -> T:
    return otherwise if given is None else given.value


def _amended(model: DwellingAccess, local: LocalAccess) -> DwellingAccess:
    """The code's numbers with the local ones in their place.

    Where the code's ridge setback is fixed, one local setback replaces it whole.
    """
    limit = model.area_limit_percent if local.area_limit is None else local.area_limit.value
    low = _value(local.ridge_setback, model.ridge_setback_low_in)
    high = low if limit is None else model.ridge_setback_high_in
    relief = local.area_limit_sprinklered
    return replace(
        model,
        ridge_setback_low_in=low,
        ridge_setback_high_in=_value(local.ridge_setback_high, high),
        area_limit_percent=limit,
        area_limit_sprinklered_percent=(
            model.area_limit_sprinklered_percent if relief is None else relief.value
        ),
        hip_valley_setback_in=_value(local.hip_valley_setback, model.hip_valley_setback_in),
        greatest_array_side_in=_value(local.greatest_array_side, model.greatest_array_side_in),
    )


def _amended_topics(local: LocalAccess) -> Mapping[str, str]:
    texts: dict[str, list[str]] = {}
    for field, topics in AMENDED_TOPICS.items():
        given = getattr(local, field)
        for topic in topics if given is not None else ():
            sources = texts.setdefault(topic, [])
            if given.source not in sources:
                sources.append(given.source)
    return MappingProxyType({topic: " and ".join(sources) for topic, sources in texts.items()})
