"""Jurisdictions as lines for the terminal: what they change, and where each value is stated."""

from __future__ import annotations

import textwrap
from collections.abc import Callable, Collection, Iterator, Mapping
from pathlib import Path
from types import MappingProxyType

from typer import style

from planset.catalog.access import Readings, dwelling_edition, has_dwelling_access
from planset.catalog.fields import Dated, Sourced, StrictModel
from planset.catalog.jurisdiction import AdoptedCode, Jurisdiction, SheetRequirement
from planset.catalog.library import find, names
from planset.codes.roof_access import DwellingAccess, dwelling_access
from planset.units import format_pitch

UNITS: Mapping[str, str] = MappingProxyType(
    {
        "wind_speed": "mph",
        "ground_snow": "psf",
        "panel_pressure": "psf",
        "array_weight": "psf",
        "point_load": "lb",
        "street_angle": "degrees",
        "ratio": "%",
        "area_limit": "%",
        "area_limit_sprinklered": "%",
        "area": "sq ft",
        "eave_slope": "pitch",
        "file_size": "MB",
    }
)
"""Field to the unit of its number; all others are inches."""

FILE_RULES = frozenset(
    {"files", "file_name", "file_name_length", "file_size", "flat", "attach_data"}
)
"""Fields of a submission that planset keeps to when it writes files."""

DRAWING_RULES = frozenset({"electrical_diagram"})
"""Fields of a submission that planset keeps to when it draws."""

CONTENTS_RULES = frozenset({"must_show", "data_sheets"})
"""Fields of a submission on what a set holds."""

_NO_RULE = "no such rule"
_FOOT_FROM = 120.0  # a length from here on is told in feet


def _length(inches: float) -> str:
    return _number("", inches) if inches else _NO_RULE


def _limit(percent: float | None) -> str:
    return "fixed setback" if percent is None else f"{percent:g} %"


_PUBLISHED: Mapping[str, Callable[[DwellingAccess], str]] = MappingProxyType(
    {
        "ridge_setback": lambda code: _length(code.ridge_setback_low_in),
        "ridge_setback_high": lambda code: _length(code.ridge_setback_high_in),
        "area_limit": lambda code: _limit(code.area_limit_percent),
        "area_limit_sprinklered": lambda code: _limit(code.area_limit(sprinklered=True)),
        "hip_valley_setback": lambda code: _length(code.hip_valley_setback_in),
        "edge_setback": lambda code: _NO_RULE,
        "greatest_array_side": lambda code: _length(code.greatest_array_side_in),
        "between_arrays": lambda code: _NO_RULE,
        "rules_off_when": lambda code: _NO_RULE,
        "three_sides": lambda code: _NO_RULE,
    }
)
"""Amendment to what the model code has in its place."""

_READINGS = Readings(pathway_on_overhang=False, street_angle_deg=0.0)


def jurisdictions_lines(folder: Path) -> Iterator[str]:
    """Yield every jurisdiction by name, with the codes it adopts.

    Args:
        folder: A folder whose `catalog/jurisdictions` is looked into, too.

    Raises:
        JobErrors: A profile cannot be read.
    """
    known = names(Jurisdiction, folder)
    width = max(map(len, known))
    for name in known:
        found = find(Jurisdiction, name, folder)
        residential, fire = found.codes.residential, found.codes.fire
        editions = f"{residential.code_edition}, {fire.code_edition}"
        yield f"{name.ljust(width)}  {found.name}: {editions}"


def jurisdiction_lines(jurisdiction: Jurisdiction, width: int) -> Iterator[str]:
    """Yield one jurisdiction: its changes to the access rules first, then every other value.

    Args:
        jurisdiction: The profile.
        width: Columns of the terminal.
    """
    yield style(f"{jurisdiction.name}, {jurisdiction.department}", bold=True)
    yield ""
    yield from _changes(jurisdiction, width)
    yield from _readings(jurisdiction, width)
    yield from _group("adopted codes", jurisdiction.codes, width)
    yield from _group("local minimums", jurisdiction.minimums, width)
    yield from _heading("sheets")
    yield from _row("size", jurisdiction.sheet.size, jurisdiction.sheet, width)
    yield ""
    submission = jurisdiction.submission
    yield from _group("files of the submission", submission, width, FILE_RULES)
    yield from _group("drawings of the submission", submission, width, DRAWING_RULES)
    yield from _group("contents of the submission", submission, width, CONTENTS_RULES)
    checked = FILE_RULES | DRAWING_RULES | CONTENTS_RULES
    others = set(type(submission).model_fields) - checked
    yield from _group("submission, not checked by planset yet", submission, width, others)
    yield from _group("limits of review without engineering", jurisdiction.review, width)


