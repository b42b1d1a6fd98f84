"""Sizing of conductors for continuous currents: the pair of tests, and protection.

The same two tests serve dc circuits and inverter outputs: 125 % of the current before any factor,
at the terminals; 100 % of it after all factors, in the raceway.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from planset.codes import _check
from planset.codes.nec import ampacity, conductor_protection, conductors, overcurrent, terminals
from planset.codes.nec.adjusted_ampacity import (
    AdjustedAmpacity,
    Conditions,
    Wire,
    adjusted_ampacity,
)


@dataclass(frozen=True, slots=True)
class Circuit:
    """What a circuit asks of its conductors.

    Attributes:
        current_a: Maximum circuit current, without the 125 % for continuous use [A].
        terminal_c: Lowest temperature of all terminals on the conductor [degrees C].
        device_a: Rating of the overcurrent device; None for a circuit that has none [A].
        fuse: Whether that device is a fuse.
        fully_rated: Whether assembly and device are listed for 100 % continuous use.

    Source: NEC 2017 [from memory], 2020 and 2023, 690.8(B); NEC 2023, 705.28(B).
    """

    current_a: float
    terminal_c: float
    device_a: float | None = None
    fuse: bool = False
    fully_rated: bool = False


@dataclass(frozen=True, slots=True)
class SizeCheck:
    """How one conductor size meets a circuit.

    Attributes:
        size: Conductor size.
        terminal_demand_a: 125 % of the current, 100 % where fully rated [A].
        terminal_ampacity_a: Ampacity at the weakest terminal, before factors [A].
        demand_a: The maximum circuit current [A].
        adjusted: Ampacity after all factors.
        device_a: Rating of the overcurrent device, None without one [A].
        largest_device_a: Largest device that protects the conductor [A].

    Source: NEC 2017 [from memory], 2020 and 2023, 690.8(B); NEC 2023, 705.28(B).
    """

    size: str
    terminal_demand_a: float
    terminal_ampacity_a: float
    demand_a: float
    adjusted: AdjustedAmpacity
    device_a: float | None
    largest_device_a: float

    @property
    def tests(self) -> Mapping[str, bool]:
        """Test to whether it is met: "terminals", "conditions" and "protection"."""
        device = self.device_a
        return {
            "terminals": _check.at_most(self.terminal_demand_a, self.terminal_ampacity_a),
            "conditions": _check.at_most(self.demand_a, self.adjusted.ampacity_a),
            "protection": device is None or _check.at_most(device, self.largest_device_a),
        }

    @property
    def holds(self) -> bool:
        """Whether every test is met."""
        return all(self.tests.values())


@dataclass(frozen=True, slots=True)
class Sizing:
    """The smallest conductor that serves a circuit, and why no smaller one does.

    Attributes:
        check: How the size meets each test.
        smallest_by_test: Test to the smallest size that meets it alone; "minimum" is the
            smallest size allowed at all.

    Source: NEC 2017 [from memory], 2020 and 2023, 690.8(B); NEC 2023, 705.28(B).
    """

    check: SizeCheck
    smallest_by_test: Mapping[str, str]

    @property
    def size(self) -> str:
        """The size."""
        return self.check.size

    @property
    def governing(self) -> tuple[str, ...]:
        """Tests that alone would already ask for this size."""
        return tuple(test for test, size in self.smallest_by_test.items() if size == self.size)


def check_size(
    size: str, circuit: Circuit, wire: Wire, conditions: Conditions, edition: int
) -> SizeCheck:
    """Test a conductor size against a circuit.

    Args:
        size: Conductor size.
        circuit: What is asked.
        wire: Material and insulation.
        conditions: Where the conductor lies.
        edition: Year of the NEC.

    Returns:
        Both sides of every test.

    Raises:
        ValueError: Current not above zero, no such conductor, a condition outside its table.

    Source: NEC 2017 [from memory], 2020 and 2023, 690.8(B); NEC 2023, 705.28(B). That the device
    goes by the lesser of both ampacities is an interpretation of 240.4 with 110.14(C).
    """
    _check.above_zero(circuit.current_a, "maximum circuit current, A,")
    at_terminal = terminals.terminal_ampacity_a(size, wire.material, circuit.terminal_c)
    adjusted = adjusted_ampacity(size, wire, conditions, edition)
    factor = 1.0 if circuit.fully_rated else overcurrent.CONTINUOUS
    return SizeCheck(
        size=size,
        terminal_demand_a=factor * circuit.current_a,
        terminal_ampacity_a=at_terminal,
        demand_a=circuit.current_a,
        adjusted=adjusted,
        device_a=circuit.device_a,
        largest_device_a=conductor_protection.largest_device_a(
            size, wire.material, min(at_terminal, adjusted.ampacity_a), fuse=circuit.fuse
        ),
    )


def smallest_size(
    circuit: Circuit,
    wire: Wire,
    conditions: Conditions,
    edition: int,
    minimum: str | None = None,
) -> Sizing:
    """Find the smallest conductor that meets every test of a circuit.

    Args:
        circuit: What is asked.
        wire: Material and insulation.
        conditions: Where the conductor lies.
        edition: Year of the NEC.
        minimum: Smallest size allowed for another reason, as on the supply side; None: none.

    Returns:
        The size with the tests that govern it.

    Raises:
        ValueError: As `check_size`, or no size of the tables serves.

    Source: NEC 2017 [from memory], 2020 and 2023, 690.8(B); NEC 2023, 705.28(B).
    """
    least = conductors.area_cmil(minimum) if minimum else 0.0
    sizes = _candidates(wire, circuit, conditions)
    checks = [check_size(size, circuit, wire, conditions, edition) for size in sizes]
    large = [check for check in checks if conductors.area_cmil(check.size) >= least]
    found = next((check for check in large if check.holds), None)
    if found is None:
        msg = (
            f"maximum circuit current is {circuit.current_a:g} A; expected what one conductor of "
            f"{wire.material}{f' up to {sizes[-1]}' if sizes else ''} carries there; "
            "use parallel or fewer circuits"
        )
        raise ValueError(msg)
    by_test = {
        test: next(check.size for check in checks if check.tests[test]) for test in found.tests
    }
    if minimum:
        by_test["minimum"] = large[0].size
    return Sizing(found, by_test)


def _candidates(wire: Wire, circuit: Circuit, conditions: Conditions) -> tuple[str, ...]:
    """Sizes that stand in both tables, that of the terminals and that of the place."""
    at_terminal = ampacity.table_sizes(wire.material, circuit.terminal_c)
    in_place = ampacity.table_sizes(wire.material, wire.rating_c, free_air=conditions.free_air)
    return tuple(size for size in at_terminal if size in in_place)
