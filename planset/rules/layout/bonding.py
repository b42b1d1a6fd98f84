"""As many lugs as the listing of the mounting system asks for, none with too many modules."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.bonding import bonded_sections
from planset.design.mounted import Mounted
from planset.finding import Finding, Outcome
from planset.rules.limits import at_most_outcome
from planset.rules.lines import array_line
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Count the sections of each array, and the modules on the lug with the most."""
    for one in design.mounts:
        bonding = one.array.system.bonding
        document = f"{bonding.document}, page {bonding.page}, {bonding.listing}"
        line = array_line(design, one.id, "mounting", "system")
        if not bonding.modules_to_rails:
            message = (
                f"Nothing of {one.array.system.model} bonds modules to rails without jumpers, "
                f"which are not laid out; draw those of array {one.id} by the manual."
            )
            yield RULE.found(Outcome.OPEN, document, message, objects=(one.id,), line=line)
        else:
            yield _lugs(one, document, line)


def _lugs(one: Mounted, document: str, line: int) -> Finding:
    sections = bonded_sections(one)
    most = one.array.system.bonding.most_modules
    worst = max(sections, key=lambda section: len(section.modules), default=None)
    count = len(worst.modules) if worst else 0
    outcome = Outcome.PASS if most is None else at_most_outcome(count, most)
    fact = (
        f"Array {one.id} takes {len(sections)} lug{'s' if len(sections) != 1 else ''}, one to "
        f"every {_what(one)}, with {count} modules at most on one"
    )
    if most is not None:
        fact += f"; the listing allows {most}"
    change = "part the array, or choose a system that is listed for more"
    return RULE.found(
        outcome,
        document,
        sentence(outcome, fact, change),
        measured=None if most is None else float(count),
        limit=None if most is None else float(most),
        unit="modules",
        objects=(one.id, *((worst.ends[0][0],) if worst and worst.ends else ())),
        line=line,
    )


def _what(one: Mounted) -> str:
    bonding = one.array.system.bonding
    if bonding.lug_per == "array":
        return "block of modules"
    return "rail" if bonding.splices_bond else "rail between splices"


RULE = Rule(
    id="layout.bonding",
    title="Grounding lugs",
    subject="layout",
    held_by="",
    clauses={},
    check=check,
    of_mounting=True,
)
