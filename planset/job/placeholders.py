"""Words of the starter that stand for the drafter's own, and where a job still has them."""

from collections.abc import Iterator
from typing import Any

from planset.source import Location

PLACEHOLDERS = frozenset(
    {
        "your name",
        "who checked it",
        "your company",
        "your license number",
        "your utility",
        "what the lot is drawn from, and its year",
        "zoning code, section and year",
        "who measured the framing, and when",
        "who measured the roof, and when",
        "who stated the fault current, and when",
        "who read the panel label, and when",
        "rule book of the utility, and its year",
        "what changed",
        "number of the comment",
        "what was done",
        "name, license",
        "name and office",
        "number of the approval",
        "its words",
        "who says so",
    }
)
"""In small letters; each stands in the starter, in a line that is used or in a comment."""


def placeholders_left(data: Any, location: Location = ()) -> Iterator[tuple[Location, str]]:
    """Yield the place and the words of each placeholder that a document still has.

    Args:
        data: Plain data of the document, or of a part of it.
        location: Where that part stands.
    """
    if isinstance(data, dict):
        for key, value in data.items():
            yield from placeholders_left(value, (*location, key))
    elif isinstance(data, list):
        for number, value in enumerate(data):
            yield from placeholders_left(value, (*location, number))
    elif isinstance(data, str) and " ".join(data.split()).casefold() in PLACEHOLDERS:
        yield location, data
