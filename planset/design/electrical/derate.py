"""A smaller main in place of the service's."""

from __future__ import annotations

from typing import TYPE_CHECKING

from planset.codes.nec import busbar, main_derate
from planset.design.electrical.system import Derate

if TYPE_CHECKING:
    from planset.job.load import Inputs


def service_sources_a(inputs: Inputs, source_a: float) -> float:
    """Continuous outputs of all sources on the service bus, those there already too [A]."""
    existing = inputs.job.electrical.service.existing_sources
    return source_a + sum(source.current for source in existing)


def derate_of(inputs: Inputs, source_a: float) -> Derate | None:
    """The new main: the job's, or the largest that the 120 % rule leaves; the old if none does."""
    change, service = inputs.job.electrical.main_derate, inputs.job.electrical.service
    if change is None:
        return None
    load_a = change.calculation.load if change.calculation else None
    total_a = service_sources_a(inputs, source_a)
    try:
        # the load only judges the outcome, so that any stands in where none was calculated
        found = main_derate.derated_main(service.bus, total_a, load_a or service.main)
        limit_a, largest_a = found.limit_a, min(found.rating_a, service.main)
    except ValueError:
        limit_a = busbar.busbar_limit_a(service.bus) - busbar.busbar_demand_a(0.0, total_a)
        largest_a = service.main
    return Derate(service.main, change.main or largest_a, change.main is not None, limit_a, load_a)
