"""Rafter spans of the residential code's tables, which rest on the model of the building code's."""

from planset.codes.ibc.rafter_spans import RafterSpan, table_span

_TABLES = {
    (0, False): 1,
    (0, True): 2,
    (30, False): 3,
    (50, False): 4,
    (30, True): 5,
    (50, True): 6,
    (70, False): 7,
    (70, True): 8,
}
_CLAUSES = {2015: "R802.5.1", 2018: "R802.4.1", 2021: "R802.4.1", 2024: "R802.4.1"}
_ROOF_LIVE_PSF = 20.0


def rafter_span(
    species: str,
    nominal: str,
    spacing_in: float,
    dead_psf: float,
    ground_snow_psf: int,
    *,
    ceiling: bool,
) -> RafterSpan:
    """Span of a No. 2 rafter as the tables have it; ground snow is the load as it stands.

    Args:
        species: A species group of the tables, such as "hem-fir".
        nominal: Nominal size from "2x4" to "2x12".
        spacing_in: Rafter to rafter, 12 to 24 [in].
        dead_psf: Dead load, 10 or 20 in the tables [psf].
        ground_snow_psf: 0 for roof live load of 20 psf, else 30, 50 or 70 [psf].
        ceiling: Whether a ceiling is attached, L/240; else L/180.

    Returns:
        The span; the tables end at 26 ft.

    Raises:
        ValueError: Species, size, spacing or snow outside the tables.

    Source: IRC 2018, Tables R802.4.1(1) to R802.4.1(8), recomputed.
    """
    _table_number(ground_snow_psf, ceiling=ceiling)
    snow = ground_snow_psf > 0
    variable = float(ground_snow_psf) if snow else _ROOF_LIVE_PSF
    return table_span(species, nominal, spacing_in, dead_psf, variable, snow=snow, ceiling=ceiling)


def table_clause(year: int, ground_snow_psf: int, *, ceiling: bool) -> str:
    """Clause of the table that holds a rafter's span.

    Args:
        year: Edition.
        ground_snow_psf: 0 for roof live load of 20 psf, else 30, 50 or 70 [psf].
        ceiling: Whether a ceiling is attached to the rafters.

    Returns:
        Such as "Table R802.4.1(1)".

    Raises:
        ValueError: No such table or edition.

    Source: IRC 2018, R802.4.1 [the numbers of the other editions from memory].
    """
    if year not in _CLAUSES:
        msg = f"no rafter tables of IRC {year} are known; expected one of {sorted(_CLAUSES)}"
        raise ValueError(msg)
    return f"Table {_CLAUSES[year]}({_table_number(ground_snow_psf, ceiling=ceiling)})"


def _table_number(ground_snow_psf: int, *, ceiling: bool) -> int:
    if (ground_snow_psf, ceiling) not in _TABLES:
        msg = f"ground snow is {ground_snow_psf} psf; expected 0, 30, 50 or 70 psf, as tabulated"
        raise ValueError(msg)
    return _TABLES[ground_snow_psf, ceiling]
