"""The invented jurisdictions: complete, readable, each modeled on published differences."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pydantic import BaseModel

from planset.catalog.access import effective_access, has_dwelling_access
from planset.catalog.fields import Dated
from planset.catalog.jurisdiction import Jurisdiction
from planset.catalog.library import find, names
from planset.catalog.local_access import LocalAccess

NOWHERE = Path("nowhere")
NAMES = names(Jurisdiction, NOWHERE)
AS_PUBLISHED = "model code, no amendment"

by_name = pytest.mark.parametrize("name", NAMES)


def values(model: BaseModel, place: str = "") -> Iterator[tuple[str, object]]:
    """Every value of a profile that is stated somewhere; plain fields that are not, too."""
    for field, part in model:
        if isinstance(part, BaseModel) and not isinstance(part, Dated):
            yield from values(part, f"{place}{field}.")
        elif part is not None:
            yield f"{place}{field}", part


@by_name
def test_every_value_has_its_source_and_what_it_is_modeled_on(name: str) -> None:
    stated = dict(values(find(Jurisdiction, name, NOWHERE)))
    for field in ("kind", "name", "department"):
        del stated[field]
    assert len(stated) >= 12
    for place, value in stated.items():
        assert isinstance(value, Dated), place
        assert value.source, place
        assert value.date, place
        assert value.modeled_on, place


def test_there_are_enough_and_they_differ() -> None:
    assert len(NAMES) >= 7
    profiles = [find(Jurisdiction, name, NOWHERE) for name in NAMES]
    rules = [(effective_access(p).code, p.access.model_dump_json()) for p in profiles]
    assert all(a != b for n, a in enumerate(rules) for b in rules[:n])
    judges = {effective_access(p).code.edition.document for p in profiles}
    assert judges == {"IRC", "CRC", "IFC", "NFPA 1"}
    assert {effective_access(p).code.edition.year for p in profiles} >= {
        2012,
        2015,
        2018,
        2021,
        2024,
    }


@by_name
def test_its_access_rules_are_entered(name: str) -> None:
    assert has_dwelling_access(find(Jurisdiction, name, NOWHERE))


@by_name
def test_an_amendment_is_not_called_the_model_code(name: str) -> None:
    for field, given in find(Jurisdiction, name, NOWHERE).access:
        if given is not None:
            assert given.modeled_on != AS_PUBLISHED, field


def test_every_local_rule_and_reading_is_used_by_some_profile() -> None:
    profiles = [find(Jurisdiction, name, NOWHERE).access for name in NAMES]
    unused = {
        field
        for field in LocalAccess.model_fields
        if all(getattr(access, field) is None for access in profiles)
    }
    assert unused == {"area_limit"}  # no published limit other than 33 and 25 % was found
