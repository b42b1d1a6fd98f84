"""Inches, feet, degrees and pitch: reading and printing the quantities of a job.

Lengths are inches inside the program. Text is read by strict patterns, so that a slip of the pen
is refused rather than guessed at. Every ValueError raised here reads
`what is wrong; what is accepted`.

Rounding of printed clearances, the policy of this project: a clearance that is available is
rounded down, one that is required is rounded up, so that the sheet never shows more room than
there is or asks for less than the code does. 17.8 in available prints as 1'-5 3/4", never 1'-6".
"""

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

Rounding = Literal["nearest", "down", "up"]

FLOAT_NOISE_IN = 1e-9
"""Inches; a value this close to a printed step is that step, as arithmetic leaves such noise."""

_SIXTEENTHS_BELOW_IN = 120.0

SIXTEENTH_SLACK = 0.02
"""Of a sixteenth of an inch; a length this close to one prints as a fraction."""

INCHES_PER_UNIT: Mapping[str, float] = {
    "in": 1.0,
    "ft": 12.0,
    "mm": 1 / 25.4,
    "cm": 10 / 25.4,
    "m": 1000 / 25.4,
}
"""Exact by the definition of the inch as 25.4 mm."""

_DECIMAL = r"(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)"
_NUMBER = rf"(?:[0-9]+[- ][0-9]+/[0-9]+|[0-9]+/[0-9]+|{_DECIMAL})"
_FOOT = r"(?:'|ft|foot|feet)"
_INCH = r'(?:"|in|inch|inches)'
_PLAIN = re.compile(rf"(-?)({_NUMBER})")
_ONE_UNIT = re.compile(rf"(-?)({_NUMBER}) ?(?:({_INCH})|({_FOOT})|(mm|cm|m))")
_FEET_INCHES = re.compile(rf"(-?)([0-9]+) ?{_FOOT} ?-? ?({_NUMBER}) ?{_INCH}")
_QUANTITY = re.compile(rf"(-?{_DECIMAL}) ?([^0-9 ].*)")
_RISE_RUN = re.compile(rf"({_DECIMAL}) ?[:/] ?({_DECIMAL})")
_TYPESET_MARKS = str.maketrans({"’": "'", "′": "'", "”": '"', "″": '"', "−": "-"})
_LENGTH_FORMS = "write it as 12'-6 1/2\", 57-1/2 in, 9 ft, 1.7 m, 20 cm or 35 mm"


def _tidy(text: str) -> str:
    return " ".join(text.translate(_TYPESET_MARKS).split())


def _magnitude(text: str) -> float:
    """Return the value of `2`, `2.75`, `3/4`, `2-3/4` or `2 3/4`."""
    whole, _, fraction = text.replace("-", " ").rpartition(" ")
    if "/" not in fraction:
        return float(fraction)
    top, bottom = map(int, fraction.split("/"))
    if bottom == 0 or (whole and top >= bottom):
        raise ValueError(fraction)
    return (int(whole) if whole else 0) + top / bottom


def _length_of(text: str, default_unit: str) -> float | None:
    """Return the inches a length text stands for, or None when it has none of the forms."""
    if found := _FEET_INCHES.fullmatch(text):
        inches = _magnitude(found[3])
        size = int(found[2]) * 12 + inches if inches < 12 else None
    elif found := _ONE_UNIT.fullmatch(text):
        unit = "in" if found[3] else "ft" if found[4] else found[5]
        size = _magnitude(found[2]) * INCHES_PER_UNIT[unit]
    elif found := _PLAIN.fullmatch(text):
        size = _magnitude(found[2]) * INCHES_PER_UNIT[default_unit]
    else:
        return None
    return -size if found[1] and size is not None else size


def parse_length(value: str | float, default_unit: str = "in") -> float:
    """Return a length in inches.

    Args:
        value: text such as `12'-6 1/2"`, `57-1/2 in`, `9 ft` or `1.7 m`, or a bare number.
        default_unit: unit of a bare number: in, ft, mm, cm or m.

    Raises:
        ValueError: when the value is not a finite length in one of the accepted forms.
    """
    if default_unit not in INCHES_PER_UNIT:
        msg = f"{default_unit!r} is not a unit of length; use one of {', '.join(INCHES_PER_UNIT)}"
        raise ValueError(msg)
    inches = None
    try:
        if isinstance(value, str):
            inches = _length_of(_tidy(value), default_unit)
        elif isinstance(value, int | float) and not isinstance(value, bool):
            inches = value * INCHES_PER_UNIT[default_unit]
    except (ValueError, OverflowError):
        pass  # a fraction over zero or a number beyond all floats: no length either
    if inches is None or not math.isfinite(inches):
        msg = f"not a length; {_LENGTH_FORMS}"
        raise ValueError(msg)
    return inches


