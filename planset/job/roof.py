"""The roof's shape and covering."""

import math
from functools import lru_cache
from typing import Annotated, Literal, Self

from pydantic import BeforeValidator, Field, model_validator

from planset.catalog.fields import (
    Azimuth,
    Count,
    Distance,
    Few,
    Id,
    Length,
    OneOrMore,
    Pitch,
    Several,
    Size,
    StrictModel,
    Text,
    between,
)
from planset.catalog.written import PITCH
from planset.job.covering import Covering
from planset.roof.edges import roof_of
from planset.roof.free import free_plane
from planset.roof.shapes import Dormer, MainRoof, SideName, Wing, shaped_roof
from planset.roof.solid import Roof as RoofSolid
from planset.units import parse_pitch

_LOW_PITCH = 2 / 12


def _read_fall(value: object) -> float:
    pitch = parse_pitch(value)
    if not 0 <= pitch <= _LOW_PITCH:
        msg = "not between level and 2:12; write a steeper roof as shape shed, gable or hip"
        raise ValueError(msg)
    return pitch


Fall = Annotated[float, BeforeValidator(_read_fall), PITCH]
"""Rise per run of a flat roof, from 0 to 2:12."""


class WingShape(StrictModel):
    """A wing of which the ridge runs square to a side of the main roof; inches in plan.

    `from_left` runs along that side to the wing's own eave line, as one faces the side;
    `projection` from the main eave line outward; `eave_above` is how much higher its eaves lie.
    """

    id: Id
    side: SideName
    from_left: Distance
    width: Size
    projection: Size
    pitch: Pitch
    end: Literal["gable", "hip"]
    eave_above: Annotated[Length, between(-600, 600, "in")]

    @property
    def body(self) -> Wing:
        """The wing as geometry."""
        return Wing(
            self.id,
            self.side,
            self.from_left,
            self.width,
            self.projection,
            self.pitch,
            self.end == "hip",
            self.eave_above,
        )


class DormerShape(StrictModel):
    """A dormer; inches in plan, overhangs included.

    `from_left` runs along the eave below it, `setback` from that eave to its face; `eave_above` is
    its own eave line above the main eaves.
    """

    id: Id
    kind: Literal["gable", "shed"]
    side: SideName
    from_left: Distance
    width: Size
    setback: Distance
    eave_above: Size
    pitch: Pitch

    @property
    def body(self) -> Dormer:
        """The dormer as geometry."""
        return Dormer(
            self.id,
            self.kind,
            self.side,
            self.from_left,
            self.width,
            self.setback,
            self.eave_above,
            self.pitch,
        )


class _AnyRoof(StrictModel):
    """What every roof states; `front_azimuth` is the compass bearing of its front, degrees."""

    front_azimuth: Azimuth
    eave_overhang: Distance
    rake_overhang: Distance
    layers: Count
    covering: Covering

    @property
    def plane_names(self) -> tuple[str, ...]:
        """Ids of its planes."""
        return tuple(plane.id for plane in self.solid.planes)

    @property
    def solid(self) -> RoofSolid:
        """The roof as planes and edges.

        Raises:
            RoofShapeError: A wing or dormer does not fit.
        """
        return _solid_of(self)

    def build(self) -> RoofSolid:
        """Build the roof; `solid` remembers it."""
        raise NotImplementedError


@lru_cache(maxsize=32)
def _solid_of(roof: _AnyRoof) -> RoofSolid:
    return roof.build()


class _SlopedRoof(_AnyRoof):
    """A roof over a rectangle; its depth is in plan, or given by the length up the slope."""

    depth: Size | None = None
    slope_length: Size | None = None
    pitch: Pitch
    wings: Few[WingShape] = ()
    dormers: Few[DormerShape] = ()

    @model_validator(mode="after")
    def _check_depth(self) -> Self:
        if (self.depth is None) == (self.slope_length is None):
            msg = "its depth is not clear; give either depth, in plan, or slope_length, on the roof"
            raise ValueError(msg)
        return self

    def _depth_in(self, slopes: int) -> float:
        """Front to back in plan, from so many slopes of the length measured on the roof."""
        if self.depth is not None:
            return self.depth
        return slopes * (self.slope_length or 0.0) / math.hypot(1.0, self.pitch)

    def _built(self, main: MainRoof) -> RoofSolid:
        return shaped_roof(
            main,
            tuple(wing.body for wing in self.wings),
            tuple(dormer.body for dormer in self.dormers),
            self.front_azimuth,
        )

    def _check_room(self, along: float, deep: float, across: float, words: str) -> None:
        if 2 * across >= along or 2 * self.eave_overhang >= deep:
            msg = f"the overhangs leave no house between them; check them, {words}"
            raise ValueError(msg)


class GableRoof(_SlopedRoof):
    """Two equal planes, front and back, that meet in a ridge.

    Lengths in inches, overhangs included; `ridge_length` and `depth` in plan, `slope_length` from
    eave to ridge on the surface; `pitch` is rise per run.
    """

    shape: Literal["gable"]
    ridge_length: Size

    @model_validator(mode="after")
    def _check_overhangs(self) -> Self:
        self._check_room(
            self.ridge_length, self._depth_in(2), self.rake_overhang, "depth and ridge_length"
        )
        return self

    def build(self) -> RoofSolid:
        """Build the roof."""
        return self._built(MainRoof("gable", self.ridge_length, self._depth_in(2), self.pitch))


