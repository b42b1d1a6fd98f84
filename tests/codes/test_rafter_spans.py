"""Rafter spans of the conventional-construction tables.

Sources:
- IBC 2018 Table 2308.7.2(2), online.flipbuilder.com/mewf/msoi page 568.
- IRC 2018 Tables R802.4.1(1) and (3), recomputed with the same model apart from this program; the
  printed tables were not seen.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planset.codes.ibc import rafter_spans as ibc
from planset.codes.irc import rafter_spans as irc
from planset.codes.nds import lumber
from planset.codes.nds.beam_values import Service, adjusted
from planset.codes.nds.design_values import design_values, size_factor

SIZES = ("2x4", "2x6", "2x8", "2x10", "2x12")
OVER = ">26"

# IBC 2018 Table 2308.7.2(2): No. 2, Lr 20, ceiling attached, L/240; feet-inches, D 10 / D 20
IBC_TABLE = [
    ("douglas-fir-larch", 12, "9-10/9-10 15-6/14-4 20-5/18-2 25-8/22-3 >26/25-9"),
    ("hem-fir", 12, "9-2/9-2 14-5/14-2 19-0/17-11 24-3/21-11 >26/25-5"),
    ("southern-pine", 12, "9-5/9-0 14-9/13-6 19-6/17-1 23-5/20-3 26-0/23-10"),
    ("spruce-pine-fir", 12, "9-5/9-5 14-9/14-4 19-6/18-2 24-10/22-3 >26/25-9"),
    ("douglas-fir-larch", 16, "8-11/8-6 14-1/12-5 18-2/15-9 22-3/19-3 25-9/22-4"),
]

# IRC Tables R802.4.1(1) and (3), No. 2, L/180, recomputed; ground snow, D 10 / D 20
IRC_TABLE = [
    (0, "douglas-fir-larch", 16, "9-10/8-6 14-4/12-5 18-2/15-9 22-3/19-3 25-9/22-4"),
    (0, "spruce-pine-fir", 16, "9-5/8-6 14-4/12-5 18-2/15-9 22-3/19-3 25-9/22-4"),
    (0, "douglas-fir-larch", 24, "8-0/6-11 11-9/10-2 14-10/12-10 18-2/15-8 21-0/18-3"),
    (0, "spruce-pine-fir", 24, "8-0/6-11 11-9/10-2 14-10/12-10 18-2/15-8 21-0/18-3"),
    (0, "hem-fir", 16, "9-2/8-5 14-2/12-3 17-11/15-6 21-11/18-11 25-5/22-0"),
    (0, "hem-fir", 24, "7-11/6-10 11-7/10-0 14-8/12-8 17-10/15-6 20-9/17-11"),
    (0, "southern-pine", 16, "9-0/7-9 13-6/11-8 17-1/14-9 20-3/17-6 23-10/20-8"),
    (0, "southern-pine", 24, "7-4/6-4 11-0/9-6 13-11/12-1 16-6/14-4 19-6/16-10"),
    (30, "douglas-fir-larch", 24, "6-8/5-11 9-9/8-9 12-4/11-0 15-1/13-6 17-6/15-7"),
    (30, "spruce-pine-fir", 24, "6-8/5-11 9-9/8-9 12-4/11-0 15-1/13-6 17-6/15-7"),
    (30, "douglas-fir-larch", 16, "8-2/7-3 11-11/10-8 15-1/13-6 18-5/16-6 21-5/19-2"),
    (30, "spruce-pine-fir", 16, "8-2/7-3 11-11/10-8 15-1/13-6 18-5/16-6 21-5/19-2"),
]


def cells(row: str) -> list[tuple[str, int, str]]:
    """Size, dead load and printed span of every cell of a row."""
    return [
        (size, dead, span)
        for size, pair in zip(SIZES, row.split(), strict=True)
        for dead, span in zip((10, 20), pair.split("/"), strict=True)
    ]


def inches(span: str) -> int:
    feet, inch = span.split("-")
    return 12 * int(feet) + int(inch)


IBC_CELLS = [(name, oc, *cell) for name, oc, row in IBC_TABLE for cell in cells(row)]
IRC_CELLS = [(snow, name, oc, *cell) for snow, name, oc, row in IRC_TABLE for cell in cells(row)]


def test_the_table_has_47_printed_spans() -> None:
    assert sum(cell[-1] != OVER for cell in IBC_CELLS) == 47


@pytest.mark.parametrize(("species", "spacing_in", "size", "dead_psf", "printed"), IBC_CELLS)
def test_ibc_table(species: str, spacing_in: int, size: str, dead_psf: int, printed: str) -> None:
    span = ibc.table_span(species, size, spacing_in, dead_psf, 20, snow=False, ceiling=True)
    if printed == OVER:
        assert span.span_ft > ibc.GREATEST_SPAN_FT
    else:
        ends_ft = min(span.span_ft, ibc.GREATEST_SPAN_FT)
        assert 12 * ends_ft == pytest.approx(inches(printed), abs=1.0)


def test_one_printed_span_is_where_the_table_ends() -> None:
    # southern pine 2x12, D 10: printed 26-0, not over 26; the model allows 27.5 ft, so the print
    # proves the end of the table there, not the model
    span = ibc.table_span("southern-pine", "2x12", 12, 10, 20, snow=False, ceiling=True)
    assert span.span_ft == pytest.approx(27.53, abs=0.005)
    uncut = [cell for cell in IBC_CELLS if cell[-1] not in {OVER, "26-0"}]
    assert len(uncut) == 46


@pytest.mark.parametrize(
    ("snow_psf", "species", "spacing_in", "size", "dead_psf", "recomputed"), IRC_CELLS
)
def test_irc_tables(
    snow_psf: int, species: str, spacing_in: int, size: str, dead_psf: int, recomputed: str
) -> None:
    span = irc.rafter_span(species, size, spacing_in, dead_psf, snow_psf, ceiling=False)
    assert 12 * span.span_ft == pytest.approx(inches(recomputed), abs=1.0)


def test_two_cells_by_what_governs() -> None:
    # 2x6 DF-L 12 in, D 20: bending 14.35 ft, printed 14-4; 2x10 SPF 12 in, D 10: deflection, 24-10
    larch = ibc.table_span("douglas-fir-larch", "2x6", 12, 20, 20, snow=False, ceiling=True)
    assert larch.governing == "bending"
    assert larch.span_ft == pytest.approx(14.35, abs=0.01)
    spruce = ibc.table_span("spruce-pine-fir", "2x10", 12, 10, 20, snow=False, ceiling=True)
    assert spruce.governing == "deflection"


def test_todays_bending_value_gives_longer_spans_than_the_table() -> None:
    # 900 against 875: sqrt(900 / 875) = 1.4 % longer where bending governs
    values = design_values("douglas-fir-larch", "No. 2", "2x6")
    service = Service(1.25, repetitive=True, size=size_factor("douglas-fir-larch", "2x6"))
    today = ibc.rafter_span(lumber.section("2x6"), adjusted(values, service), 20, 20, 12, 240)
    table = ibc.table_span("douglas-fir-larch", "2x6", 12, 20, 20, snow=False, ceiling=True)
    assert today.bending_ft / table.bending_ft == pytest.approx(1.0142, abs=0.0001)
    assert today.deflection_ft == table.deflection_ft


@given(
    st.sampled_from(["douglas-fir-larch", "hem-fir", "southern-pine", "spruce-pine-fir"]),
    st.sampled_from(SIZES),
    st.floats(12, 24),
    st.floats(5, 25),
    st.floats(20, 70),
    st.floats(0.1, 5),
)
def test_more_load_never_lengthens_a_span(
    species: str, size: str, spacing_in: float, dead_psf: float, live_psf: float, more: float
) -> None:
    def span(dead: float, live: float) -> float:
        return ibc.table_span(
            species, size, spacing_in, dead, live, snow=True, ceiling=True
        ).span_ft

    before = span(dead_psf, live_psf)
    assert span(dead_psf + more, live_psf) <= before
    assert span(dead_psf, live_psf + more) < before


def test_clauses() -> None:
    assert ibc.table_clause(2018, 0, ceiling=True) == "Table 2308.7.2(2)"  # as the page heads it
    assert irc.table_clause(2018, 0, ceiling=False) == "Table R802.4.1(1)"
    assert irc.table_clause(2018, 30, ceiling=False) == "Table R802.4.1(3)"
    assert irc.table_clause(2015, 0, ceiling=False) == "Table R802.5.1(1)"  # from memory


def test_what_the_tables_lack_is_refused() -> None:
    with pytest.raises(ValueError, match="expected"):
        ibc.table_clause(2024, 0, ceiling=True)
    with pytest.raises(ValueError, match="expected"):
        ibc.table_clause(2018, 70, ceiling=True)
    with pytest.raises(ValueError, match="expected"):
        irc.table_clause(1995, 0, ceiling=True)
    with pytest.raises(ValueError, match="expected"):
        irc.rafter_span("hem-fir", "2x6", 16, 10, 25, ceiling=True)
    with pytest.raises(ValueError, match="rafter spacing"):
        irc.rafter_span("hem-fir", "2x6", 30, 10, 0, ceiling=True)
    with pytest.raises(ValueError, match="expected one of"):
        irc.rafter_span("red-oak", "2x6", 16, 10, 0, ceiling=True)
