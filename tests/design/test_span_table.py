"""Reading of a span table; the table is invented."""

from dataclasses import replace
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planset.design.span_table import (
    NotCovered,
    SpanReading,
    SpanRow,
    SpanSite,
    SpanTable,
    read_span,
)

WINDS = (110.0, 130.0, 150.0)
SNOWS = (0.0, 20.0, 40.0)
HEIGHTS = (15.0, 30.0)
ZONES = ("1", "2", "3")
BANDS = ((7.0, 20.0), (20.0, 27.0))


def span_in(wind: float, snow: float, height: float, zone: str, band: tuple[float, float]) -> float:
    """Falls with everything that grows."""
    severity = WINDS.index(wind) + SNOWS.index(snow) + HEIGHTS.index(height) + int(zone)
    return 96.0 - 6.0 * severity - (3.0 if band == BANDS[1] else 0.0)


ROWS = tuple(
    SpanRow(
        span_in=span_in(wind, snow, height, zone, band),
        cantilever_in=24.0,
        zone=zone,
        slope_deg=band,
        wind_mph=wind,
        snow_psf=snow,
        height_ft=height,
        module_length_in=80.0,
        exposure="B",
        roof="gable",
        profile="light",
    )
    for wind, snow, height, zone, band in product(WINDS, SNOWS, HEIGHTS, ZONES, BANDS)
)
TABLE = SpanTable("Table 4, spans.pdf", "Invented Rail Works", "2024-05-01", "ASCE 7-16", ROWS)
SITE = SpanSite(
    edition="ASCE 7-16",
    zones=("1",),
    slope_deg=18.0,
    wind_mph=110.0,
    snow_psf=20.0,
    height_ft=15.0,
    module_length_in=74.0,
    exposure="B",
    roof="gable",
    profile="light",
    topographic=1.0,
)


def row(site: SpanSite, table: SpanTable = TABLE) -> SpanRow:
    reading = read_span(table, site)
    assert isinstance(reading, SpanReading), reading
    return reading.row


@pytest.mark.parametrize("cell", ROWS[::7], ids=str)
def test_every_cell_is_read_where_its_keys_are_met(cell: SpanRow) -> None:
    assert cell.slope_deg is not None
    site = replace(
        SITE,
        zones=(cell.zone,),
        slope_deg=sum(cell.slope_deg) / 2,
        wind_mph=cell.wind_mph,
        snow_psf=cell.snow_psf,
        height_ft=cell.height_ft,
    )
    assert row(site) == cell


@pytest.mark.parametrize(
    ("change", "key", "value"),
    [
        ({"wind_mph": 111.0}, "wind_mph", 130.0),
        ({"wind_mph": 130.0}, "wind_mph", 130.0),
        ({"wind_mph": 90.0}, "wind_mph", 110.0),
        ({"snow_psf": 20.1}, "snow_psf", 40.0),
        ({"height_ft": 15.5}, "height_ft", 30.0),
        ({"module_length_in": 60.0}, "module_length_in", 80.0),
    ],
)
def test_numbers_go_up_to_the_next_row(change: dict[str, float], key: str, value: float) -> None:
    assert getattr(row(replace(SITE, **change)), key) == value


def test_the_worst_zone_and_both_bands_of_a_shared_slope() -> None:
    assert row(replace(SITE, zones=("1", "3", "2"))).zone == "3"
    assert row(replace(SITE, slope_deg=20.0)).slope_deg == BANDS[1]  # the shorter span


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"edition": "ASCE 7-22"}, "the table is for ASCE 7-16, the job for ASCE 7-22"),
        ({"zones": ()}, "no roof zone"),
        ({"zones": ("1", "2n")}, "zone 2n is not in the table"),
        ({"slope_deg": 28.0}, "no slope band of the table holds 28 deg"),
        ({"slope_deg": 6.9}, "no slope band"),
        ({"slope_deg": None}, "asks for the roof slope"),
        ({"wind_mph": 151.0}, "wind speed 151 mph is outside the table"),
        ({"snow_psf": 41.0}, "ground snow load 41 psf is outside"),
        ({"height_ft": 31.0}, "mean roof height 31 ft is outside"),
        ({"module_length_in": 81.0}, "module length 81 in is outside"),
        ({"exposure": "C"}, "exposure C is outside the table"),
        ({"exposure": None}, "asks for the exposure, which the job does not say"),
        ({"wind_mph": None}, "asks for the wind speed, which the job does not say"),
        ({"wind_mph": float("nan")}, "outside the table"),
        ({"roof": "hip"}, "roof shape hip is outside"),
        ({"profile": "heavy"}, "rail profile heavy is outside"),
        ({"topographic": 1.2}, "Kzt 1.2 is more than the table covers"),
        ({"topographic": None}, "Kzt is not known"),
    ],
)
def test_what_the_table_does_not_say_gives_no_number(change: dict[str, object], words: str) -> None:
    reading = read_span(TABLE, replace(SITE, **change))  # type: ignore[arg-type]
    assert isinstance(reading, NotCovered)
    assert words in reading.reason
    assert not reading.covered
    assert not hasattr(reading, "row")


def test_a_key_the_table_lacks_is_not_asked_for() -> None:
    plain = replace(TABLE, rows=(SpanRow(60.0, wind_mph=120.0), SpanRow(48.0, wind_mph=140.0)))
    bare = SpanSite("ASCE 7-16", ("2e",), wind_mph=125.0, topographic=1.0)
    assert row(bare, plain).span_in == 48.0
    hill = replace(plain, rows=(SpanRow(40.0, topographic=1.5),))
    assert row(replace(bare, topographic=1.3), hill).span_in == 40.0


def test_of_two_cells_with_the_same_keys_the_shorter_span_holds() -> None:
    twice = replace(TABLE, rows=(SpanRow(60.0), SpanRow(54.0), SpanRow(72.0)))
    assert row(SpanSite("ASCE 7-16", ("1",), topographic=1.0), twice).span_in == 54.0


@given(
    st.floats(80, 150),
    st.floats(0, 40),
    st.floats(0, 30),
    st.floats(7, 27),
    st.sampled_from(ZONES),
    st.floats(0, 20),
    st.floats(0, 10),
)
def test_a_worse_site_never_has_a_longer_span(
    wind: float, snow: float, height: float, slope: float, zone: str, gust: float, drift: float
) -> None:
    site = replace(
        SITE, zones=(zone,), slope_deg=slope, wind_mph=wind, snow_psf=snow, height_ft=height
    )
    worse = replace(site, wind_mph=wind + gust, snow_psf=snow + drift)
    reading, harder = read_span(TABLE, site), read_span(TABLE, worse)
    assert isinstance(reading, SpanReading)
    assert reading.row.span_in in {cell.span_in for cell in ROWS}  # a cell, nothing between
    if isinstance(harder, SpanReading):
        assert harder.row.span_in <= reading.row.span_in
