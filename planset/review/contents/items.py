"""Each thing that reviewers look for stands on its sheet."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from types import MappingProxyType

from planset.catalog.contents import CONTENT_ITEMS, EVERY_SHEET, Condition, ContentItem
from planset.finding import Finding, Outcome
from planset.job.load import Inputs
from planset.review.set_rule import SURVEY, SetRule
from planset.review.submittal import Submittal

_MISSING: Mapping[str, Outcome] = MappingProxyType(
    {"must have": Outcome.OPEN, "expected": Outcome.ASK}
)
"""How a missing item comes out where the jurisdiction does not ask for it by name."""

_HAS: Mapping[Condition, Callable[[Inputs], bool]] = MappingProxyType(
    {
        "": lambda _: True,
        "mounting": lambda inputs: any(array.mounting for array in inputs.job.arrays),
        "obstructions": lambda inputs: bool(inputs.job.obstructions),
        "slope": lambda inputs: inputs.job.roof.shape != "flat",
        "resubmittal": lambda inputs: bool(inputs.job.revisions),
    }
)


def check(submittal: Submittal) -> Iterator[Finding]:
    """Look for each item that the job calls for and that somebody asks for."""
    asked = submittal.inputs.jurisdiction.submission.must_show
    names = asked.value if asked is not None else ()
    source = f"{asked.source}, {asked.date}" if asked is not None else ""
    for item in CONTENT_ITEMS:
        required = item.name in names
        if not _HAS[item.when](submittal.inputs) or (item.asked == "when asked" and not required):
            continue
        citation = source if required else SURVEY
        if lacking := _lacking(submittal, item):
            outcome = Outcome.FAIL if required else _MISSING[item.asked]
            yield _missing(submittal, item, lacking, outcome, citation)
        else:
            message = f"The set shows {item.name} on {item.sheet}."
            yield RULE.finding(Outcome.PASS, message, item.sheet, item.name, citation=citation)


def _lacking(submittal: Submittal, item: ContentItem) -> tuple[str, ...]:
    """The sheets on which an item is not seen though it belongs there."""
    border = item.sheet == EVERY_SHEET
    sheets = submittal.ids if border else (item.sheet,)
    return tuple(
        sheet for sheet in sheets if not re.search(item.says, submittal.words(sheet, border=border))
    )


def _missing(
    submittal: Submittal,
    item: ContentItem,
    lacking: tuple[str, ...],
    outcome: Outcome,
    citation: str,
) -> Finding:
    asks = {
        Outcome.FAIL: "the jurisdiction requires it",
        Outcome.OPEN: "reviewers look for it in every set",
    }.get(outcome, "most reviewers expect it")
    if item.sheet in submittal.ids or item.sheet == EVERY_SHEET:
        mend = f"show it on {', '.join(lacking)}"
    else:
        mend = f"list {item.sheet} in drafting.sheets"
    if outcome is Outcome.ASK:
        mend += ", or ask the building department whether it goes without"
    return RULE.finding(
        outcome,
        f"The set does not show {item.name}, and {asks}; {mend}.",
        item.sheet,
        item.name,
        citation=citation,
        line=submittal.inputs.line_of("drafting", "sheets"),
    )


RULE = SetRule(id="contents.items", title="What reviewers look for", check=check)
