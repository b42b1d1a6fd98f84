"""Control wiring against the switch it belongs to, the inverter it stops, and its raceway."""

from collections.abc import Iterator

from planset.codes.nec import raceways
from planset.errors import Problem
from planset.job.electrical.control import ControlWiring
from planset.job.electrical.electrical import Electrical
from planset.job.electrical_checks import ids
from planset.source import Location, SourceDocument

SWITCHES = {"pv_disconnect": ids.DISCONNECT, "service_disconnect": ids.PANEL}
"""Initiator to the tag of what its auxiliary contact is in."""


def check_control(electrical: Electrical, document: SourceDocument) -> Iterator[Problem]:
    """Yield contacts of no switch, inverters that are not there, and raceways too small."""
    contact = electrical.shutdown_contact
    place: Location = ("electrical", "shutdown_contact")
    if contact is not None:
        if electrical.initiator not in SWITCHES:
            message = "an auxiliary contact, and the initiator is no disconnect that could hold it"
            mend = "write initiator: pv_disconnect or service_disconnect, or remove it"
            yield document.problem(place, message, mend)
        known = [inverter.id for inverter in electrical.inverters]
        if contact.stops not in known:
            message = f"no inverter has this id (got {contact.stops})"
            mend = f"write one of: {', '.join(known)}" if known else "remove it"
            yield document.problem((*place, "stops"), message, mend)
        yield from _check_raceway(contact.wiring, (*place, "wiring"), document)
    storage = electrical.storage
    if storage is not None and storage.shutdown_switch is not None:
        place = ("electrical", "storage", "shutdown_switch", "wiring")
        yield from _check_raceway(storage.shutdown_switch.wiring, place, document)


def _check_raceway(
    wiring: ControlWiring, place: Location, document: SourceDocument
) -> Iterator[Problem]:
    known = raceways.trade_sizes(wiring.raceway)
    if wiring.trade_size not in known:
        message = f"not a trade size of {wiring.raceway} (got {wiring.trade_size})"
        mend = f"write one of: {', '.join(known)}"
        yield document.problem((*place, "trade_size"), message, mend)
        return
    try:
        area = raceways.conductor_area_in2(wiring.size, wiring.insulation)
    except ValueError:
        message = f"no area is known for {wiring.size} {wiring.insulation} (got this insulation)"
        mend = "write an insulation of building wire, as THWN-2, and its size"
        yield document.problem((*place, "insulation"), message, mend)
        return
    filled = raceways.fill(known[wiring.trade_size], [area] * wiring.conductors)
    if not filled.holds:
        message = (
            f"{wiring.conductors} conductors fill it to {100 * filled.share:.0f} % (got "
            f"{wiring.trade_size}), where {100 * filled.limit:.0f} % is allowed"
        )
        yield document.problem((*place, "trade_size"), message, "take a larger raceway")
