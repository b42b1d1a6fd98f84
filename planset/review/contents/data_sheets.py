"""Each device that is bought has its data sheet in the set."""

from __future__ import annotations

from collections.abc import Iterator

from planset.finding import Finding, Outcome
from planset.job.named import named_devices
from planset.review.set_rule import SURVEY, SetRule
from planset.review.submittal import Submittal


def check(submittal: Submittal) -> Iterator[Finding]:
    """Look for a document of each device among those that follow the sheets."""
    inputs = submittal.inputs
    asked = inputs.jurisdiction.submission.data_sheets
    citation = SURVEY if asked is None else f"{asked.source}, {asked.date}"
    if asked is not None and asked.value == "not_required":
        message = "The jurisdiction asks for no data sheets."
        yield RULE.finding(Outcome.NOT_APPLICABLE, message, citation=citation)
        return
    documents: dict[str, list[str]] = {}
    for number, sheet in enumerate(inputs.job.data_sheets, 1):
        for name in sheet.of:
            documents.setdefault(name, []).append(f"D-{number}")
    for name, kind in named_devices(inputs.job.arrays, inputs.job.electrical).items():
        if found := documents.get(name):
            message = f"The {kind} {name} is documented on {', '.join(found)}."
            yield RULE.finding(Outcome.PASS, message, name, *found, citation=citation)
        elif asked is not None:
            message = (
                f"The {kind} {name} has no data sheet, which the jurisdiction requires; {_ADD}."
            )
            yield RULE.finding(Outcome.OPEN, message, name, citation=citation)
        else:
            message = (
                f"The {kind} {name} has no data sheet; {_ADD}, or ask the building department "
                "whether it goes without."
            )
            yield RULE.finding(Outcome.ASK, message, name, citation=citation)


_ADD = "name its PDF file in data_sheets, with the device in `of`"

RULE = SetRule(id="contents.data-sheets", title="Data sheets of the devices", check=check)
