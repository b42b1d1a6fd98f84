"""The field types that catalog and job are made of.

Each reads what a drafter writes, converts it to the unit the program works in, and refuses what no
real house has. A ValueError raised here reads `what is wrong; how to mend it`.
"""

import datetime
import re
from collections.abc import Callable
from typing import Annotated, Generic, Literal, TypeVar

from pydantic import (
    AfterValidator,
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Field,
    ValidationInfo,
)

from planset.catalog import written
from planset.units import (
    CURRENT,
    FILE_SIZE,
    FORCE,
    PRESSURE,
    SPEED,
    TEMPERATURE,
    VOLTAGE,
    WEIGHT,
    parse_current_a,
    parse_file_size_mb,
    parse_force_lb,
    parse_length,
    parse_pitch,
    parse_pressure_psf,
    parse_speed_mph,
    parse_temperature_c,
    parse_voltage_v,
    parse_weight_lb,
)

T = TypeVar("T")
Number = TypeVar("Number", int, float)

LONGEST_TEXT = 500
"""Characters; the longest scope of work a cover takes is far shorter."""

MOST_ENTRIES = 500
"""Entries of one list, as obstructions or strings."""

FEW_ENTRIES = 20
"""Wings or dormers of one roof, or documents of one set."""

_ISO_DATE = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
_ID = re.compile(r"[A-Za-z0-9][A-Za-z0-9_-]{0,15}")
_FIRE_TYPE = re.compile(r"Type [1-9][0-9]?")
_FILE_STEM = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]*")


class StrictModel(BaseModel):
    """A frozen group of fields: no unknown keys, no conversion that is not asked for.

    A model is built on first use, since most are only ever a part of another one.
    """

    model_config = ConfigDict(frozen=True, strict=True, extra="forbid", defer_build=True)


def between(low: float, high: float, unit: str = "") -> written.Check:
    """Return a check that a number lies within two bounds, both included, in the unit named."""

    def check(value: Number) -> Number:
        if not low <= value <= high:
            sign = ", its sign" if high < 0 else ""
            mend = f"check the value{sign} and its unit" if unit else "check the value"
            msg = f"outside {low:g} to {high:g} {unit}".rstrip() + f"; {mend}"
            raise ValueError(msg)
        return value

    return written.Check(check, numbers={"minimum": low, "maximum": high})


def above(low: float, unit: str = "") -> written.Check:
    """Return a check that a number is greater than a bound, in the unit named."""

    def check(value: Number) -> Number:
        if not value > low:
            msg = f"not more than {low:g} {unit}".rstrip() + "; check the value and its sign"
            raise ValueError(msg)
        return value

    return written.Check(check, numbers={"exclusiveMinimum": low})


def one_of(*accepted: int) -> written.Check:
    """Return a check that a whole number is one of a few; a Literal would let true pass for 1."""

    def check(value: int) -> int:
        if value not in accepted:
            words = ", ".join(map(str, accepted))
            msg = (
                "not an accepted value; write " + ("one of: " if len(accepted) > 1 else "") + words
            )
            raise ValueError(msg)
        return value

    return written.Check(check, numbers={"enum": list(accepted)})


def at_most(most: int) -> written.Check:
    """Return a check that a list has no more than so many entries."""

    def check(value: tuple[T, ...]) -> tuple[T, ...]:
        if len(value) > most:
            msg = f"a list of {len(value)} entries, where {most} is the most; shorten it"
            raise ValueError(msg)
        return value

    return written.Check(check, lists={"maxItems": most})


def _read_length(value: object, info: ValidationInfo) -> float:
    """Return inches; a bare number is in the units the file declares."""
    if not isinstance(value, str | int | float):
        value = ""
    return parse_length(value, info.context["units"] if info.context else "in")


def tabulated(look_up: Callable[[T], object], what: str) -> AfterValidator:
    """Return a check that a table of `codes` knows a value.

    Args:
        look_up: a function of `codes` whose ValueError reads `what is wrong; expected one of ...`.
        what: what the table holds, with an article.
    """

    def check(value: T) -> T:
        try:
            look_up(value)
        except ValueError as error:
            msg = f"not {what}; {str(error).partition('; ')[2]}"
            raise ValueError(msg) from None
        return value

    return AfterValidator(check)


def _read_text(value: str) -> str:
    """Return the text on one line."""
    if len(value) > LONGEST_TEXT:
        msg = f"longer than {LONGEST_TEXT} characters; shorten it"
        raise ValueError(msg)
    text = " ".join(value.split())
    if not text:
        msg = "empty; write the text"
        raise ValueError(msg)
    if not text.isprintable():
        msg = "a character that cannot be printed; remove it"
        raise ValueError(msg)
    return text


def _read_id(value: str) -> str:
    if not _ID.fullmatch(value):
        msg = "not an id; write up to 16 letters, digits, hyphens and underscores, as A1"
        raise ValueError(msg)
    return value


def _read_pitch(value: object) -> float:
    pitch = parse_pitch(value)
    if not 0 < pitch <= 2:
        msg = "not between flat and 24:12; check rise and run"
        raise ValueError(msg)
    return pitch


