"""Connection of sources to a feeder on the load side, by NEC article 705."""

from pathlib import Path

from planset.codes import _check, _table
from planset.codes.nec import overcurrent


def feeder_minimum_a(source_a: float) -> float:
    """Least ampacity of a feeder to which sources connect.

    Args:
        source_a: Sum of the sources' continuous output currents [A].

    Returns:
        125 % of it [A].

    Raises:
        ValueError: Current not above zero.

    Source: NEC 2023, 705.12(A)(1); NEC 2020, 705.12(B)(1); NEC 2017, 705.12(B)(2)(1)
    [from memory].
    """
    _check.above_zero(source_a, "source output current, A,")
    return overcurrent.continuous_minimum_a(source_a)


def beyond_connection_minimum_a(feeder_device_a: float, source_a: float) -> float:
    """Least ampacity of the part of a feeder on the load side of a connection along it.

    A device at the connection, rated no more than the feeder's ampacity, may take its place; a
    connection at the end opposite the feeder's device needs neither.

    Args:
        feeder_device_a: Rating of the feeder's primary overcurrent device [A].
        source_a: Sum of the sources' continuous output currents [A].

    Returns:
        The device's rating and 125 % of the sources [A].

    Raises:
        ValueError: A value is not above zero.

    Source: NEC 2023, 705.12(A)(2); NEC 2020, 705.12(B)(1); NEC 2017, 705.12(B)(2)(1)
    [from memory].
    """
    _check.above_zero(feeder_device_a, "feeder overcurrent device, A,")
    return feeder_device_a + feeder_minimum_a(source_a)


def tap_minimum_a(
    feeder_device_a: float,
    source_a: float,
    source_device_a: float,
    reach_ft: float,
    edition: int,
) -> float:
    """Least ampacity of a tap from a feeder that sources feed, too.

    Args:
        feeder_device_a: Rating of the feeder's overcurrent device [A].
        source_a: Sum of the sources' continuous output currents [A].
        source_device_a: Sum of the ratings of the sources' devices [A].
        reach_ft: Which tap rule of 240.21(B): 10 or 25 [ft].
        edition: Year of the NEC.

    Returns:
        A tenth or a third of the feeder's device and the sources, which count by 125 % of their
        current until 2020 and by their devices since 2023 [A].

    Raises:
        ValueError: A value is not above zero, or the edition has no such tap.

    Source: NEC 2023, 705.12(A)(3); NEC 2020, 705.12(B)(2), and NEC 2017, 705.12(B)(2)(2)
    [both from memory].
    """
    _check.above_zero(feeder_device_a, "feeder overcurrent device, A,")
    _check.above_zero(source_device_a, "source overcurrent device, A,")
    counted_a = {"current": feeder_minimum_a(source_a), "rating": source_device_a}
    rows = _table.rows(Path(__file__).with_name("feeder_taps.csv"))
    for row in rows:
        if int(row["edition"]) == edition and float(row["reach_ft"]) == reach_ft:
            return (feeder_device_a + counted_a[row["counts"]]) / float(row["divisor"])
    known = ", ".join(f"{row['edition']} {row['reach_ft']} ft" for row in rows)
    msg = f"tap is NEC {edition} {reach_ft:g} ft; expected one of {known}"
    raise ValueError(msg)
