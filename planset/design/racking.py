"""Rails and attachments of an array in the plane's own frame, whichever way the rails run."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from typing import TYPE_CHECKING

from planset.design.rail_shares import continuity, reversals, shares
from planset.design.support_lines import SupportLine
from planset.drawing.geometry import Box, Point

if TYPE_CHECKING:
    from planset.design.layout import PlacedArray

TAG_LETTERS = {"hook": "H", "standoff": "P", "flashed_foot": "F", "seam_clamp": "C"}
"""First letter of an attachment's tag, by its kind; P is a post."""


@dataclass(frozen=True, slots=True)
class Rail:
    """One rail, up the slope or across it.

    Attributes:
        id: Tag, e.g. "R1".
        array: Id of its array.
        number: Counted in its array, from the left, or from the eave for rails across.
        up: Whether it runs up the slope.
        line_in: Its line: from the left end of the eave when it runs up, else from the eave [in].
        start_in: Its lower or left end, measured along it [in].
        end_in: Its upper or right end [in].
    """

    id: str
    array: str
    number: int
    up: bool
    line_in: float
    start_in: float
    end_in: float

    @property
    def length_in(self) -> float:
        """Length of the rail [in]."""
        return self.end_in - self.start_in

    def at(self, along_in: float) -> Point:
        """The point (u, v) of its line at a distance along it [in]."""
        return (self.line_in, along_in) if self.up else (along_in, self.line_in)

    def box(self, width_in: float) -> Box:
        """What it covers, (u, v) [in]."""
        half = width_in / 2
        if self.up:
            return Box(self.line_in - half, self.start_in, self.line_in + half, self.end_in)
        return Box(self.start_in, self.line_in - half, self.end_in, self.line_in + half)


@dataclass(frozen=True, slots=True)
class Attachment:
    """One roof attachment.

    Attributes:
        id: Tag, unique in the job, e.g. "H12".
        array: Id of its array.
        rail: Id of its rail.
        line: Number of the rafter or seam it stands on.
        u_in: Distance from the left end of the eave [in].
        v_in: Distance from the eave on the surface [in].
        along_in: Whichever of the two is measured along its rail [in].
        tributary: The part of the array whose load it takes, on the surface (u, v) [in].
        held_in: Length of its rail whose load it takes [in].
        width_in: Width of the strip that the rail carries there [in].
        continuity: Factor on the tributary load for the beam that the rail is, unitless.
        reversal: Share of that load which this beam turns round here, 0 for most, unitless.
        pinned: Whether the drafter set it.
    """

    id: str
    array: str
    rail: str
    line: int
    u_in: float
    v_in: float
    along_in: float
    tributary: Box
    held_in: float
    width_in: float
    continuity: float
    reversal: float = 0.0
    pinned: bool = False

    @property
    def tributary_sqft(self) -> float:
        """Area whose load it takes [sq ft]."""
        return self.tributary.width * self.tributary.height / 144


@dataclass(frozen=True)
class Racking:
    """Rails and attachments of one array.

    Attributes:
        array: Id of the array.
        rails: Rails from the left, or from the eave for rails across.
        attachments: By rail, then along it.
    """

    array: str
    rails: tuple[Rail, ...]
    attachments: tuple[Attachment, ...]

    @property
    def apart_across_in(self) -> tuple[float, ...]:
        """Distances between neighboring attachments across the slope, rail lines when up [in]."""
        if all(rail.up for rail in self.rails):
            return _apart(rail.line_in for rail in self.rails)
        return tuple(
            gap for held in self.by_rail.values() for gap in _apart(item.u_in for item in held)
        )

    @property
    def apart_along_in(self) -> tuple[float, ...]:
        """Distances between neighboring attachments along the rails [in]."""
        return tuple(
            gap for held in self.by_rail.values() for gap in _apart(item.along_in for item in held)
        )

    @cached_property
    def by_rail(self) -> Mapping[str, Sequence[Attachment]]:
        """The attachments of every rail along it, by the rail's tag."""
        found: dict[str, list[Attachment]] = {rail.id: [] for rail in self.rails}
        for item in self.attachments:
            found[item.rail].append(item)
        return found


@dataclass(frozen=True, slots=True)
class RailPlan:
    """Where one rail lies, what loads it, and where attachments stand under it.

    Attributes:
        up: Whether it runs up the slope.
        line_in: Its line [in].
        start_in: Its lower or left end, along it [in].
        end_in: Its other end [in].
        loaded: From where to where modules lie on it, along it [in].
        strip: From where to where it carries them, across it [in].
        supports: The lines its attachments stand on, each with the distance along the rail [in].
        pinned: Numbers of those supports that the drafter set.
    """

    up: bool
    line_in: float
    start_in: float
    end_in: float
    loaded: tuple[float, float]
    strip: tuple[float, float]
    supports: tuple[tuple[SupportLine, float], ...]
    pinned: frozenset[int] = frozenset()


def racking_of(
    array: PlacedArray, plans: Sequence[RailPlan], rails_before: int, attachments_before: int
) -> Racking:
    """Rails and attachments as planned, tags running on.

    Args:
        array: The array.
        plans: Its rails in the order in which they are tagged.
        rails_before: Rails tagged before.
        attachments_before: Attachments tagged before.
    """
    rails: list[Rail] = []
    attachments: list[Attachment] = []
    letter = TAG_LETTERS[array.system.attachment.kind]
    for number, plan in enumerate(plans, 1):
        tag = f"R{rails_before + number}"
        ends = (plan.line_in, plan.start_in, plan.end_in)
        rail = Rail(tag, array.id, number, plan.up, *ends)
        rails.append(rail)
        places = [along for _, along in plan.supports]
        lengths = shares(places, *plan.loaded)
        factors = continuity(places, *plan.loaded)
        turned = reversals(places, *plan.loaded)
        for place, (line, along) in enumerate(plan.supports):
            u, v = rail.at(along)
            attachments.append(
                Attachment(
                    id=f"{letter}{attachments_before + len(attachments) + 1:02d}",
                    array=array.id,
                    rail=tag,
                    line=line.number,
                    u_in=u,
                    v_in=v,
                    along_in=along,
                    tributary=_tributary(plan, lengths[place]),
                    held_in=lengths[place][1] - lengths[place][0],
                    width_in=plan.strip[1] - plan.strip[0],
                    continuity=factors[place],
                    reversal=turned[place],
                    pinned=place in plan.pinned,
                )
            )
    return Racking(array.id, tuple(rails), tuple(attachments))


def _tributary(plan: RailPlan, length: tuple[float, float]) -> Box:
    (low, high), (left, right) = length, plan.strip
    return Box(left, low, right, high) if plan.up else Box(low, left, high, right)


def _apart(places: Iterable[float]) -> tuple[float, ...]:
    return tuple(b - a for a, b in pairwise(sorted(set(places))))
