"""How one jurisdiction reads and amends the access rules of the codes it adopts.

What a profile leaves out is as the model code has it, or as `planset.catalog.access` says the code
is read where it is silent.
"""

from typing import Annotated, Literal

from planset.catalog.fields import (
    Count,
    Distance,
    OneOrMore,
    Percent,
    Pitch,
    Size,
    Sourced,
    StrictModel,
    between,
)

SmokeOption = Literal["A", "B", "B2", "C"]
"""Ways to provide for smoke ventilation, as `planset.codes.other_roof_access` describes them."""

AreaSqft = Annotated[float, between(1, 1_000_000, "sq ft")]


class RulesOffWhen(StrictModel):
    """When a dwelling is free of all access rules: with sprinklers, or with a small array.

    Small arrays cover no more than `ratio` percent of the roof in plan, and no more than `area`
    square feet on the surface of the roof, the larger of two readings (interpretation). They keep
    `ridge_setback` inches from every horizontal ridge above them.
    """

    sprinklered: bool
    ratio: Percent
    area: AreaSqft
    ridge_setback: Size


class ThreeSides(StrictModel):
    """A pathway along three sides of an array, in place of the pathways of the model code.

    `width` in inches; the eave need not be kept clear where the slope is more than `eave_slope`.
    An array of up to `area` square feet beside an adjacent intersecting roof needs only
    `ridge_setback` inches each side of the ridge up to `ratio` percent of the roof in plan, and
    one pathway from ridge to eave besides where it covers more.
    """

    width: Size
    eave_slope: Pitch
    area: AreaSqft
    ratio: Percent
    ridge_setback: Size


class LocalAccess(StrictModel):
    """Local readings and amendments of fire access.

    Readings, where the codes are silent or disputed:
        `pathway_on_overhang`: whether a pathway may run on a roof overhang.
        `street_angle`: largest angle in degrees at which a roof side still faces a street.
        `judged_by`: the adopted code whose access rules hold for dwellings.
        `ridges`: which horizontal ridges need a setback.
        `far_side_of_ridge_is_adjacent`: whether a pathway there serves a plane.
        `pathway_serves_planes`: how many planes one pathway may serve.
        `ratio_base`: what the array area is held against, the whole roof or the one plane.
        `shed_high_edge`: what the high edge of a single plane counts as.
        `centerline_pathways`: for which arrays of other buildings they are asked for.
        `smoke_ventilation`: the options other buildings may choose from.

    Amendments of dwelling rules, lengths in inches, limits in percent of the roof in plan:
        `ridge_setback`: up to the area limit, or always where the code has none.
        `ridge_setback_high`: above the area limit.
        `area_limit`, `area_limit_sprinklered`: where the setback changes.
        `hip_valley_setback`: with modules on both sides.
        `edge_setback`: from every edge of the roof.
        `greatest_array_side`: one array along either axis.
        `between_arrays`: from one array to the next.
        `rules_off_when`, `three_sides`: rules that take the place of the model code's.
    """

    pathway_on_overhang: Sourced[bool]
    street_angle: Sourced[Annotated[float, between(0, 180, "degrees")]]

    judged_by: Sourced[Literal["residential", "fire"]] | None = None
    ridges: Sourced[Literal["all", "highest"]] | None = None
    far_side_of_ridge_is_adjacent: Sourced[bool] | None = None
    pathway_serves_planes: Sourced[Count] | None = None
    ratio_base: Sourced[Literal["roof", "plane"]] | None = None
    shed_high_edge: Sourced[Literal["ridge", "edge", "ask"]] | None = None
    centerline_pathways: Sourced[Literal["always", "over_150_ft"]] | None = None
    smoke_ventilation: Sourced[OneOrMore[SmokeOption]] | None = None

    ridge_setback: Sourced[Distance] | None = None
    ridge_setback_high: Sourced[Distance] | None = None
    area_limit: Sourced[Percent] | None = None
    area_limit_sprinklered: Sourced[Percent] | None = None
    hip_valley_setback: Sourced[Distance] | None = None
    edge_setback: Sourced[Distance] | None = None
    greatest_array_side: Sourced[Size] | None = None
    between_arrays: Sourced[Distance] | None = None
    rules_off_when: Sourced[RulesOffWhen] | None = None
    three_sides: Sourced[ThreeSides] | None = None
