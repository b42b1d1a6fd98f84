"""Connection on the supply side of the service disconnect by NEC articles 230 and 705."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from planset.codes import _check
from planset.codes.nec import _tables

SMALLEST_CONDUCTOR = {"copper": "6", "aluminum": "4"}
"""Smallest conductor between the connection and its disconnect, by material, AWG.

Source: NEC 2023, 705.11, its letter (B) from memory; NEC 2020, 705.11(B) [from memory]; under
NEC 2017, 705.12(A), which is silent, an interpretation by the 60 A of 230.79(D).
"""

SMALLEST_DISCONNECT_A = 60.0
"""Smallest rating of its disconnect [A].

Source: NEC 2017, 2020 and 2023, 230.79(D); that it applies is an interpretation common to
authorities.
"""

_PLACES = {
    "dwelling": "supply_tap_dwelling_ft",
    "other": "supply_tap_other_ft",
    "engineered": "supply_tap_engineered_ft",
}


def smallest_conductor(material: str) -> str:
    """Smallest conductor of a supply-side connection.

    Args:
        material: "copper" or "aluminum".

    Returns:
        Size; its ampacity is tested as that of any inverter output circuit.

    Raises:
        ValueError: No such material.

    Source: NEC 2023, 705.11, its letter (B) from memory; NEC 2020, 705.11(B) [from memory];
    NEC 2017, 705.12(A) [interpretation].
    """
    if material not in SMALLEST_CONDUCTOR:
        msg = f"material is {material!r}; expected one of {', '.join(SMALLEST_CONDUCTOR)}"
        raise ValueError(msg)
    return SMALLEST_CONDUCTOR[material]


@dataclass(frozen=True, slots=True)
class ServiceSources:
    """The sources on a service, as an edition counts them.

    Attributes:
        counted: "devices" where their overcurrent devices count, "currents" where their continuous
            outputs do.
        parts_a: What is counted of each source [A].
        limit_a: Rating of the service, or ampacity of its conductors [A].

    Source: NEC 2017, 705.12(A) [from memory]; NEC 2020, 705.11(A); NEC 2023, 705.11(B) [from
    memory].
    """

    counted: Literal["devices", "currents"]
    parts_a: tuple[float, ...]
    limit_a: float

    @property
    def total_a(self) -> float:
        """Their sum [A]."""
        return math.fsum(self.parts_a)


def service_sources(
    devices_a: Sequence[float],
    currents_a: Sequence[float],
    service_a: float,
    conductors_a: float,
    edition: int,
) -> ServiceSources:
    """What the sources on a service make together, and what they may.

    Args:
        devices_a: Ratings of the overcurrent devices of all sources on it [A].
        currents_a: Their continuous output currents [A].
        service_a: Rating of the service [A].
        conductors_a: Ampacity of the service conductors [A].
        edition: Year of the NEC.

    Raises:
        ValueError: A number is not above zero, or an edition that is not covered.

    Source: NEC 2017, 705.12(A), by devices [from memory]; NEC 2020, 705.11(A), by currents; NEC
    2023, 705.11(B), the same [from memory].
    """
    by_devices = _tables.of_edition("edition_values", "supply_sources_counted", edition)
    _check.above_zero(service_a, "rating of the service, A,")
    _check.above_zero(conductors_a, "ampacity of the service conductors, A,")
    for value_a in (*devices_a, *currents_a):
        _check.above_zero(value_a, "device or current of a source, A,")
    if by_devices == "devices":
        return ServiceSources("devices", tuple(devices_a), service_a)
    return ServiceSources("currents", tuple(currents_a), conductors_a)


def disconnect_minimum_a(device_a: float) -> float:
    """Smallest rating of the disconnect of a supply-side connection.

    Args:
        device_a: Rating of the overcurrent device in it [A].

    Returns:
        That rating, at least 60 A [A].

    Raises:
        ValueError: Rating not above zero.

    Source: NEC 2017, 2020 and 2023, 230.79(D).
    """
    _check.above_zero(device_a, "rating of the overcurrent device, A,")
    return max(device_a, SMALLEST_DISCONNECT_A)


def longest_tap_ft(place: str, edition: int) -> float | None:
    """How far the overcurrent device may be from the connection.

    In 2017 and 2020 a limiter at the connection lifts the distance; in 2026 it holds for conductors
    inside a building.

    Args:
        place: "dwelling", "other", or "engineered" for other buildings under engineering
            supervision.
        edition: Year of the NEC.

    Returns:
        Length [ft]; None where the edition fixes none.

    Raises:
        ValueError: No such place, or an edition that is not covered.

    Source: NEC 2017, 705.31, the same for all buildings [from memory, named in practitioners'
    threads]; NEC 2020 and 2026, 705.11(C); NEC 2023, 705.11, has no such length.
    """
    if place not in _PLACES:
        msg = f"place is {place!r}; expected one of {', '.join(_PLACES)}"
        raise ValueError(msg)
    if edition not in _tables.EDITIONS:
        known = ", ".join(str(year) for year in _tables.EDITIONS)
        msg = f"NEC edition is {edition}; expected one of {known}"
        raise ValueError(msg)
    text = _tables.by_topic("edition_values")[_PLACES[place]].get(edition)
    return None if text is None else float(text)
