"""Which circuits a backup panel feeds is stated."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding, Outcome
from planset.rules.circuits import nec
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Ask where nobody has said: the crew cannot move what is not listed."""
    backup = design.inputs.job.electrical.backup
    if backup is None:
        return
    count = len(backup.circuits)
    outcome = Outcome.PASS if count else Outcome.ASK
    fact = f"{backup.id} feeds {count} circuits, as listed"
    if not count:
        fact = f"Which circuits {backup.id} feeds is not stated"
    yield RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, f"ask the owner, and list them in circuits of {backup.id}"),
        objects=(backup.id,),
        line=design.inputs.line_of("electrical", "backup"),
    )


RULE = Rule(
    id="electrical.backup-circuits",
    title="Circuits of the backup panel",
    subject="electrical",
    held_by="electrical",
    clauses=nec("panel_directory"),
    check=check,
)
