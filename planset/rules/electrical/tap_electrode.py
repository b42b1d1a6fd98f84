"""How a disconnect ahead of the main is led to the electrodes of the service."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.codes.nec import clauses
from planset.codes.nec.conductors import area_cmil
from planset.codes.nec.grounding_electrode import grounding_electrode_size
from planset.design.electrical.ratings import wire_size
from planset.finding import Finding, Outcome
from planset.job.electrical.service import SupplySideTap
from planset.rules.circuits import nec, sized
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the conductor that is stated with the table; ask where none is.

    The code grounds such an enclosure as it does a service, and some authorities take the
    electrode conductor of the service for it, others ask for one of its own.
    """
    connection = design.inputs.job.electrical.interconnection
    if not isinstance(connection, SupplySideTap):
        return
    given = connection.electrode
    for segment, run in sized(design):
        if not segment.supply_side:
            continue
        where, change = segment.start, "state in interconnection.electrode what they say"
        outcome = Outcome.ASK
        if given is None:
            grounded = clauses.clause("supply_grounding", edition)
            fact = (
                f"{where} stands ahead of the main and is grounded as a service is ({grounded}); "
                "whether it gets a grounding electrode conductor of its own, or a tap on that of "
                "the service, is not stated; ask the authority"
            )
        elif given.size is None:
            outcome = Outcome.PASS
            fact = f"{where} gets no grounding electrode conductor of its own ({given.source})"
        else:
            least = grounding_electrode_size(run.size, run.material, given.material)
            enough = area_cmil(given.size) >= area_cmil(least)
            outcome = Outcome.PASS if enough else Outcome.FAIL
            change = f"take {wire_size(least)} or larger"
            fact = (
                f"The grounding electrode conductor of {where} is {wire_size(given.size)} "
                f"{given.material}; {wire_size(least)} is the least by Table 250.66 for "
                f"{wire_size(run.size)} {run.material}"
            )
        yield RULE.found(
            outcome,
            citation,
            sentence(outcome, fact, change),
            objects=(where,),
            line=design.inputs.line_of("electrical", "interconnection"),
        )


RULE = Rule(
    id="electrical.tap-electrode",
    title="Electrode conductor of a tap",
    subject="electrical",
    held_by="electrical",
    clauses=nec("supply_electrode"),
    check=check,
)
