"""Walls with equipment: what hangs on them exists, once, and within the wall."""

from collections.abc import Iterator
from itertools import combinations

from planset.errors import Problem
from planset.job.electrical.electrical import Electrical
from planset.job.electrical.wall import EquipmentWall, OnWall
from planset.job.electrical_checks import ids
from planset.source import Location, SourceDocument
from planset.units import format_feet_inches


def check_walls(electrical: Electrical, document: SourceDocument) -> Iterator[Problem]:
    """Yield equipment that the system has not, that hangs twice, or that reaches past its wall."""
    known = wall_tags(electrical)
    first: dict[str, Location] = {}
    for wall_number, wall in enumerate(electrical.walls):
        where: Location = ("electrical", "walls", wall_number, "equipment")
        for number, item in enumerate(wall.equipment):
            place = (*where, number)
            if item.tag not in known:
                yield no_such_tag(item.tag, (*place, "tag"), known, document)
            if item.tag in first:
                message = f"{item.tag} hangs on a wall on line {document.line_of(first[item.tag])}"
                yield document.problem((*place, "tag"), message, "show each piece once")
            first.setdefault(item.tag, (*place, "tag"))
            yield from _check_within(item, wall, place, document)
        yield from _check_apart(wall, where, document)


def wall_tags(electrical: Electrical) -> list[str]:
    """Tags of what may hang on a wall, or stand at one."""
    tags = [ids.PANEL, ids.METER, ids.DISCONNECT]
    if electrical.interconnection.method == "supply_side_tap":
        tags.append(ids.TAP)
    if electrical.production_meter is not None:
        tags.append(ids.PRODUCTION_METER)
    elsewhere = ("strings", "branches", "junction_boxes", "pull_boxes", "shutdown_contact")
    for place, name in ids.electrical_ids(electrical):
        if place[1] not in elsewhere:
            tags.append(name)
    return tags


def no_such_tag(tag: str, place: Location, known: list[str], document: SourceDocument) -> Problem:
    """The problem of a tag that the system has not."""
    mend = f"write one of: {', '.join(known)}"
    return document.problem(place, f"no equipment has this tag (got {tag})", mend)


def _check_within(
    item: OnWall, wall: EquipmentWall, place: Location, document: SourceDocument
) -> Iterator[Problem]:
    for start, size, room in (
        ("left", item.width, wall.width),
        ("bottom", item.height, wall.height),
    ):
        if getattr(item, start) + size > room:
            message = (
                f"{item.tag} reaches past the wall, which has {format_feet_inches(room)} there"
            )
            mend = "correct its place and size, or those of the wall"
            yield document.problem((*place, start), message, mend)


def _check_apart(
    wall: EquipmentWall, where: Location, document: SourceDocument
) -> Iterator[Problem]:
    """Two pieces cannot hang in one place."""
    for (_, one), (number, other) in combinations(enumerate(wall.equipment), 2):
        across = one.left < other.left + other.width and other.left < one.left + one.width
        up = one.bottom < other.bottom + other.height and other.bottom < one.bottom + one.height
        if across and up:
            message = f"{other.tag} hangs in the place of {one.tag}"
            yield document.problem((*where, number, "left"), message, "correct the place of one")
