"""Rails: their section, what it holds, and the maker's span table."""

from typing import Annotated, Literal, Self

from pydantic import model_validator

from planset.catalog.fields import (
    Count,
    Date,
    Distance,
    OneOrMore,
    Size,
    SnowLoad,
    StrictModel,
    Text,
    WindSpeed,
    above,
    between,
)
from planset.citation import CodeEdition

Inertia = Annotated[float, above(0, "in4"), between(0.001, 1000, "in4")]
Modulus = Annotated[float, between(1e6, 30e6, "psi")]
Moment = Annotated[float, above(0, "lb-ft"), between(0.1, 100_000, "lb-ft")]

_NOISE_IN = 1e-6


class RailSection(StrictModel):
    """What a rail holds in bending across its width, and where that is documented.

    `inertia_in4` and `modulus_psi` are for the deflection; `moment_lb_ft` is the allowable moment,
    the lesser of both directions.
    """

    inertia_in4: Inertia
    modulus_psi: Modulus
    moment_lb_ft: Moment
    basis: Literal["ASD", "LRFD"]
    document: Text | None = None
    page: Count | None = None


class SpanRow(StrictModel):
    """One line of a span table: up to which site it holds, and the span it allows, inches.

    It holds for every wind speed, snow load and roof height up to those named, in its exposure.
    """

    zone: Text
    exposure: Literal["B", "C", "D"]
    wind_speed: WindSpeed
    ground_snow: SnowLoad
    roof_height: Size
    slope_from: Annotated[float, between(0, 90, "degrees")]
    slope_to: Annotated[float, between(0, 90, "degrees")]
    span: Size
    cantilever: Distance


class SpanTable(StrictModel):
    """A maker's table of rail spans, by the loads of one edition of ASCE 7.

    `tributary_width` is the greatest strip of modules that one rail of the table carries, inches.
    """

    loads_edition: Annotated[int, between(1990, 2100)]
    tributary_width: Size
    document: Text
    page: Count
    issued: Date
    rows: OneOrMore[SpanRow]

    @property
    def edition_name(self) -> str:
        """The edition of ASCE 7 it is computed by, as it is printed."""
        return str(CodeEdition("ASCE 7", self.loads_edition))


class Splice(StrictModel):
    """What joins two pieces of a rail; inches.

    It lies `window_from` to `window_to` of a span from the attachment beside it, never in a free
    end; on an attachment only where `on_attachment` says so. With `expansion_after` no rail is
    longer, and the arrays it parts are `expansion_gap` from each other at least: neither a module
    nor a clamp may bridge the gap in which rails grow with heat.
    """

    name: Text
    length: Size
    window_from: Annotated[float, between(0, 0.5)]
    window_to: Annotated[float, between(0, 0.5)]
    on_attachment: bool = False
    expansion_after: Size | None = None
    expansion_gap: Distance = 0.0
    torque: Text
    document: Text
    page: Count

    @model_validator(mode="after")
    def _check_window(self) -> Self:
        if self.window_from > self.window_to:
            msg = "window_from is more than window_to; exchange them"
            raise ValueError(msg)
        return self

    def is_too_long(self, rail_in: float) -> bool:
        """Whether a rail of this length would grow too much with heat."""
        return self.expansion_after is not None and rail_in > self.expansion_after + _NOISE_IN


class RailProfile(StrictModel):
    """A rail, inches: section, stock length, and how far it runs past the outer module edge.

    `deflection_ratio` is the span over the greatest deflection, `cantilever_share` the longest
    free end as a share of the span beside it. Both are the maker's. `kerf` is what a saw cut
    takes. Without `splice` a rail is one piece.
    """

    width: Size
    height: Size
    stock_length: Size
    past_module: Annotated[Distance, between(0, 24, "in")]
    section: RailSection
    deflection_ratio: Annotated[float, between(60, 1000)]
    cantilever_share: Annotated[float, between(0, 1)]
    kerf: Annotated[Distance, between(0, 1, "in")] = 0.125
    splice: Splice | None = None
    span_table: SpanTable | None = None
