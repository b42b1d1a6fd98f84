"""What shuts the array down is listed with the inverter that starts it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding, Outcome
from planset.rules.circuits import inverter_of, nec
from planset.rules.listed_names import names, names_others
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Look for the model of each inverter in the listing of its devices or converters.

    A listing that names equipment after `with` holds for that only; one that names none leaves it
    to the reader.
    """
    inputs = design.inputs
    entry = inputs.shutdown or inputs.converter
    if entry is None or inputs.hazard_control is not None:
        return
    field, listing = "shutdown", entry.listing
    if inputs.shutdown is None and inputs.converter is not None:
        field, listing = "converter", inputs.converter.shutdown or ""
    if not listing:
        return  # no listing for rapid shutdown, of which another rule tells
    for inverter_id in dict.fromkeys(string.inverter for string in design.electrical.strings):
        model = inverter_of(design, inverter_id).model
        outcome, said = Outcome.PASS, "names it"
        change = f"take a device listed with {model}, or the listing of both off the certificate"
        if not names(listing, model):
            other = names_others(listing)
            outcome = Outcome.FAIL if other else Outcome.ASK
            said = "names other equipment" if other else "names no inverter"
        fact = f"{entry.model} shuts down the array of {inverter_id}, {model}; its listing {said}"
        fact += f": {listing}"
        yield RULE.found(
            outcome,
            citation,
            sentence(outcome, fact, change),
            objects=(inverter_id,),
            line=inputs.line_of("electrical", field),
        )


RULE = Rule(
    id="electrical.shutdown-listing",
    title="Shutdown equipment and inverter, listed together",
    subject="electrical",
    held_by="electrical",
    clauses=nec("rapid_shutdown_equipment"),
    check=check,
    accepts_alternate=False,
)
