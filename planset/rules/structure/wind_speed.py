"""Wind speed, exposure and ground snow of the job are not below what the jurisdiction asks for.

A minimum given as a nominal speed is turned into the ultimate speed that a job states.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.catalog.fields import Dated
from planset.codes.ibc.wind_speed import ultimate_speed_mph
from planset.finding import Finding, Outcome
from planset.rules.limits import at_least_outcome
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the values with the profile's minimums, whose sources are the citations."""
    site, least = design.inputs.job.site, design.inputs.jurisdiction.minimums
    speed = least.wind_speed.value
    if least.wind_basis.value == "nominal":
        speed = _in_tenths(ultimate_speed_mph(speed))
    yield _compared(design, "wind_speed", site.wind_speed, speed, "mph", least.wind_speed)
    snow = least.ground_snow
    yield _compared(design, "ground_snow", site.ground_snow, snow.value, "psf", snow)
    if least.exposure is not None:
        yield _exposure(design, least.exposure.value, least.exposure)


def _compared(
    design: Design, field: str, value: float, least: float, unit: str, stated: Dated
) -> Finding:
    name = field.replace("_", " ")
    outcome = at_least_outcome(value, least)
    asked = f"{_in_tenths(least):g} {unit}"
    fact = f"The job takes a {name} of {value:g} {unit}; {asked} is the local minimum"
    return RULE.found(
        outcome,
        f"{stated.source}, {stated.date}",
        sentence(outcome, fact, f"raise {field} to {asked} or more"),
        objects=(name,),
        measured=value,
        limit=least,
        unit=unit,
        line=design.inputs.line_of("site", field),
    )


def _in_tenths(least: float) -> float:
    """A minimum up to the next tenth, as it is printed."""
    return math.ceil(10 * least - 1e-6) / 10


def _exposure(design: Design, least: str, stated: Dated) -> Finding:
    """Compare exposures, whose letters rise with the wind."""
    taken = design.inputs.job.site.exposure
    outcome = Outcome.PASS if taken >= least else Outcome.FAIL
    fact = f"The job takes exposure {taken}; {least} is the local minimum"
    return RULE.found(
        outcome,
        f"{stated.source}, {stated.date}",
        sentence(outcome, fact, f"set exposure to {least}"),
        objects=(f"exposure {taken}",),
        line=design.inputs.line_of("site", "exposure"),
    )


RULE = Rule(
    id="structure.wind-speed",
    title="Local minimum of wind speed, exposure and snow",
    subject="structure",
    held_by="",
    clauses={},
    check=check,
)
