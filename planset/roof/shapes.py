"""Roofs by shape: the bodies of a gable, hip, shed or flat roof, of its wings and its dormers."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from planset.roof.edges import roof_of
from planset.roof.envelope import Body, Slope, planes_of
from planset.roof.plane import Point, Ring
from planset.roof.solid import EdgeKind, Roof
from planset.units import format_feet_inches

SideName = Literal["front", "right", "back", "left"]

DOWNSLOPE: dict[str, Point] = {
    "front": (0.0, -1.0),
    "right": (1.0, 0.0),
    "back": (0.0, 1.0),
    "left": (-1.0, 0.0),
}
"""The way each side of a house faces, in plan."""


class RoofShapeError(ValueError):
    """A roof that cannot be built as stated.

    Attributes:
        place: The field of the roof concerned, as ("wings", 0).
    """

    def __init__(self, message: str, *place: str | int) -> None:
        self.place = place
        super().__init__(message)


@dataclass(frozen=True, slots=True)
class MainRoof:
    """The main body of a roof over a rectangle.

    Attributes:
        kind: "gable" (ridge parallel to the front), "hip", "shed" (falls to the front) or "flat".
        length_in: Along the front, in plan, overhangs included [in].
        depth_in: From front to back, in plan, overhangs included [in].
        pitch: Rise per run, unitless.
    """

    kind: Literal["gable", "hip", "shed", "flat"]
    length_in: float
    depth_in: float
    pitch: float

    @property
    def footprint(self) -> Ring:
        """The rectangle in plan, counterclockwise from the front left corner [in]."""
        x, y = self.length_in, self.depth_in
        return ((0.0, 0.0), (x, 0.0), (x, y), (0.0, y))

    @property
    def eave_sides(self) -> tuple[str, ...]:
        """The sides its slopes fall to."""
        sides = {"gable": ("front", "back"), "hip": tuple(DOWNSLOPE)}
        return sides.get(self.kind, ("front",))

    @property
    def body(self) -> Body:
        """The body."""
        corners = self.footprint
        at = dict(zip(("front", "right", "back", "left"), corners, strict=True))
        slopes = tuple(
            Slope(side, DOWNSLOPE[side], at[side], 0.0, self.pitch) for side in self.eave_sides
        )
        return Body(corners, slopes)

    @property
    def top_in(self) -> float:
        """Height of its ridge, apex or high edge above the eaves [in]."""
        run = {"gable": self.depth_in / 2, "hip": min(self.length_in, self.depth_in) / 2}
        return self.pitch * run.get(self.kind, self.depth_in)


@dataclass(frozen=True, slots=True)
class Wing:
    """A gabled or hipped wing whose ridge runs square to a side of the main roof.

    Attributes:
        id: Its planes are id-left, id-right and, when hipped, id-end.
        side: Side of the main roof it stands before.
        from_left_in: From the left end of that side, as one faces it, to the wing's eave [in].
        width_in: Eave to eave in plan [in].
        projection_in: From the line of the main eave outward, in plan [in].
        pitch: Rise per run, unitless.
        hipped: Whether its end is hipped.
        eave_above_in: Its eaves above those of the main roof; negative when lower [in].
    """

    id: str
    side: SideName
    from_left_in: float
    width_in: float
    projection_in: float
    pitch: float
    hipped: bool = False
    eave_above_in: float = 0.0


@dataclass(frozen=True, slots=True)
class Dormer:
    """A dormer that stands out of one slope of the main roof.

    Attributes:
        id: Its planes are id-left and id-right, or id alone when it is a shed dormer.
        kind: "gable" or "shed".
        side: The slope it stands on.
        from_left_in: From the left end of that slope's eave to the dormer, in plan [in].
        width_in: Across, in plan, overhangs included [in].
        setback_in: From the main eave to the dormer's face, in plan [in].
        eave_above_in: Its eave line above the main eaves [in].
        pitch: Rise per run, unitless.
    """

    id: str
    kind: Literal["gable", "shed"]
    side: SideName
    from_left_in: float
    width_in: float
    setback_in: float
    eave_above_in: float
    pitch: float


def shaped_roof(
    main: MainRoof,
    wings: tuple[Wing, ...] = (),
    dormers: tuple[Dormer, ...] = (),
    front_azimuth_deg: float = 180.0,
    *,
    parapet: bool = False,
) -> Roof:
    """The roof of a main body with what stands before it and out of it.

    Args:
        main: The main body.
        wings: Wings.
        dormers: Dormers.
        front_azimuth_deg: Compass bearing the front faces [deg].
        parapet: Whether a flat roof ends at parapets.

    Raises:
        RoofShapeError: A wing or dormer does not fit the main roof; says the heights.
    """
    bodies = [main.body]
    bodies += [_wing(main, wing, ("wings", n)) for n, wing in enumerate(wings)]
    bodies += [_dormer(main, dormer, ("dormers", n)) for n, dormer in enumerate(dormers)]
    roof = roof_of(planes_of(tuple(bodies), front_azimuth_deg))
    if main.kind == "flat":
        return _with_flat_edges(roof, EdgeKind.PARAPET if parapet else EdgeKind.ROOF_EDGE)
    return roof


def gable_roof(
    ridge_length_in: float, depth_in: float, pitch: float, front_azimuth_deg: float
) -> Roof:
    """A gable roof with its ridge parallel to the front eave.

    Args:
        ridge_length_in: Rake to rake in plan, overhangs included [in].
        depth_in: Eave to eave in plan, overhangs included [in].
        pitch: Rise per run, unitless.
        front_azimuth_deg: Compass bearing the front plane faces [deg].
    """
    main = MainRoof("gable", ridge_length_in, depth_in, pitch)
    return shaped_roof(main, front_azimuth_deg=front_azimuth_deg)


def _side_frame(main: MainRoof, side: str) -> tuple[Point, Point, float, float]:
    """Left end of a side as one faces it, the way along it, its length and the depth behind."""
    x, y = main.length_in, main.depth_in
    return {
        "front": ((0.0, 0.0), (1.0, 0.0), x, y),
        "right": ((x, 0.0), (0.0, 1.0), y, x),
        "back": ((x, y), (-1.0, 0.0), x, y),
        "left": ((0.0, y), (0.0, -1.0), y, x),
    }[side]


def _on_side(main: MainRoof, side: str, along: float, inward: float) -> Point:
    """A plan point by its way along a side and inward from it [in]."""
    (x, y), (ax, ay), _, _ = _side_frame(main, side)
    out = DOWNSLOPE[side]
    return (x + along * ax - inward * out[0], y + along * ay - inward * out[1])


def _must_stand_on_eave(main: MainRoof, side: str, place: tuple[str | int, ...]) -> None:
    if side not in main.eave_sides:
        eaves = ", ".join(main.eave_sides)
        msg = f"the {side} of a {main.kind} roof has no eave; write one of: {eaves}"
        raise RoofShapeError(msg, *place, "side")


def _must_lie_within(
    main: MainRoof, side: str, start: float, width: float, place: tuple[str | int, ...]
) -> None:
    length = _side_frame(main, side)[2]
    if start + width > length + 1e-6:
        ends, whole = format_feet_inches(start + width), format_feet_inches(length)
        msg = f"it ends {ends} along the {side}, which is {whole} long; check from_left and width"
        if place[0] == "wings":
            msg += (
                ". A wing flush with the end wall whose eave stands out farther than the rake is "
                "described with shape: planes"
            )
        raise RoofShapeError(msg, *place)


def _run_behind(main: MainRoof, side: str) -> float:
    """How far a slope rises behind its eave, in plan [in]."""
    if main.kind in ("shed", "flat"):
        return main.depth_in
    depth = _side_frame(main, side)[3]
    return depth / 2 if main.kind == "gable" else min(main.length_in, main.depth_in) / 2


def _wing(main: MainRoof, wing: Wing, place: tuple[str | int, ...]) -> Body:
    _must_stand_on_eave(main, wing.side, place)
    _must_lie_within(main, wing.side, wing.from_left_in, wing.width_in, place)
    top = wing.eave_above_in + wing.pitch * wing.width_in / 2
    if top > main.top_in + 1e-6:
        own, mains = format_feet_inches(top), format_feet_inches(main.top_in)
        msg = (
            f"its ridge stands {own} above the main eaves, over the main ridge at {mains}; "
            "check width, pitch and eave_above, or describe the roof as planes"
        )
        raise RoofShapeError(msg, *place)
    near, far = wing.from_left_in, wing.from_left_in + wing.width_in
    inner = _run_behind(main, wing.side)
    outer = -wing.projection_in
    corners = [(near, outer), (far, outer), (far, inner), (near, inner)]
    footprint = tuple(_on_side(main, wing.side, u, d) for u, d in corners)
    slopes = _pair(wing.id, wing.side, footprint, wing.eave_above_in, wing.pitch)
    if wing.hipped:
        down = DOWNSLOPE[wing.side]
        end = Slope(f"{wing.id}-end", down, footprint[0], wing.eave_above_in, wing.pitch)
        slopes = (*slopes, end)
    return Body(footprint, slopes)


def _pair(name: str, side: str, footprint: Ring, height: float, pitch: float) -> tuple[Slope, ...]:
    """The slopes left and right of a ridge that runs inward, as one faces the side."""
    dx, dy = DOWNSLOPE[side]
    along = (-dy, dx)
    left = Slope(f"{name}-left", (-along[0], -along[1]), footprint[0], height, pitch)
    return (left, replace(left, id=f"{name}-right", downslope=along, at=footprint[1]))


def _dormer(main: MainRoof, dormer: Dormer, place: tuple[str | int, ...]) -> Body:
    _must_stand_on_eave(main, dormer.side, place)
    _must_lie_within(main, dormer.side, dormer.from_left_in, dormer.width_in, place)
    run = _run_behind(main, dormer.side)
    foot = main.pitch * dormer.setback_in
    if dormer.eave_above_in <= foot:
        own, under = format_feet_inches(dormer.eave_above_in), format_feet_inches(foot)
        msg = (
            f"its eaves stand {own} above the main eaves and the roof at its face {under}, so it "
            "has no face; check setback and eave_above"
        )
        raise RoofShapeError(msg, *place)
    half = dormer.width_in / 2 if dormer.kind == "gable" else max(run - dormer.setback_in, 0.0)
    top = dormer.eave_above_in + dormer.pitch * half
    if top > main.top_in + 1e-6:
        own, mains = format_feet_inches(top), format_feet_inches(main.top_in)
        msg = (
            f"its roof reaches {own} above the main eaves before it meets the main roof, whose "
            f"ridge is at {mains}; check setback, eave_above and pitch"
        )
        raise RoofShapeError(msg, *place)
    near, far = dormer.from_left_in, dormer.from_left_in + dormer.width_in
    corners = [(near, dormer.setback_in), (far, dormer.setback_in), (far, run), (near, run)]
    footprint = tuple(_on_side(main, dormer.side, u, d) for u, d in corners)
    if dormer.kind == "gable":
        slopes = _pair(dormer.id, dormer.side, footprint, dormer.eave_above_in, dormer.pitch)
    else:
        down = DOWNSLOPE[dormer.side]
        slopes = (Slope(dormer.id, down, footprint[0], dormer.eave_above_in, dormer.pitch),)
    return Body(footprint, slopes)


def _with_flat_edges(roof: Roof, kind: EdgeKind) -> Roof:
    """The edges of a flat roof by the name of what ends it, clockwise numbers from the front."""
    count = len(roof.edges)
    names = ("front", "right", "back", "left") if count == 4 else tuple(map(str, range(count)))
    edges = tuple(
        replace(edge, id=f"{names[n]} {kind}", kind=kind) for n, edge in enumerate(roof.edges)
    )
    return replace(roof, edges=edges)
