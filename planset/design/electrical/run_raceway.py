"""The raceway of a run and how full it is; voltage lost along the run."""

from __future__ import annotations

from collections.abc import Sequence

from planset.codes.nec import raceways, resistance, voltage_drop
from planset.codes.nec.raceways import Fill
from planset.codes.nec.voltage_drop import Drop
from planset.design.electrical.runs import run_length_ft
from planset.design.electrical.topology import Segment
from planset.job.electrical.wiring import Run

_MADE_OF = {"pvc40": "pvc", "pvc80": "pvc", "none": "pvc"}
_PV_WIRE = "PV wire"
_GROUNDING_INSULATION = "THWN-2"


def fill_of(run: Run, conductors: Sequence[str], grounding: str) -> Fill | None:
    """How full the raceway is with all conductors of its circuits and one for grounding.

    Conductors of other circuits that the job counts are taken as large as these.

    Args:
        run: The run.
        conductors: Size of every circuit conductor in the raceway but those of other circuits.
        grounding: Size of the grounding conductor.

    Returns:
        The trade size stated, or the smallest; None in free air.

    Raises:
        ValueError: A conductor or trade size is not in the tables, or no raceway is large enough.

    Source: NEC chapter 9, Tables 1, 4 and 5.
    """
    if run.raceway == "none":
        return None
    others = [max(conductors, key=lambda size: _area_in2(run, size))] * run.other_conductors
    areas = [_area_in2(run, size) for size in (*conductors, *others)]
    insulation = _GROUNDING_INSULATION if run.insulation == _PV_WIRE else run.insulation
    areas.append(raceways.conductor_area_in2(grounding, insulation))
    nipple = 12.0 * run_length_ft(run) <= raceways.NIPPLE_IN
    if run.trade_size is None:
        return raceways.smallest_raceway(run.raceway, areas, nipple=nipple)
    known = raceways.trade_sizes(run.raceway)
    if run.trade_size not in known:
        msg = f"trade size is {run.trade_size}; {run.raceway} comes in {', '.join(known)}"
        raise ValueError(msg)
    return raceways.fill(known[run.trade_size], areas, nipple=nipple)


def _area_in2(run: Run, size: str) -> float:
    if run.insulation != _PV_WIRE:
        return raceways.conductor_area_in2(size, run.insulation)
    if run.diameter is None:
        msg = "the outside diameter of the photovoltaic wire in the raceway is not stated"
        raise ValueError(msg)
    return raceways.round_area_in2(run.diameter)


def impedance_of(run: Run, segment: Segment, size: str) -> float:
    """Resistance of a conductor; for alternating current its impedance at power factor 1.

    Returns:
        [ohm per 1000 ft].

    Raises:
        ValueError: The conductor is not in the tables.

    Source: NEC chapter 9, Table 8 for direct and Table 9 for alternating current.
    """
    if not segment.ac:
        return resistance.dc_resistance_ohm_per_kft(size, run.material)
    made_of = _MADE_OF.get(run.raceway, "steel")
    return resistance.effective_impedance_ohm_per_kft(
        resistance.ac_resistance_ohm_per_kft(size, run.material, made_of),
        resistance.reactance_ohm_per_kft(size, made_of),
    )


def drop_of(segment: Segment, ohm_per_kft: float, length_ft: float) -> Drop:
    """Voltage lost along a run, at the power factor 1 of an inverter."""
    system = "dc" if not segment.ac else "three_phase" if segment.lines == 3 else "single_phase"
    volts = segment.operating_v or segment.voltage_v
    current_a = segment.operating_a or 0.0
    return voltage_drop.segment_drop(current_a, length_ft, ohm_per_kft, volts, system)