@dataclass(frozen=True, slots=True)
class Unit:
    """One accepted unit: a number less `zero`, times `scale`, is in the unit of the table."""

    scale: float
    zero: float = 0.0


@dataclass(frozen=True, slots=True)
class UnitTable:
    """The units accepted for one quantity.

    Attributes:
        quantity: its name with an article, for messages.
        units: accepted unit words to their conversion.
        forms: how to write one, for messages.
    """

    quantity: str
    units: Mapping[str, Unit]
    forms: str


# Exact by the 1959 international foot and pound and standard gravity 9.80665 m/s2 (NIST SP 811).
_NEWTONS_PER_LB = 0.45359237 * 9.80665
_PASCALS_PER_PSF = _NEWTONS_PER_LB / 0.3048**2

SPEED = UnitTable(
    "a speed", {"mph": Unit(1.0), "m/s": Unit(3600 / 1609.344)}, "write it as 110 mph or 49 m/s"
)
PRESSURE = UnitTable(
    "a pressure",
    {
        "psf": Unit(1.0),
        "lb/ft2": Unit(1.0),
        "kPa": Unit(1000 / _PASCALS_PER_PSF),
        "Pa": Unit(1 / _PASCALS_PER_PSF),
    },
    "write it as 20 psf or 0.96 kPa",
)
FORCE = UnitTable(
    "a force",
    {"lb": Unit(1.0), "lbf": Unit(1.0), "kN": Unit(1000 / _NEWTONS_PER_LB)},
    "write it as 540 lb or 2.4 kN",
)
WEIGHT = UnitTable(
    "a weight", {"lb": Unit(1.0), "kg": Unit(1 / 0.45359237)}, "write it as 48.5 lb or 22 kg"
)
TEMPERATURE = UnitTable(
    "a temperature",
    {"F": Unit(5 / 9, zero=32.0), "°F": Unit(5 / 9, zero=32.0), "C": Unit(1.0), "°C": Unit(1.0)},
    "write it as 25 F or -4 C",
)
CURRENT = UnitTable("a current", {"A": Unit(1.0)}, "write it as 60 A")
VOLTAGE = UnitTable("a voltage", {"V": Unit(1.0)}, "write it as 240 V")


FILE_SIZE = UnitTable("a file size", {"MB": Unit(1.0), "GB": Unit(1000.0)}, "write it as 64 MB")


def parse_quantity(text: object, table: UnitTable) -> float:
    """Return the number of a quantity text in the unit of its table.

    A bare number is refused: which unit it is in must be written, never guessed.

    Args:
        text: a decimal number and one of the table's units.
        table: the units accepted.

    Raises:
        ValueError: when the text is not a finite number with an accepted unit.
    """
    found = _QUANTITY.fullmatch(_tidy(text)) if isinstance(text, str) else None
    unit = table.units.get(found[2]) if found else None
    number = float(found[1]) if found else math.nan
    value = (number - unit.zero) * unit.scale if unit else math.nan
    if not math.isfinite(value):
        msg = f"not {table.quantity} with its unit; {table.forms}"
        raise ValueError(msg)
    return value


def parse_speed_mph(text: object) -> float:
    """Return a speed in miles per hour; raises ValueError."""
    return parse_quantity(text, SPEED)


def parse_pressure_psf(text: object) -> float:
    """Return a pressure in pounds per square foot; raises ValueError."""
    return parse_quantity(text, PRESSURE)


def parse_force_lb(text: object) -> float:
    """Return a force in pounds; raises ValueError."""
    return parse_quantity(text, FORCE)


def parse_weight_lb(text: object) -> float:
    """Return a weight in pounds; raises ValueError."""
    return parse_quantity(text, WEIGHT)


def parse_temperature_c(text: object) -> float:
    """Return a temperature in degrees Celsius; raises ValueError."""
    return parse_quantity(text, TEMPERATURE)


def format_temperature(celsius: float) -> str:
    """Return a temperature in both units, as "-15.0 C (5 F)"."""
    fahrenheit = round(celsius * 9 / 5 + 32, 1) + 0.0
    return f"{celsius:.1f} C ({fahrenheit:g} F)"


def parse_current_a(text: object) -> float:
    """Return a current in amperes; raises ValueError."""
    return parse_quantity(text, CURRENT)


