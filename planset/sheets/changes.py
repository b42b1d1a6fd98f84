"""What the job says a revision changed, and where on the sheets it stands."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from planset.errors import JobErrors
from planset.rules.registry import RULES
from planset.sheets import compliance
from planset.sheets.context import base_id
from planset.sheets.named_places import WITHIN, NamedPlaces, Place
from planset.sheets.tag_lists import listed_tags

if TYPE_CHECKING:
    from planset.job.load import Inputs
    from planset.source import Location

Marks = dict[int, list[Place]]
"""Places on one page that changed, by the number of the revision."""


@dataclass(frozen=True, slots=True)
class Changed:
    """One entry of the job on what changed.

    Attributes:
        sheet: On which sheet.
        names: What on it; None for the sheet as a whole.
        revision: Number of the revision.
        location: Where the names stand in the job.
    """

    sheet: str
    names: tuple[str, ...] | None
    revision: int
    location: Location


def changes(inputs: Inputs) -> Iterator[Changed]:
    """Yield what the job says to have changed, the newest revision first."""
    for n, revision in reversed(list(enumerate(inputs.job.revisions))):
        for kind, entries in (("answers", revision.answers), ("changes", revision.changes)):
            for k, entry in enumerate(entries):
                if entry.changed != ():
                    where = ("revisions", n, kind, k, "changed")
                    yield Changed(entry.sheet, entry.changed, revision.number, where)


def newest_number(inputs: Inputs) -> int:
    """Number of the newest revision, 0 before the first."""
    return inputs.job.revisions[-1].number if inputs.job.revisions else 0


def clouded(inputs: Inputs) -> bool:
    """Whether anything of the set stands in a cloud."""
    newest = newest_number(inputs)
    return any(one.names for one in changes(inputs) if one.revision == newest)


def sheets_changed(inputs: Inputs, revision: int) -> list[str]:
    """Ids of the sheets that a revision changed, in the order in which the job lists them."""
    return list(dict.fromkeys(o.sheet for o in changes(inputs) if o.revision == revision))


def whole_sheet(inputs: Inputs, sheet: str) -> list[int]:
    """Numbers of the revisions that changed a sheet without saying what, the newest first."""
    found = [o for o in changes(inputs) if o.names is None and o.sheet == base_id(sheet)]
    return list(dict.fromkeys(one.revision for one in found))


def marks(inputs: Inputs, pages: Mapping[str, NamedPlaces]) -> dict[str, Marks]:
    """What is marked on which page.

    Args:
        inputs: The job.
        pages: What has a name on each page, by its sheet id.

    Raises:
        JobErrors: Something that is said to have changed stands nowhere on its sheet.
    """
    made: dict[str, Marks] = {}
    problems = []
    for one in changes(inputs):
        of_sheet = {id: named for id, named in pages.items() if base_id(id) == one.sheet}
        for n, name in enumerate(one.names or () if of_sheet else ()):
            found = list(_found(one.sheet, name, of_sheet))
            for id, place in found:
                made.setdefault(id, {}).setdefault(one.revision, []).append(place)
            if not found:
                message = f"nothing on {one.sheet} has this name (got {name})"
                where = (*one.location, n)
                problems.append(inputs.document.problem(where, message, _mend(of_sheet.values())))
    if problems:
        raise JobErrors(problems)
    return made


def _found(sheet: str, name: str, pages: Mapping[str, NamedPlaces]) -> Iterator[tuple[str, Place]]:
    if sheet == compliance.ID:
        name = {rule.id: rule.title for rule in RULES}.get(name, name)
    found = {id: named.find(name) for id, named in pages.items()}
    nearest = min((rank for rank, _ in found.values()), default=0)
    for id, (rank, places) in found.items():
        yield from ((id, place) for place in places if rank == nearest)


def _mend(pages: Iterable[NamedPlaces]) -> str:
    titles = dict.fromkeys(title for page in pages for title in page.titles)
    things = dict.fromkeys(thing for page in pages for thing in page.things)
    listed = [*(f'"{title}"' for title in titles), *([listed_tags(list(things))] if things else [])]
    first = f"write one of: {', '.join(listed)}; or " if listed else "write "
    return (
        f"{first}the first words of a row or line there, after its table's title and"
        f' "{WITHIN}" where it stands in several; or leave `changed` out to mark the whole sheet'
    )
