"""The documents that a set rests on, and how a reviewer gets each: bound in, or handed in apart."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

from planset.catalog.fields import StrictModel

if TYPE_CHECKING:
    from planset.job.load import Inputs

_SHEET = "data sheet"
_APART = "SUBMITTED APART"


def documents(inputs: Inputs) -> list[tuple[str, str]]:
    """Each document the catalog entries of a job cite, with its pages, and how it is handed in.

    A data sheet that the job names for a product is bound in; whatever else its catalog entry
    cites, as manuals and capacity letters, goes apart.

    Args:
        inputs: The job and its catalog entries.
    """
    pages: dict[str, set[int]] = {}
    for entry in _entries(inputs).values():
        for title, page in _cited(entry):
            pages.setdefault(title, set()).update(() if page is None else (page,))
    bound = _bound(inputs)
    rows = [
        (_words(title, sorted(found)), f"BOUND AS {', '.join(bound[title])}")
        if title in bound
        else (_words(title, sorted(found)), _APART)
        for title, found in pages.items()
    ]
    change = inputs.job.electrical.main_derate
    if change is not None and change.calculation is not None:
        load = change.calculation
        rows.append((f"{load.document}, {load.date.isoformat()} ({load.method})", _APART))
    return rows


def _words(title: str, pages: list[int]) -> str:
    if not pages:
        return title
    return f"{title}, page{'s' if len(pages) > 1 else ''} {', '.join(map(str, pages))}"


def _bound(inputs: Inputs) -> dict[str, list[str]]:
    """Numbers of the data sheets in the set by the documents they are."""
    entries = _entries(inputs)
    found: dict[str, list[str]] = {}
    for number, sheet in enumerate(inputs.job.data_sheets, 1):
        for name in sheet.of:
            title = getattr(entries.get(name), "document", None) or ""
            if _SHEET in title:
                found.setdefault(title, []).append(f"D-{number}")
    return found


def _entries(inputs: Inputs) -> dict[str, StrictModel]:
    """The catalog entries of a job by the names it gives, modules first."""
    given = inputs.job.electrical
    single = (
        (given.converter, inputs.converter),
        (given.storage.model if given.storage else None, inputs.battery),
        (given.shutdown, inputs.shutdown),
        (given.hazard_control, inputs.hazard_control),
    )
    named: dict[str, StrictModel] = {}
    for entries in (inputs.modules, inputs.mountings, inputs.inverters, inputs.microinverters):
        named |= entries
    return named | {name: entry for name, entry in single if name and entry is not None}


def _cited(part: object) -> Iterator[tuple[str, int | None]]:
    """Every document of an entry and its parts, with the page where one is given."""
    if isinstance(part, StrictModel):
        title = getattr(part, "document", None)
        if title:
            yield title, getattr(part, "page", None)
        for name in type(part).model_fields:
            yield from _cited(getattr(part, name))
    elif isinstance(part, tuple | list):
        for item in part:
            yield from _cited(item)
    elif isinstance(part, Mapping):
        for item in part.values():
            yield from _cited(item)
