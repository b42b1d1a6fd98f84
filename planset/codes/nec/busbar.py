"""Connection on the load side at a busbar, the 120 percent rule of NEC article 705."""

from planset.codes import _check


def busbar_demand_a(main_a: float, inverter_output_a: float) -> float:
    """Current the rule counts against a busbar: the main and 125 % of the inverters.

    Args:
        main_a: Rating of the overcurrent device that protects the busbar [A].
        inverter_output_a: Sum of the inverters' continuous output currents [A].

    Returns:
        M + 1.25 S [A].

    Raises:
        ValueError: A current is negative.

    Source: NEC 2017, 705.12(B)(2)(3)(b); NEC 2020, 705.12(B)(3)(2); NEC 2023, 705.12(B)(2).
    """
    _check.not_negative(main_a, "main overcurrent device, A,")
    _check.not_negative(inverter_output_a, "inverter output current, A,")
    return main_a + 1.25 * inverter_output_a


def busbar_limit_a(busbar_a: float) -> float:
    """Limit of that current where main and inverter breaker sit at opposite ends of the busbar.

    Args:
        busbar_a: Ampere rating of the busbar, not of the main breaker [A].

    Returns:
        120 % of the rating [A].

    Raises:
        ValueError: Rating not above zero.

    Source: NEC 2017, 705.12(B)(2)(3)(b); NEC 2020, 705.12(B)(3)(2); NEC 2023, 705.12(B)(2).
    """
    _check.above_zero(busbar_a, "busbar rating, A,")
    return 1.2 * busbar_a