def _read_date(value: object) -> datetime.date:
    if isinstance(value, str) and _ISO_DATE.fullmatch(value):
        try:
            return datetime.date.fromisoformat(value)
        except ValueError:
            pass  # the thirtieth of February and its like
    msg = 'not a date; write year, month and day in quotes, as "2026-11-25"'
    raise ValueError(msg)


def _read_name(value: str) -> str:
    if not _FILE_STEM.fullmatch(value):
        msg = "not the name of a catalog entry; write its file name without folder and .yaml"
        raise ValueError(msg)
    return value


def _read_fire_type(value: str) -> str:
    if not _FIRE_TYPE.fullmatch(value):
        msg = "not a fire type of modules; write it as its listing does, as Type 1"
        raise ValueError(msg)
    return value


def _one_at_least(value: tuple[T, ...]) -> tuple[T, ...]:
    if not value:
        msg = "an empty list; write at least one entry"
        raise ValueError(msg)
    return value


Text = Annotated[str, AfterValidator(_read_text), written.text(LONGEST_TEXT)]
Id = Annotated[str, AfterValidator(_read_id), written.ID]
"""The name of one thing of the job, fit for tags and block names."""

CatalogName = Annotated[str, AfterValidator(_read_name), written.CATALOG_NAME]
"""A plain file stem, so that it cannot lead out of the catalog's folder."""

FireType = Annotated[str, AfterValidator(_read_fire_type), written.FIRE_TYPE]
"""The fire type of a module, by which UL 2703 lists a class of module and mounting together."""

Date = Annotated[datetime.date, BeforeValidator(_read_date), written.DATE]

Several = Annotated[tuple[T, ...], Field(strict=False), at_most(MOST_ENTRIES)]
Few = Annotated[Several[T], at_most(FEW_ENTRIES)]
"""Parts of a roof, each of which meets all others; documents."""

OneOrMore = Annotated[Several[T], written.Check(_one_at_least, lists={"minItems": 1})]

Length = Annotated[float, BeforeValidator(_read_length), written.LENGTH]
"""Inches, of either sign."""

Distance = Annotated[Length, between(0, 12_000, "in")]
"""Inches, zero or more."""

Size = Annotated[Distance, above(0, "in"), between(0.001, 12_000, "in")]
"""Inches, more than zero."""

WindSpeed = Annotated[
    float,
    BeforeValidator(parse_speed_mph),
    written.quantity(SPEED, "110 mph", "49 m/s"),
    between(50, 300, "mph"),
]
PressureOrNone = Annotated[
    float,
    BeforeValidator(parse_pressure_psf),
    written.quantity(PRESSURE, "20 psf", "0.96 kPa"),
    between(0, 1000, "psf"),
]
"""Pounds per square foot, zero for none."""

SnowLoad = PressureOrNone
Force = Annotated[
    float,
    BeforeValidator(parse_force_lb),
    written.quantity(FORCE, "540 lb", "2.4 kN"),
    above(0, "lb"),
    between(0.1, 1_000_000, "lb"),
]
Weight = Annotated[
    float,
    BeforeValidator(parse_weight_lb),
    written.quantity(WEIGHT, "48.5 lb", "22 kg"),
    above(0, "lb"),
]
Temperature = Annotated[
    float,
    BeforeValidator(parse_temperature_c),
    written.quantity(TEMPERATURE, "25 F", "-4 C"),
    between(-60, 60, "C"),
]
Current = Annotated[
    float,
    BeforeValidator(parse_current_a),
    written.quantity(CURRENT, "60 A"),
    above(0, "A"),
    between(0.1, 10_000, "A"),
]
FaultCurrent = Annotated[
    float,
    BeforeValidator(parse_current_a),
    written.quantity(CURRENT, "10000 A"),
    between(100, 200_000, "A"),
]
"""Amperes that a fault can draw, or that a device interrupts."""

Voltage = Annotated[
    float, BeforeValidator(parse_voltage_v), written.quantity(VOLTAGE, "240 V"), above(0, "V")
]
FileSize = Annotated[
    float,
    BeforeValidator(parse_file_size_mb),
    written.quantity(FILE_SIZE, "64 MB", "1 GB"),
    between(1, 10_000, "MB"),
]
Pitch = Annotated[float, BeforeValidator(_read_pitch), written.PITCH]
"""Rise per run, above zero and up to 24:12."""

Percent = Annotated[float, between(0, 100, "%")]
Pressure = Annotated[PressureOrNone, above(0, "psf")]
"""Pounds per square foot, more than zero."""

Azimuth = Annotated[float, between(0, 360, "degrees")]
Count = Annotated[int, between(1, 10_000)]
Rating = Annotated[float, above(0), between(0.001, 1_000_000)]
"""A rating off a data sheet in the unit its field name ends with."""

CoveringKind = Literal["curved_tile", "flat_tile", "asphalt_shingle", "standing_seam", "membrane"]


class Dated(StrictModel):
    """Where something is stated: a document and its date.

    `modeled_on` names the published text that an invented profile took the matter from.
    """

    source: Text
    date: Date
    modeled_on: Text | None = None


class Sourced(Dated, Generic[T]):
    """A value with the document it is from and that document's date."""

    value: T
