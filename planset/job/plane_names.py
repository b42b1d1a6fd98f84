"""Planes that a survey names must be planes of the roof."""

from collections.abc import Iterable, Iterator

from planset.errors import Problem
from planset.job.by_plane import EVERY_PLANE
from planset.source import Location, SourceDocument


def unknown_planes(
    place: Location, named: Iterable[str], known: list[str], document: SourceDocument
) -> Iterator[Problem]:
    """Yield every name that is no plane.

    Args:
        place: The field of the job that holds one value by plane.
        named: The planes it names.
        known: Every plane of the roofs.
        document: The job file.
    """
    for name in named:
        if name not in (*known, EVERY_PLANE):
            message = f"not a plane of the roof (got {name})"
            yield document.problem((*place, name), message, f"write one of: {', '.join(known)}")
