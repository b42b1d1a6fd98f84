"""The fuses of a switch."""

from planset.catalog.fields import FaultCurrent, StrictModel, Text, Voltage


class Fuses(StrictModel):
    """What is marked on fuses: their class, as RK5, their voltage, and what they interrupt."""

    type: Text
    voltage: Voltage
    interrupting: FaultCurrent
