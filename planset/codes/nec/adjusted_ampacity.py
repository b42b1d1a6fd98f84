"""Ampacity of a conductor where it lies: temperature, company and roof."""

from dataclasses import dataclass

from planset.codes.nec import ampacity, ampacity_factors


@dataclass(frozen=True, slots=True)
class Wire:
    """What a conductor is made of, its size apart.

    Attributes:
        material: "copper" or "aluminum".
        insulation: Type, such as "THWN-2" or "PV wire".
        rating_c: Temperature rating of the insulation in the place where it lies: 60, 75 or 90;
            105 or 125 only of photovoltaic wire that is so marked [degrees C].

    Source: NEC 2017, Table 310.15(B)(16) [from memory]; NEC 2020 and 2023, Table 310.16.
    """

    material: str
    insulation: str
    rating_c: float


@dataclass(frozen=True, slots=True)
class Conditions:
    """Where a conductor lies.

    Attributes:
        ambient_c: Highest design ambient, without the rooftop adder [degrees C].
        current_carrying: Current-carrying conductors in the raceway or bundle.
        length_in: Length they run together; None where it is more than 24 in or unknown [in].
        gap_above_roof_in: Clear height of a raceway or cable in the sun above the roof [in];
            None where it is not in the sun on a roof.
        free_air: Whether it is a single conductor in free air.

    Source: NEC 2017, 310.15(B) [from memory]; NEC 2020 and 2023, 310.15(B) and 310.15(C).
    """

    ambient_c: float
    current_carrying: int
    length_in: float | None = None
    gap_above_roof_in: float | None = None
    free_air: bool = False


@dataclass(frozen=True, slots=True)
class AdjustedAmpacity:
    """An ampacity and how it came about.

    Attributes:
        base_a: Ampacity in the column of the insulation [A].
        temperature_c: Ambient with the rooftop adder [degrees C].
        ambient_factor: Correction for that temperature (no unit).
        bundling_factor: Adjustment for the number of conductors (no unit).

    Source: NEC 2017, 310.15(B) [from memory]; NEC 2020 and 2023, 310.15(B) and 310.15(C).
    """

    base_a: float
    temperature_c: float
    ambient_factor: float
    bundling_factor: float

    @property
    def ampacity_a(self) -> float:
        """Ampacity with both factors [A]."""
        return self.base_a * self.ambient_factor * self.bundling_factor


def adjusted_ampacity(
    size: str, wire: Wire, conditions: Conditions, edition: int
) -> AdjustedAmpacity:
    """Ampacity of a conductor under its conditions of use.

    Args:
        size: Conductor size.
        wire: Material and insulation.
        conditions: Where it lies.
        edition: Year of the NEC.

    Returns:
        Ampacity with its factors.

    Raises:
        ValueError: No table has the conductor, or a condition is outside its table.

    Source: NEC 2017, 310.15(B) [from memory]; NEC 2020 and 2023, 310.15(B) and 310.15(C).
    """
    adder_c = 0.0
    if conditions.gap_above_roof_in is not None:
        adder_c = ampacity_factors.rooftop_adder_c(
            conditions.gap_above_roof_in, wire.insulation, edition
        )
    temperature_c = conditions.ambient_c + adder_c
    return AdjustedAmpacity(
        base_a=_base_a(size, wire, conditions, edition),
        temperature_c=temperature_c,
        ambient_factor=ampacity_factors.ambient_factor(temperature_c, wire.rating_c),
        bundling_factor=ampacity_factors.bundling_factor(
            conditions.current_carrying, conditions.length_in
        ),
    )


def _base_a(size: str, wire: Wire, conditions: Conditions, edition: int) -> float:
    if wire.rating_c in ampacity.HIGH_RATINGS_C:
        if wire.material != "copper":
            msg = f"material is {wire.material!r}; expected copper for wire rated over 90 C"
            raise ValueError(msg)
        return ampacity.high_temperature_ampacity_a(size, wire.rating_c, edition)
    if conditions.free_air:
        return ampacity.free_air_ampacity_a(size, wire.material, wire.rating_c)
    return ampacity.ampacity_a(size, wire.material, wire.rating_c)