def parse_voltage_v(text: object) -> float:
    """Return a voltage in volts; raises ValueError."""
    return parse_quantity(text, VOLTAGE)


def parse_file_size_mb(text: object) -> float:
    """Return a size of files in megabytes of a million bytes; raises ValueError.

    Some mean 1,048,576 bytes by a megabyte: the smaller one keeps both (interpretation).
    """
    return parse_quantity(text, FILE_SIZE)


def parse_pitch(text: object) -> float:
    """Return a roof pitch as rise per run, from `5:12` or `22.6 deg`.

    Raises:
        ValueError: when the text has neither form, or the run is zero, or the slope is vertical.
    """
    tidied = _tidy(text) if isinstance(text, str) else ""
    if (found := _RISE_RUN.fullmatch(tidied)) and float(found[2]) > 0:
        pitch = float(found[1]) / float(found[2])
    elif (found := _QUANTITY.fullmatch(tidied)) and found[2] in ("deg", "°"):
        degrees = float(found[1])
        pitch = math.tan(math.radians(degrees)) if 0 <= degrees < 90 else math.inf
    else:
        pitch = math.nan
    if not math.isfinite(pitch):
        msg = "not a roof pitch; write it as rise and run, 5:12, or as 22.6 deg"
        raise ValueError(msg)
    return pitch


def slope_degrees(pitch: float) -> float:
    """Return the slope in degrees of a pitch given as rise per run."""
    return math.degrees(math.atan(pitch))


def format_pitch(pitch: float) -> str:
    """Return a pitch given as rise per run the way it is printed, `5:12` or `4.5:12`."""
    rise = f"{pitch * 12:.2f}".rstrip("0").rstrip(".")
    return f"{rise}:12"


def judged_denominator(inches: float) -> int:
    """Into how many parts an inch is cut where a length that a rule judges is printed.

    Dimensions that prove a width and what is found about it read alike, in sixteenths below 10 ft
    and in halves above.
    """
    return 16 if abs(inches) < _SIXTEENTHS_BELOW_IN else 2


def _steps(inches: float, denominator: int, rounding: Rounding) -> int:
    """Return the signed whole number of 1/denominator inches to print."""
    exact = inches * denominator
    noise = FLOAT_NOISE_IN * denominator
    if rounding == "down":
        return math.floor(exact + noise)
    if rounding == "up":
        return math.ceil(exact - noise)
    return int(math.copysign(math.floor(abs(exact) + 0.5), exact))


def format_feet_inches(inches: float, denominator: int = 16, rounding: Rounding = "nearest") -> str:
    """Return a length as feet, inches and a reduced fraction: `40'-0"`, `12'-0 1/2"`, `8 1/2"`.

    Use `down` for a clearance that is available and `up` for one that is required (see the policy
    at the head of this module); both follow the sign, so an overlap of 0.1 in, an available
    clearance of -0.1 in, prints as the larger overlap -1/8".

    Args:
        inches: the length.
        denominator: the finest fraction of an inch printed.
        rounding: nearest, down (toward less) or up (toward more).

    Raises:
        ValueError: when the length is not finite or the denominator is below 1.
    """
    if not math.isfinite(inches) or denominator < 1:
        msg = f"cannot print {inches} in to 1/{denominator} in; give a finite length and 1 or more"
        raise ValueError(msg)
    steps = _steps(inches, denominator, rounding)
    whole, part = divmod(abs(steps), denominator)
    feet, whole = divmod(whole, 12)
    common = math.gcd(part, denominator)
    fraction = f"{part // common}/{denominator // common}" if part else ""
    words = [str(whole)] if whole or feet or not fraction else []
    inch_text = " ".join([*words, fraction] if fraction else words)
    sign = "-" if steps < 0 else ""
    return f"{sign}{feet}'-{inch_text}\"" if feet else f'{sign}{inch_text}"'


def format_inches(value_in: float) -> str:
    """Return a length under a few feet in inches: `18 in`, `7 1/2 in`, off sixteenths `1.6 in`."""
    sixteenths = value_in * 16
    if abs(sixteenths - round(sixteenths)) > SIXTEENTH_SLACK:
        return f"{value_in:.3f}".rstrip("0").rstrip(".") + " in"
    whole, rest = divmod(round(sixteenths), 16)
    if not rest:
        return f"{whole} in"
    denominator = 16
    while rest % 2 == 0:
        rest, denominator = rest // 2, denominator // 2
    return f"{whole} {rest}/{denominator} in" if whole else f"{rest}/{denominator} in"
