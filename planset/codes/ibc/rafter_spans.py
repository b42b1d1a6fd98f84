"""Rafter spans of the conventional-construction tables, recomputed by the model behind them."""

from dataclasses import dataclass, replace

from planset.codes import _check
from planset.codes.nds import design_values, lumber
from planset.codes.nds.beam_values import Service, adjusted
from planset.codes.nds.design_values import DesignValues

GREATEST_SPAN_FT = 26.0
"""Span the tables end at; what is longer they print as over 26 ft [ft].

Source: IBC 2018, Table 2308.7.2(2).
"""

TABLE_FB_PSI = {("douglas-fir-larch", "No. 2"): 875.0}
"""Bending values of the tables where they are not today's, by species and grade [psi].

Douglas fir-larch No. 2 is 900 in the NDS Supplement 2018; the tables come out with the older 875.

Source: IBC 2018, Table 2308.7.2(2), of which 47 values were recomputed; found by fitting.
"""

_GRADE = "No. 2"
_CLAUSES = {
    (0, False): "2308.7.2(1)",
    (0, True): "2308.7.2(2)",
    (30, False): "2308.7.2(3)",
    (50, False): "2308.7.2(4)",
    (30, True): "2308.7.2(5)",
    (50, True): "2308.7.2(6)",
}
_YEARS = {2015, 2018, 2021}


@dataclass(frozen=True, slots=True)
class RafterSpan:
    """The horizontal spans a rafter allows.

    Attributes:
        bending_ft: By bending under dead and live load or snow [ft].
        deflection_ft: By deflection under live load or snow alone [ft].

    Source: IBC 2018, Table 2308.7.2(2).
    """

    bending_ft: float
    deflection_ft: float

    @property
    def span_ft(self) -> float:
        """The lesser of both [ft]."""
        return min(self.bending_ft, self.deflection_ft)

    @property
    def governing(self) -> str:
        """What the span depends on: bending or deflection."""
        return "bending" if self.bending_ft <= self.deflection_ft else "deflection"


def rafter_span(
    section: lumber.Section,
    values: DesignValues,
    dead_psf: float,
    live_psf: float,
    spacing_in: float,
    deflection_limit: float,
) -> RafterSpan:
    """Horizontal span of a rafter as a simple beam, both loads on the horizontal projection.

    Args:
        section: Section of the rafter.
        values: Adjusted design values Fb' and E'.
        dead_psf: Dead load [psf].
        live_psf: Roof live load or snow [psf].
        spacing_in: Rafter to rafter [in].
        deflection_limit: n of the limit, span over n, under live load or snow alone.

    Returns:
        L = sqrt(8 Fb' S / 12 w) in bending, L^3 = 384 E I / (5 n w) in deflection.

    Raises:
        ValueError: A value is not above zero.

    Source: IBC 2018, Table 2308.7.2(2); the model is an interpretation that reproduces it.
    """
    _check.not_negative(dead_psf, "dead load, psf,")
    _check.above_zero(live_psf, "live load or snow, psf,")
    _check.above_zero(spacing_in, "rafter spacing, in,")
    _check.above_zero(deflection_limit, "deflection limit")
    total_plf = (dead_psf + live_psf) * spacing_in / 12.0
    live_pli = live_psf * spacing_in / 144.0
    bending = (8.0 * values.fb_psi * section.section_modulus_in3 / 12.0 / total_plf) ** 0.5
    stiffness = 384.0 * values.e_psi * section.moment_of_inertia_in4
    deflection = (stiffness / (5.0 * deflection_limit * live_pli)) ** (1.0 / 3.0) / 12.0
    return RafterSpan(bending, deflection)


def table_span(
    species: str,
    nominal: str,
    spacing_in: float,
    dead_psf: float,
    variable_psf: float,
    *,
    snow: bool,
    ceiling: bool,
) -> RafterSpan:
    """Span of a No. 2 rafter as the tables have it, roof live load or ground snow.

    Thrust must be resisted at the foot of the rafter; a raised tie or ridge beam is another case.

    Args:
        species: A species group of the tables, such as "hem-fir".
        nominal: Nominal size from "2x4" to "2x12".
        spacing_in: Rafter to rafter, 12 to 24 [in].
        dead_psf: Dead load, 10 or 20 in the tables [psf].
        variable_psf: Roof live load, 20, or ground snow load, 30, 50 or 70 [psf].
        snow: Whether it is snow, CD 1.15; else roof live load, CD 1.25.
        ceiling: Whether a ceiling is attached, L/240; else L/180.

    Returns:
        The span, not cut at `GREATEST_SPAN_FT`.

    Raises:
        ValueError: Species, size or spacing outside the tables.

    Source: IBC 2018, Tables 2308.7.2(1) to 2308.7.2(6), recomputed.
    """
    _check.within(spacing_in, 12.0, 24.0, "rafter spacing, in,")
    values = design_values.design_values(species, _GRADE, nominal)
    older = TABLE_FB_PSI.get((species, _GRADE))
    values = replace(values, fb_psi=older) if older else values
    service = Service(
        load_duration=1.15 if snow else 1.25,
        repetitive=True,
        size=design_values.size_factor(species, nominal),
    )
    limit = 240.0 if ceiling else 180.0
    section = lumber.section(nominal)
    return rafter_span(
        section, adjusted(values, service), dead_psf, variable_psf, spacing_in, limit
    )


def table_clause(year: int, ground_snow_psf: int, *, ceiling: bool) -> str:
    """Clause of the table that holds a rafter's span.

    Args:
        year: Edition.
        ground_snow_psf: 0 for roof live load of 20 psf, 30 or 50 for snow [psf].
        ceiling: Whether a ceiling is attached to the rafters.

    Returns:
        Such as "Table 2308.7.2(2)".

    Raises:
        ValueError: No such table, or an edition whose numbering is not known.

    Source: IBC 2018, 2308.7.2 [the numbers of 2015 and 2021 from memory].
    """
    if year not in _YEARS or (ground_snow_psf, ceiling) not in _CLAUSES:
        msg = (
            f"no rafter table of IBC {year} for {ground_snow_psf} psf of snow; "
            f"expected an edition of {sorted(_YEARS)} and snow of 0, 30 or 50 psf"
        )
        raise ValueError(msg)
    return f"Table {_CLAUSES[ground_snow_psf, ceiling]}"
