"""The shutdown device is used within its maker's limits."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.electrical.topology import Kind
from planset.finding import Finding, Outcome
from planset.rules.circuits import cold_voc_per_device, input_current, tags_of
from planset.rules.limits import at_most_outcome
from planset.rules.lines import string_line
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.catalog.shutdown import ShutdownDevice
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare voltage and current of each module model, and whole devices in each string."""
    device = design.inputs.shutdown
    if device is None:
        return
    for name, voltage in cold_voc_per_device(design).items():
        module = design.inputs.modules[name]
        cold = "open circuit at the lowest ambient"
        yield _within(design, device, module.model, (voltage, device.max_input_v, "V", cold))
        current_a, basis = input_current(module, device.current_basis)
        yield _within(design, device, module.model, (current_a, device.max_current_a, "A", basis))
    yield from _whole_devices(design, device)


def _within(
    design: Design, device: ShutdownDevice, model: str, held: tuple[float, float, str, str]
) -> Finding:
    """Judge a value against a limit, both in a unit; the words tell what the value is."""
    value, limit, unit, what = held
    outcome = at_most_outcome(value, limit)
    fact = f"Module {model} gives device {device.model} {value:.2f} {unit}, {what}; it takes "
    fact += f"{limit:g} {unit}"
    return RULE.found(
        outcome,
        device.document,
        sentence(outcome, fact, "choose a device rated for the module"),
        measured=value,
        limit=limit,
        unit=unit,
        objects=tags_of(design, Kind.SHUTDOWN),
        line=design.inputs.line_of("electrical", "shutdown"),
    )


def _whole_devices(design: Design, device: ShutdownDevice) -> Iterator[Finding]:
    for string in design.electrical.strings:
        devices, left_over = divmod(len(string.modules), device.modules_per_device)
        outcome = Outcome.FAIL if left_over else Outcome.PASS
        fact = f"String {string.id} has {len(string.modules)} modules on {devices} devices"
        fact += f", and {left_over} without" if left_over else ""
        change = f"make its modules a multiple of {device.modules_per_device}"
        yield RULE.found(
            outcome,
            device.document,
            sentence(outcome, fact, change),
            objects=(string.id,),
            line=string_line(design, string.id, "modules"),
        )


RULE = Rule(
    id="electrical.shutdown-device",
    title="Limits of the shutdown device",
    subject="electrical",
    held_by="",
    clauses={},
    check=check,
    accepts_alternate=False,
)
