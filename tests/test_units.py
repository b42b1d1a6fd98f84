"""Reading and printing of quantities."""

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planset.units import (
    FLOAT_NOISE_IN,
    Rounding,
    format_feet_inches,
    format_pitch,
    format_temperature,
    parse_current_a,
    parse_force_lb,
    parse_length,
    parse_pitch,
    parse_pressure_psf,
    parse_speed_mph,
    parse_temperature_c,
    parse_voltage_v,
    parse_weight_lb,
    slope_degrees,
)

lengths = st.floats(-1e5, 1e5)
denominators = st.sampled_from([1, 2, 4, 8, 16, 32, 64])


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("12'-6 1/2\"", 150.5),
        ("12' 6-1/2\"", 150.5),
        ("12'6\"", 150.0),
        ("12 ft 6 in", 150.0),
        ("44'-0\"", 528.0),
        ("44'", 528.0),
        ("0'-7 1/4\"", 7.25),
        ("-1'-6\"", -18.0),
        ("5'-11.5\"", 71.5),
        ("12’ 6″", 150.0),  # marks as a word processor types them
        ("57-1/2 in", 57.5),
        ("57 1/2in", 57.5),
        ('8 1/2"', 8.5),
        ("1/2 in", 0.5),
        ("5/4 in", 1.25),
        (".75 in", 0.75),
        ("48 in", 48.0),
        ("9 ft", 108.0),
        ("4.5 feet", 54.0),
        ("  9   ft ", 108.0),
    ],
)
def test_length_texts(text: str, inches: float) -> None:
    assert parse_length(text) == inches


# The inch is 25.4 mm exactly (international agreement of 1959; NIST SP 811, appendix B.6).
@pytest.mark.parametrize(
    ("text", "millimetres"), [("35 mm", 35), ("20 cm", 200), ("1.7 m", 1700), ("25.4 mm", 25.4)]
)
def test_metric_lengths(text: str, millimetres: float) -> None:
    assert parse_length(text) == pytest.approx(millimetres / 25.4, rel=1e-15)


@pytest.mark.parametrize(
    ("value", "unit", "inches"),
    [(7, "in", 7), (7.5, "ft", 90), ("7.5", "ft", 90), ("2-3/4", "in", 2.75), (254, "mm", 10)],
)
def test_bare_numbers_take_the_default_unit(value: str | float, unit: str, inches: float) -> None:
    assert parse_length(value, unit) == pytest.approx(inches, rel=1e-15)


@pytest.mark.parametrize(
    "value",
    [
        "", "nan", "inf", "-", "'", "in", "twelve", "12 furlong", "1,7 m", "1e3 in", "12 6 in",
        "12'-6'", "12'-6", "5'-14\"", "5'-12\"", "1/0 in", "2-5/4 in", "2-3/3 in", "4''", "3:4",
        "48 in long", "12'--6\"", "--3 in", "٣ in", "9" * 400,
        math.nan, math.inf, -math.inf, 10**400, True, None, ["1 in"],
    ],
)  # fmt: skip
def test_nonsense_is_refused_with_the_accepted_forms(value: str | float) -> None:
    with pytest.raises(ValueError, match=r"not a length; write it as 12'-6 1/2"):
        parse_length(value)


def test_unknown_default_unit_is_refused() -> None:
    with pytest.raises(ValueError, match="use one of in, ft, mm, cm, m"):
        parse_length(1, "yard")


# Factors: NIST SP 811 (2008) appendix B.8, printed to seven digits there.
@pytest.mark.parametrize(
    ("parse", "text", "value"),
    [
        (parse_speed_mph, "110 mph", 110),
        (parse_speed_mph, "44.704 m/s", 100),
        (parse_pressure_psf, "20 psf", 20),
        (parse_pressure_psf, "4.788026 kPa", 100),
        (parse_force_lb, "540 lb", 540),
        (parse_force_lb, "4.448222 kN", 1000),
        (parse_weight_lb, "45.35924 kg", 100),
        (parse_temperature_c, "32 F", 0),
        (parse_temperature_c, "212 °F", 100),
        (parse_temperature_c, "-40 F", -40),
        (parse_temperature_c, "-4 C", -4),
        (parse_current_a, "60 A", 60),
        (parse_voltage_v, "240V", 240),
    ],
)
def test_quantities(parse: Callable[[object], float], text: str, value: float) -> None:
    assert parse(text) == pytest.approx(value, rel=3e-7, abs=1e-12)


@pytest.mark.parametrize(
    "value", [110, 110.0, "110", "mph", "110 kmh", "1e2 mph", "nan mph", "9" * 400 + " mph", None]
)
def test_a_speed_must_name_its_unit(value: object) -> None:
    with pytest.raises(ValueError, match="not a speed with its unit; write it as 110 mph"):
        parse_speed_mph(value)