class HipRoof(_SlopedRoof):
    """Four planes of one pitch, front, right, back and left, on a rectangle of eaves.

    `length` along the front and `depth` in plan, inches; `slope_length` from the longer eaves to
    the ridge on the surface.
    """

    shape: Literal["hip"]
    length: Size

    @model_validator(mode="after")
    def _check_overhangs(self) -> Self:
        self._check_room(self.length, self._depth_in(2), self.eave_overhang, "length and depth")
        return self

    def build(self) -> RoofSolid:
        """Build the roof."""
        return self._built(MainRoof("hip", self.length, self._depth_in(2), self.pitch))


class PyramidRoof(_AnyRoof):
    """Four equal triangles on a square of eaves; `width` in plan, inches."""

    shape: Literal["pyramid"]
    width: Size
    pitch: Pitch
    wings: Few[WingShape] = ()
    dormers: Few[DormerShape] = ()

    @model_validator(mode="after")
    def _check_overhangs(self) -> Self:
        if 2 * self.eave_overhang >= self.width:
            msg = "the overhangs leave no house between them; check eave_overhang and width"
            raise ValueError(msg)
        return self

    def build(self) -> RoofSolid:
        """Build the roof."""
        return shaped_roof(
            MainRoof("hip", self.width, self.width, self.pitch),
            tuple(wing.body for wing in self.wings),
            tuple(dormer.body for dormer in self.dormers),
            self.front_azimuth,
        )


class ShedRoof(_SlopedRoof):
    """One plane, front, that falls to the front; `length` along the front and `depth` in plan."""

    shape: Literal["shed"]
    length: Size

    @model_validator(mode="after")
    def _check_overhangs(self) -> Self:
        self._check_room(self.length, self._depth_in(1), self.rake_overhang, "length and depth")
        return self

    def build(self) -> RoofSolid:
        """Build the roof."""
        return self._built(MainRoof("shed", self.length, self._depth_in(1), self.pitch))


class Parapet(StrictModel):
    """The parapet around a flat roof, inches; the roof is measured to its outer face."""

    height: Size
    thickness: Size


def _none_as_absent(value: object) -> object:
    """Let the word `none` stand for a roof without parapet.

    Raises:
        ValueError: No value at all; a parapet is never assumed, nor its absence.
    """
    if value == "none":
        return None
    if value is None or isinstance(value, str):
        msg = "neither none nor a group of fields; write none, or height and thickness below"
        raise ValueError(msg)
    return value


class FlatRoof(_AnyRoof):
    """One plane, front, level or falling slightly to the front; inches in plan.

    `parapet` is its height and thickness, or none: it is never assumed.
    """

    shape: Literal["flat"]
    length: Size
    depth: Size
    pitch: Fall
    parapet: Annotated[
        Parapet | None,
        BeforeValidator(_none_as_absent, json_schema_input_type=Literal["none"] | Parapet),
    ]

    @model_validator(mode="after")
    def _check_overhangs(self) -> Self:
        if 2 * self.eave_overhang >= min(self.length, self.depth):
            msg = "the overhangs leave no house between them; check eave_overhang, length and depth"
            raise ValueError(msg)
        if self.parapet and 2 * self.parapet.thickness >= min(self.length, self.depth):
            msg = "the parapets leave no roof between them; check parapet, length and depth"
            raise ValueError(msg)
        return self

    def build(self) -> RoofSolid:
        """Build the roof."""
        main = MainRoof("flat", self.length, self.depth, self.pitch)
        parapet = self.parapet is not None
        return shaped_roof(main, front_azimuth_deg=self.front_azimuth, parapet=parapet)


class Corner(StrictModel):
    """A corner in plan, inches: x to the right along the front, y away from it."""

    x: Annotated[Length, between(-12_000, 12_000, "in")]
    y: Annotated[Length, between(-12_000, 12_000, "in")]


class FreePlane(StrictModel):
    """One plane by its corners in plan.

    `faces` is the compass bearing it falls toward, degrees; `lowest` the height of its lowest
    corner above the eave line of the house, inches.
    """

    id: Id
    corners: OneOrMore[Corner]
    pitch: Pitch
    faces: Azimuth
    lowest: Annotated[Length, between(-1200, 1200, "in")]

    @model_validator(mode="after")
    def _check_corners(self) -> Self:
        if len(self.corners) < 3:
            msg = f"a plane needs three corners or more (got {len(self.corners)}); add the others"
            raise ValueError(msg)
        free_plane(self.id, self.ring, self.pitch, self.faces, self.lowest, 180.0)
        return self

    @property
    def ring(self) -> tuple[tuple[float, float], ...]:
        """Its corners in plan, inches."""
        return tuple((corner.x, corner.y) for corner in self.corners)


class FreeRoof(_AnyRoof):
    """Any roof, plane by plane; planes that meet agree in height, unless a step is stated.

    `steps` are pairs of planes between which a wall stands.
    """

    shape: Literal["planes"]
    planes: OneOrMore[FreePlane]
    steps: Several[Annotated[tuple[Text, Text], Field(strict=False)]] = ()

    def build(self) -> RoofSolid:
        """Build the roof."""
        return roof_of(
            free_plane(
                plane.id, plane.ring, plane.pitch, plane.faces, plane.lowest, self.front_azimuth
            )
            for plane in self.planes
        )


Roof = Annotated[
    GableRoof | HipRoof | PyramidRoof | ShedRoof | FlatRoof | FreeRoof,
    Field(discriminator="shape"),
]
"""Any roof."""
