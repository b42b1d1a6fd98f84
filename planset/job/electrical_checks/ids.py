"""Ids of an electrical section: each is the tag of one thing on every sheet."""

import re
from collections.abc import Iterator

from planset.errors import Problem
from planset.job.electrical.electrical import Electrical
from planset.source import Location, SourceDocument

_TAKEN = re.compile(
    r"MSP|DISC1|TAP1|UTIL|M[12]|CB[0-9]+|(MSP|RSD|CONV)-.+|.+-(MAIN|LUGS|BUS|LOADS)"
)

PANEL, METER, DISCONNECT, TAP, PRODUCTION_METER = "MSP", "M1", "DISC1", "TAP1", "M2"
"""Tags of what every system has one of: service panel, utility meter, disconnect, tap, meter."""


def electrical_ids(electrical: Electrical) -> Iterator[tuple[Location, str]]:
    """Yield the place and the name of every id that the section gives."""
    for field in ("inverters", "strings", "branches", "junction_boxes", "pull_boxes"):
        for number, item in enumerate(getattr(electrical, field)):
            yield ("electrical", field, number, "id"), item.id
    for number, inverter in enumerate(electrical.inverters):
        if inverter.dc_disconnect is not None:
            place = ("electrical", "inverters", number, "dc_disconnect", "id")
            yield place, inverter.dc_disconnect.id
    for field in ("storage", "backup", "combiner"):
        item = getattr(electrical, field)
        if item is not None:
            yield ("electrical", field, "id"), item.id
    storage = electrical.storage
    if storage is not None and storage.shutdown_switch is not None:
        yield ("electrical", "storage", "shutdown_switch", "id"), storage.shutdown_switch.id
    if electrical.shutdown_contact is not None:
        yield ("electrical", "shutdown_contact", "id"), electrical.shutdown_contact.id
    if electrical.interconnection.method == "subpanel_breaker":
        yield ("electrical", "interconnection", "subpanel"), electrical.interconnection.subpanel


def check_ids(electrical: Electrical, document: SourceDocument) -> Iterator[Problem]:
    """Yield every id that planset gives to a thing of its own."""
    for place, name in electrical_ids(electrical):
        if _TAKEN.fullmatch(name):
            message = f"a tag that planset gives itself (got {name})"
            yield document.problem(place, message, "choose another id, as INV1, JB1 or ACC")