@pytest.mark.parametrize(
    ("text", "pitch"),
    [("5:12", 5 / 12), ("4.5:12", 0.375), ("5/12", 5 / 12), ("0:12", 0), ("45 deg", 1), ("45°", 1)],
)
def test_pitches(text: str, pitch: float) -> None:
    assert parse_pitch(text) == pytest.approx(pitch, rel=1e-15)


@pytest.mark.parametrize("value", ["5", 5, "5:0", "90 deg", "-5 deg", "steep", "5:12:1", "", None])
def test_what_is_not_a_pitch(value: object) -> None:
    with pytest.raises(ValueError, match="not a roof pitch; write it as rise and run, 5:12"):
        parse_pitch(value)


# Right triangles: 12 on 12 is 45 degrees; a rise of tan(30) is 30 degrees.
@pytest.mark.parametrize(("pitch", "degrees"), [(1, 45), (1 / math.sqrt(3), 30), (0, 0)])
def test_slope(pitch: float, degrees: float) -> None:
    assert slope_degrees(pitch) == pytest.approx(degrees)


@pytest.mark.parametrize(
    ("pitch", "text"), [(5 / 12, "5:12"), (0.375, "4.5:12"), (1, "12:12"), (0, "0:12")]
)
def test_printed_pitch(pitch: float, text: str) -> None:
    assert format_pitch(pitch) == text


@pytest.mark.parametrize(
    ("inches", "rounding", "text"),
    [
        (480, "nearest", "40'-0\""),
        (144.5, "nearest", "12'-0 1/2\""),
        (8.5, "nearest", '8 1/2"'),
        (0.5, "nearest", '1/2"'),
        (0, "nearest", '0"'),
        (-0.001, "nearest", '0"'),
        (12, "nearest", "1'-0\""),
        (11.99, "nearest", "1'-0\""),
        (11.99, "down", '11 15/16"'),
        (-150.5, "nearest", "-12'-6 1/2\""),
        (-0.1, "down", '-1/8"'),
        (17.8, "down", "1'-5 3/4\""),
        (17.8, "up", "1'-5 13/16\""),
        (17.999999, "down", "1'-5 15/16\""),
        (36.000001, "up", "3'-0 1/16\""),
        (0.1 * 3 * 60, "down", "1'-6\""),  # 18.000000000000004
        (18 - 4e-15, "down", "1'-6\""),
        (36 + 8e-15, "up", "3'-0\""),
    ],
)
def test_printed_lengths(inches: float, rounding: Rounding, text: str) -> None:
    assert format_feet_inches(inches, rounding=rounding) == text


def test_coarser_fractions() -> None:
    assert format_feet_inches(17.8, denominator=4, rounding="down") == "1'-5 3/4\""
    assert format_feet_inches(17.8, denominator=1, rounding="down") == "1'-5\""


@pytest.mark.parametrize(("inches", "denominator"), [(math.nan, 16), (math.inf, 16), (1, 0)])
def test_what_cannot_be_printed(inches: float, denominator: int) -> None:
    with pytest.raises(ValueError, match="give a finite length"):
        format_feet_inches(inches, denominator)


@given(lengths, denominators)
def test_reading_back_what_was_printed(inches: float, denominator: int) -> None:
    again = parse_length(format_feet_inches(inches, denominator))
    assert abs(again - inches) <= 0.5 / denominator + FLOAT_NOISE_IN


@given(lengths, denominators)
def test_down_and_up_enclose_the_length_within_one_step(inches: float, denominator: int) -> None:
    down = parse_length(format_feet_inches(inches, denominator, "down"))
    up = parse_length(format_feet_inches(inches, denominator, "up"))
    assert down <= inches + FLOAT_NOISE_IN
    assert up >= inches - FLOAT_NOISE_IN
    assert up - down <= 1 / denominator


@given(st.integers(-(10**6), 10**6), denominators)
def test_a_length_on_a_step_is_printed_as_itself(steps: int, denominator: int) -> None:
    inches = steps / denominator
    for rounding in ("nearest", "down", "up"):
        assert parse_length(format_feet_inches(inches, denominator, rounding)) == inches


@given(st.integers(1, 10**5), st.floats(2 * FLOAT_NOISE_IN, 0.9))
def test_no_clearance_short_of_a_step_is_printed_as_that_step(step: int, short: float) -> None:
    printed = parse_length(format_feet_inches(step - short, denominator=1, rounding="down"))
    assert printed < step


@pytest.mark.parametrize(
    ("celsius", "text"),
    [
        (-15.0, "-15.0 C (5 F)"),
        (0.0, "0.0 C (32 F)"),
        (-17.78, "-17.8 C (0 F)"),
        (35.0, "35.0 C (95 F)"),
    ],
)
def test_a_temperature_is_printed_in_both_units(celsius: float, text: str) -> None:
    assert format_temperature(celsius) == text
