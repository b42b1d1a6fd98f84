"""What the electrical design takes for granted, in words for the cover."""

from __future__ import annotations

from typing import TYPE_CHECKING

from planset.design.electrical.module_voltage import FLUSH_ROOF_RISE_C

if TYPE_CHECKING:
    from planset.job.load import Inputs

_PRACTICE = "common practice, no source"
_READING = "interpretation"
_EITHER_WAY = ("RHW-2", "USE-2")  # Table 5 of chapter 9 has both forms, those with one are thicker


def electrical_assumptions(inputs: Inputs) -> tuple[tuple[str, str], ...]:
    """What is assumed, one sentence each, and where it comes from."""
    electrical = inputs.job.electrical
    found = [(f"Cells run {FLUSH_ROOF_RISE_C:g} C over ambient, flush to the roof.", _PRACTICE)]
    if electrical.strings:
        found += _of_strings(inputs)
    if electrical.branches and electrical.service.phases == 3:
        words = "Microinverters of a branch are shared evenly between the three pairs of lines."
        found.append((words, _PRACTICE))
    found += _of_runs(inputs)
    if electrical.service.existing_sources:
        words = "Breakers of sources that are there already stand at the end of the new one."
        found.append((words, _PRACTICE))
        words = "None of them is an array, so that the building has one type of rapid shutdown."
        found.append((words, _PRACTICE))
    return tuple(found)


def _of_strings(inputs: Inputs) -> list[tuple[str, str]]:
    electrical = inputs.job.electrical
    found = [
        (
            "Leads under the array lie in shade at the high ambient, no more than 3 "
            "current-carrying conductors together over 24 in.",
            _PRACTICE,
        )
    ]
    if inputs.converter is not None:
        used = [(string.inverter, string.input) for string in electrical.strings]
        if len(set(used)) < len(used):
            words = "Converter strings in parallel on one input go without fuses."
            found.append((words, "the listing of the converters is to allow it"))
    return found


def _of_runs(inputs: Inputs) -> list[tuple[str, str]]:
    found, given = [], [stated.run for stated in inputs.job.electrical.wiring.runs]
    if any(run.other_conductors and run.raceway != "none" for run in given):
        words = "Conductors of other circuits in a raceway are as large as those of its own."
        found.append((words, _PRACTICE))
    if any(run.insulation in _EITHER_WAY and run.raceway != "none" for run in given):
        words = "RHW-2 and USE-2 in raceways have no outer covering, as their data sheet is to say."
        found.append((words, _READING))
    words = "Circuits of one run out of one box share a raceway; a neutral carries unbalance only."
    found.append((words, _READING))
    found.append(("Inverters run at power factor 1; drop takes conductors at 75 C.", _PRACTICE))
    return found
