"""Wind speed and ground snow of the job are not below what the jurisdiction asks for."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.catalog.fields import Sourced
from planset.finding import Finding
from planset.rules.limits import at_least_outcome
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare both values with the profile's minimums, whose sources are the citations."""
    site, least = design.inputs.job.site, design.inputs.jurisdiction.minimums
    yield _compared(design, "wind_speed", site.wind_speed, least.wind_speed, "mph")
    yield _compared(design, "ground_snow", site.ground_snow, least.ground_snow, "psf")


def _compared(
    design: Design, field: str, value: float, least: Sourced[float], unit: str
) -> Finding:
    name = field.replace("_", " ")
    outcome = at_least_outcome(value, least.value)
    fact = (
        f"The job takes a {name} of {value:g} {unit}; {least.value:g} {unit} is the local minimum"
    )
    return RULE.found(
        outcome,
        f"{least.source}, {least.date}",
        sentence(outcome, fact, f"raise {field} to {least.value:g} {unit} or more"),
        measured=value,
        limit=least.value,
        unit=unit,
        line=design.inputs.line_of("site", field),
    )


RULE = Rule(
    id="structure.wind-speed",
    title="Local minimum of wind speed and snow",
    subject="structure",
    held_by="",
    clauses={},
    check=check,
)
