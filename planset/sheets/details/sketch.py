"""What the sections of attachment details are made of: lines, notes, screws, wood, breaks."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from planset.drawing.geometry import Box, Point
from planset.drawing.primitives import Line, Polyline, Primitive

CUT = "S-DETL-MCUT"
OUTLINE = "S-DETL-OTLN"
BEYOND = "S-DETL-MBND"
HIDDEN = "S-DETL-HIDN"
PATTERN = "S-DETL-PATT"

_JOG = 0.35  # of a break line, to either side [in]


@dataclass(frozen=True, slots=True)
class Note:
    """Words about one point of a section.

    Attributes:
        words: The note.
        at: What it names [model in].
        end: End of its leader, "arrow" on an edge or "dot" on a surface.
    """

    words: str
    at: Point
    end: str = "arrow"


@dataclass(frozen=True, slots=True)
class Measure:
    """One dimension of a section.

    Attributes:
        a: First point [model in].
        b: Second point [model in].
        offset: Of its line to the left of a to b, negative to the right [paper in].
    """

    a: Point
    b: Point
    offset: float


@dataclass(frozen=True, slots=True)
class Run:
    """Running dimensions below a section.

    Attributes:
        datum: Where the tape is hooked [model in].
        marked: What is marked off, all in a line with it [model in].
    """

    datum: Point
    marked: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Sketch:
    """A part of a section with what is said about it.

    Attributes:
        drawn: Its drawing [model in].
        notes: Words about it.
        measures: Its dimensions.
        runs: Its running dimensions.
    """

    drawn: tuple[Primitive, ...]
    notes: tuple[Note, ...] = ()
    measures: tuple[Measure, ...] = ()
    runs: tuple[Run, ...] = ()


@dataclass(frozen=True, slots=True)
class Section:
    """A whole section.

    Attributes:
        sketch: Its drawing with notes and dimensions.
        cut: From break to break, and from the foot of the rafter to the top of the modules
            [model in].
        remark: Words under its view.
        axis: Of the attachment, to either side of which its notes stand [model in].
    """

    sketch: Sketch
    cut: Box
    remark: str = ""
    axis: float = 0.0


def joined(sketches: Iterable[Sketch]) -> Sketch:
    """Several parts as one."""
    parts = tuple(sketches)
    return Sketch(
        tuple(primitive for part in parts for primitive in part.drawn),
        tuple(note for part in parts for note in part.notes),
        tuple(measure for part in parts for measure in part.measures),
        tuple(run for part in parts for run in part.runs),
    )


def rectangle(box: Box, layer: str) -> Polyline:
    """A closed rectangle."""
    return Polyline(box.corners, layer, closed=True)


def witness(at: Point, foot: float) -> Line:
    """A fine line from what a dimension below a section measures down to its foot."""
    return Line(at, (at[0], foot), PATTERN)


def break_line(x: float, y0: float, y1: float) -> Polyline:
    """A long break: an upright line with one zigzag in its middle."""
    middle = (y0 + y1) / 2
    points: tuple[Point, ...] = (
        (x, y0),
        (x, middle - _JOG),
        (x - _JOG, middle - _JOG / 2),
        (x + _JOG, middle + _JOG / 2),
        (x, middle + _JOG),
        (x, y1),
    )
    return Polyline(points, BEYOND)


def level_break(y: float, x0: float, x1: float) -> Polyline:
    """A long break that runs level."""
    upright = break_line(-y, x0, x1)
    return Polyline(tuple((y0, -x) for x, y0 in upright.points), BEYOND)


def open_below(box: Box, layer: str) -> list[Primitive]:
    """An upright piece cut off by a break at its foot."""
    sides = ((box.x0, box.y0), (box.x0, box.y1), (box.x1, box.y1), (box.x1, box.y0))
    return [Polyline(sides, layer), level_break(box.y0, box.x0 - _JOG, box.x1 + _JOG)]


def framing_lumber(box: Box) -> list[Primitive]:
    """Wood cut across its grain: the outline and both diagonals."""
    a, b, c, d = box.corners
    return [rectangle(box, CUT), Line(a, c, PATTERN), Line(b, d, PATTERN)]
