"""Junction boxes against the arrays they stand at and the circuits that end in them."""

from collections.abc import Iterator
from typing import Literal

from planset.errors import Problem
from planset.job.arrays import Array
from planset.job.electrical.electrical import Electrical
from planset.job.electrical_checks.sources import inverter_of
from planset.source import Location, SourceDocument


def boxes_of(electrical: Electrical, circuits: Literal["strings", "branches"]) -> tuple[str, ...]:
    """Ids of the junction boxes in which strings or branches end, in the order of the boxes."""
    named = {branch.junction_box for branch in electrical.branches}
    if circuits == "strings":
        fed = [(string, inverter_of(string, electrical)) for string in electrical.strings]
        own = {string.junction_box for string, _ in fed if string.junction_box is not None}
        named = own | {inv.junction_box for s, inv in fed if inv and s.junction_box is None}
    return tuple(box.id for box in electrical.junction_boxes if box.id in named)


def check_boxes(
    electrical: Electrical, arrays: tuple[Array, ...], document: SourceDocument
) -> Iterator[Problem]:
    """Yield boxes at no array, boxes nobody uses, boxes of two inverters, and boxes not there."""
    known = [array.id for array in arrays]
    boxes = [box.id for box in electrical.junction_boxes]
    for number, box in enumerate(electrical.junction_boxes):
        if box.array not in known:
            place: Location = ("electrical", "junction_boxes", number, "array")
            message = f"no array has this id (got {box.array})"
            yield document.problem(place, message, f"write one of: {', '.join(known)}")
    serves: dict[str, set[str]] = {box: set() for box in boxes}
    for place, box_id, onward in _ends(electrical):
        if box_id not in serves:
            message = f"no junction box has this id (got {box_id})"
            mend = f"write one of: {', '.join(boxes)}" if boxes else "add it to junction_boxes"
            yield document.problem(place, message, mend)
        else:
            serves[box_id].add(onward)
    for number, box_id in enumerate(boxes):
        place = ("electrical", "junction_boxes", number)
        if not serves[box_id]:
            mend = "name it where a string, branch or inverter ends in it, or remove it"
            yield document.problem(place, f"nothing ends in {box_id}", mend)
        if len(serves[box_id]) > 1:
            several = ", ".join(sorted(serves[box_id]))
            message = f"{box_id} serves {several}, where a box serves one of them"
            yield document.problem(place, message, "give each of them a box of its own")


def _ends(electrical: Electrical) -> Iterator[tuple[Location, str, str]]:
    """Yield where a box is named, its name, and what its conductors lead on to."""
    for number, inverter in enumerate(electrical.inverters):
        place: Location = ("electrical", "inverters", number, "junction_box")
        yield place, inverter.junction_box, inverter.id
    for number, string in enumerate(electrical.strings):
        fed = inverter_of(string, electrical)
        if string.junction_box is not None and fed is not None:
            yield ("electrical", "strings", number, "junction_box"), string.junction_box, fed.id
    for number, branch in enumerate(electrical.branches):
        place = ("electrical", "branches", number, "junction_box")
        yield place, branch.junction_box, "branches"
