"""Photovoltaic modules."""

from typing import Annotated, Literal, Self

from pydantic import model_validator

from planset.catalog.fields import (
    Count,
    Distance,
    FireType,
    Rating,
    Size,
    StrictModel,
    Text,
    Weight,
    above,
    between,
)

Edge = Annotated[Size, between(6, 120, "in")]
"""Inches of an edge of a module. The bounds are common practice, no source: far enough from every
module sold for roofs, near enough that millimeters read as inches fall outside."""

FrameDepth = Annotated[Size, between(0.1, 4, "in")]
"""Inches of a frame, or of a module without one; bounds as of an edge."""

TemperatureCoefficient = Annotated[float, between(-1, -0.01, "% per C"), above(-1, "% per C")]


class ClampZone(StrictModel):
    """Where along an edge a module may be clamped, from its corner; inches."""

    start: Distance
    end: Size

    @model_validator(mode="after")
    def _check_order(self) -> Self:
        if self.start > self.end:
            msg = "start is more than end; exchange them"
            raise ValueError(msg)
        return self


class Clamping(StrictModel):
    """Where a module may be clamped by its manual; None for an edge that takes no clamp."""

    long_edge: ClampZone | None
    short_edge: ClampZone | None
    document: Text
    page: Count


class Leads(StrictModel):
    """The leads of a module by its data sheet, as delivered; inches each."""

    positive: Size
    negative: Size


class Module(StrictModel):
    """A module as its data sheet gives it, at standard test conditions.

    `bifacial_isc_a` is the short-circuit current that its nameplate gives with light on the back,
    None for a module without a back side that works; circuits are sized by it.
    """

    kind: Literal["module"]
    maker: Text
    model: Text
    document: Text
    width: Edge
    height: Edge
    depth: FrameDepth
    weight: Weight
    power_w: Rating
    voc_v: Rating
    isc_a: Rating
    vmp_v: Rating
    imp_a: Rating
    voc_percent_per_c: TemperatureCoefficient
    power_percent_per_c: TemperatureCoefficient
    series_fuse_a: Rating
    max_system_v: Rating
    fire_type: FireType
    listing: Text
    bifacial_isc_a: Rating | None = None
    leads: Leads | None = None
    clamping: Clamping | None = None

    @property
    def sizing_isc_a(self) -> float:
        """The short-circuit current that circuits are sized by [A]."""
        return max(self.isc_a, self.bifacial_isc_a or 0.0)

    @model_validator(mode="after")
    def _check_order(self) -> Self:
        if self.width < self.height:
            msg = "width is the long edge, yet height is longer; exchange width and height"
            raise ValueError(msg)
        if self.vmp_v >= self.voc_v or self.imp_a >= self.isc_a:
            msg = "vmp_v and imp_a must lie below voc_v and isc_a; check them on the data sheet"
            raise ValueError(msg)
        return self
