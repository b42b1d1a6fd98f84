"""Temperature limits of terminals by NEC 110.14(C)."""

from planset.codes import _check
from planset.codes.nec import ampacity, conductors

SMALL_CIRCUIT_A = 100.0
"""Circuits up to this rating have terminals taken at 60 C unless they are marked [A].

Source: NEC 2017, 2020 and 2023, 110.14(C)(1).
"""

LARGEST_SMALL_SIZE = "1"
"""Largest conductor, AWG, for which terminals of such circuits are made.

Source: NEC 2017, 2020 and 2023, 110.14(C)(1).
"""


def terminal_rating_c(circuit_a: float, size: str, marked_c: float | None) -> float:
    """Temperature of the ampacity column that a terminal allows.

    Args:
        circuit_a: Rating of the circuit, or of the device the terminal belongs to [A].
        size: Size of the conductor.
        marked_c: Temperature the equipment is marked for, None where it is not marked
            [degrees C].

    Returns:
        The marking, which governs; without it 60 for small circuits, else 75 [degrees C].

    Raises:
        ValueError: Rating not above zero, no such size, or a marking that is no column.

    Source: NEC 2017, 2020 and 2023, 110.14(C)(1).
    """
    _check.above_zero(circuit_a, "rating of the circuit, A,")
    if marked_c is not None:
        if marked_c not in ampacity.AMPACITY_RATINGS_C:
            msg = f"terminal marking is {marked_c:g} C; expected 60, 75 or 90 C, or no marking"
            raise ValueError(msg)
        return marked_c
    largest = conductors.area_cmil(LARGEST_SMALL_SIZE)
    small = circuit_a <= SMALL_CIRCUIT_A and conductors.area_cmil(size) <= largest
    return 60.0 if small else 75.0


def terminal_ampacity_a(size: str, material: str, terminal_c: float) -> float:
    """Ampacity of a conductor at its weakest terminal, whatever its insulation and method.

    Args:
        size: Conductor size.
        material: "copper" or "aluminum".
        terminal_c: Lowest temperature of all its terminals: 60, 75 or 90 [degrees C].

    Returns:
        Ampacity of that column [A].

    Raises:
        ValueError: The table has no such size or column.

    Source: NEC 2017, 2020 and 2023, 110.14(C)(1).
    """
    return ampacity.ampacity_a(size, material, terminal_c)