def _changes(jurisdiction: Jurisdiction, width: int) -> Iterator[str]:
    edition = dwelling_edition(jurisdiction)
    yield from _heading(f"access to dwellings, by {edition}")
    if not has_dwelling_access(jurisdiction):
        yield f"  planset has no access rules of {edition} yet."
        yield ""
        return
    judged_by = jurisdiction.access.judged_by
    if judged_by is not None:
        yield from _row("judged by", f"the {judged_by.value} code", judged_by, width)
    model = dwelling_access(edition)
    changed = False
    for field, published in _PUBLISHED.items():
        given = getattr(jurisdiction.access, field)
        if given is not None:
            changed = True
            text = f"{_text(field, given.value)} ({edition}: {published(model)})"
            yield from _row(field, text, given, width)
    if not changed:
        yield "  Nothing is changed: the rules are those of the code as published."
    yield ""


def _readings(jurisdiction: Jurisdiction, width: int) -> Iterator[str]:
    yield from _heading("readings where the codes are silent")
    for field, given in jurisdiction.access:
        if given is None or field in _PUBLISHED or field == "judged_by":
            continue
        text = _text(field, given.value)
        if not type(jurisdiction.access).model_fields[field].is_required():
            text += f" (unless said: {_text(field, getattr(_READINGS, field))})"
        yield from _row(field, text, given, width)
    yield ""


def _group(
    title: str, group: StrictModel, width: int, only: Collection[str] | None = None
) -> Iterator[str]:
    wanted = {field for field, _ in group} if only is None else only
    given = {field: value for field, value in group if value is not None and field in wanted}
    if not given:
        return
    yield from _heading(title)
    for field, value in given.items():
        yield from _row(field, _stated(field, value), value, width)
    yield ""


def _stated(field: str, value: Dated) -> str:
    match value:
        case AdoptedCode():
            return str(value.code_edition)
        case Sourced():
            return _text(field, value.value)
        case SheetRequirement():
            return value.size
    msg = f"{field} has no value to print"
    raise TypeError(msg)


def _heading(title: str) -> Iterator[str]:
    yield style(title.upper(), bold=True)


def _row(field: str, text: str, stated: Dated, width: int) -> Iterator[str]:
    """Yield a value, and below it the document it is from."""
    yield from _wrapped(f"{_words(field)}: {text}", "  ", width)
    yield from _wrapped(f"{stated.source}, {stated.date}", "      ", width)
    if stated.modeled_on is not None:
        yield from _wrapped(f"modeled on: {stated.modeled_on}", "      ", width)


def _wrapped(text: str, indent: str, width: int) -> list[str]:
    return textwrap.wrap(
        text, width, initial_indent=indent, subsequent_indent=f"{indent}  ", break_on_hyphens=False
    )


def _text(field: str, value: object) -> str:
    match value:
        case bool():
            return "yes" if value else "no"
        case int() | float():
            return _number(field, value)
        case tuple():
            return ", ".join(_text(field, entry) for entry in value)
        case StrictModel():
            return ", ".join(f"{_words(name)} {_text(name, part)}" for name, part in value)
    return _words(str(value))


def _number(field: str, value: float) -> str:
    if isinstance(value, int):
        return str(value)
    unit = UNITS.get(field, "in")
    if unit == "pitch":
        return format_pitch(value)
    if unit == "in" and value >= _FOOT_FROM:
        return f"{value / 12:g} ft"
    return f"{value:g} {unit}"


def _words(name: str) -> str:
    return name.replace("_", " ")
