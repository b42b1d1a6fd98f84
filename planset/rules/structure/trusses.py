"""Trusses are judged by their designer: by a letter that covers what the arrays add."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.codes.screening.lists import TRUSS_LIST, judge
from planset.finding import Finding, Outcome
from planset.job.truss_letter import LOAD_WORDS, TrussLetter
from planset.rules.limits import at_most_outcome
from planset.rules.rule import Rule, sentence
from planset.rules.screening_facts import screening_facts, words_of

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Hold the letter against the arrays; without one, list what is met and ask for it."""
    framing = design.inputs.job.framing
    if framing is None or framing.kind != "truss" or not design.mounted:
        return
    if framing.sound is False:
        yield _unsound(design, citation)
    if framing.letter is None:
        yield _without_letter(design, citation)
        return
    yield _weight(design, framing.letter)
    yield from _left_open(design, framing.letter)
    if framing.letter.stagger == "required":
        yield _staggered(design, framing.letter)


def _unsound(design: Design, citation: str) -> Finding:
    message = (
        "The trusses are surveyed as not sound, and no letter here answers for damaged ones; have "
        "them repaired by their designer's drawing, then write sound: true."
    )
    line = design.inputs.line_of("framing", "sound")
    return RULE.found(Outcome.FAIL, citation, message, line=line)


def _without_letter(design: Design, citation: str) -> Finding:
    met, not_met, unknown = (_listed(design, kind) for kind in ("met", "not met", "unknown"))
    message = (
        f"The roof is on trusses: met ({met}), not met ({not_met}), to be shown ({unknown}). Get "
        "the letter of the truss designer or an engineer, and state it in framing.letter."
    )
    line = design.inputs.line_of("framing", "kind")
    return RULE.found(Outcome.OPEN, citation, message, line=line)


def _listed(design: Design, outcome: str) -> str:
    facts = dict(screening_facts(design))
    framing = design.inputs.framing
    facts["structure_sound"] = framing.sound
    facts["truss_designer_letter"] = True if framing.letter else None
    return words_of(judge(TRUSS_LIST, facts), outcome) or "nothing"


def _weight(design: Design, letter: TrussLetter) -> Finding:
    heaviest = max(design.mounted, key=lambda array: array.system.dead_load_psf)
    added = heaviest.system.dead_load_psf
    outcome = at_most_outcome(added, letter.added_load)
    fact = (
        f"Array {heaviest.id} puts {added:g} psf on the trusses, {letter.added_load:g} psf at most "
        f"by the letter, which covers {letter.covered}"
    )
    beyond = _listed(design, "not met")
    if beyond != "nothing":
        fact += f" and answers for what a usual list would not pass ({beyond})"
    return RULE.found(
        outcome,
        letter.cited,
        sentence(outcome, fact, "have its signer judge this load, and state the new letter"),
        measured=added,
        limit=letter.added_load,
        unit="psf",
        objects=(heaviest.id,),
        line=design.inputs.line_of("framing", "letter", "added_load"),
    )


def _left_open(design: Design, letter: TrussLetter) -> Iterator[Finding]:
    """Yield what neither the letter nor the survey tells."""
    needed = ["array_weight", "wind"]
    if design.inputs.job.site.ground_snow > 0:
        needed.append("snow")
    silent = [LOAD_WORDS[load] for load in needed if load not in letter.covers]
    if silent:
        message = (
            f"The letter says nothing of {' and '.join(silent)} with the arrays in place; have its "
            "signer add it, then list it in covers."
        )
        line = design.inputs.line_of("framing", "letter", "covers")
        yield RULE.found(Outcome.OPEN, letter.cited, message, line=line)
    if design.inputs.framing.sound is None:
        message = (
            "Nobody says whether the trusses under the arrays are sound; look at each for cut, "
            "notched, split or missing members, and write framing.sound: true or false."
        )
        line = design.inputs.line_of("framing", "letter")
        yield RULE.found(Outcome.OPEN, letter.cited, message, line=line)


def _staggered(design: Design, letter: TrussLetter) -> Finding:
    staggered = screening_facts(design).get("staggered")
    outcome = Outcome.PASS if staggered else Outcome.FAIL
    if staggered is None:
        fact = "Rails up the slope put all their attachments on one truss, and the letter asks for"
        change = "have its signer judge this layout, or take rails across the slope"
    else:
        fact = "Neighboring rails stand on the same trusses, and the letter asks for"
        change = "write stagger: true in the mounting of each array"
    said = f"{fact} staggered attachments"
    if staggered:
        said = "Attachments are staggered from truss to truss, as the letter asks"
    line = design.inputs.line_of("framing", "letter", "stagger")
    return RULE.found(outcome, letter.cited, sentence(outcome, said, change), line=line)


RULE = Rule(
    id="structure.trusses",
    title="Roof on trusses",
    subject="structure",
    held_by="",
    clauses={},
    check=check,
    accepts_alternate=False,
)
