"""Control wiring: what stops an array or a battery, and the cable from it to the input it works."""

from typing import Literal

from planset.catalog.enclosure import EnclosureType
from planset.catalog.fields import Count, Id, Size, StrictModel, Text, Voltage
from planset.job.electrical.conductors import ConductorSize, Insulation


class ControlWiring(StrictModel):
    """The conductors of one control circuit, in a raceway of their own, apart from power.

    `voltage` is what the maker of the input states for its circuit; `length` is of the raceway.
    """

    conductors: Count
    size: ConductorSize
    insulation: Insulation
    material: Literal["copper"] = "copper"
    voltage: Voltage
    raceway: Literal["emt", "rmc", "pvc40", "pvc80", "fmc"]
    trade_size: Text
    length: Size


class ShutdownContact(StrictModel):
    """An auxiliary contact of the initiator, which stops an array that would go on by itself.

    `stops` is the inverter whose `input` it is wired to; `contact` what it does as the switch is
    opened; `effect` what ends then, by the maker's instructions.
    """

    id: Id
    stops: Id
    input: Text
    contact: Literal["opens", "closes"]
    effect: Text
    wiring: ControlWiring


class EmergencyShutdown(StrictModel):
    """A device outdoors, within ready reach, that stops the batteries of a dwelling.

    `device` is what it is, as a maintained push button with its positions marked; `contact` what it
    does as it is operated; `input` where it is wired to at the batteries.
    """

    id: Id
    device: Text
    location: Text
    enclosure: EnclosureType
    contact: Literal["opens", "closes"]
    input: Text
    wiring: ControlWiring
