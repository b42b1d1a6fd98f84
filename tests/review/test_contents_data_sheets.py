"""Data sheets of the devices: each is there, or is told to be missing."""

from __future__ import annotations

from dataclasses import replace

import pytest
from contents_of import found, submittal, under

from planset.finding import Outcome
from planset.review.contents.data_sheets import RULE
from planset.review.submittal import Submittal

DEVICES = {
    "tile-gable": ["tr-402", "heron-tile", "oe-76", "rs-1"],
    "shingle-hip": ["tr-402", "plover-shingle", "mq-350"],
    "cross-gable": ["tr-402", "bittern-post", "dl-76", "dl-450"],
    "battery-retrofit": ["tr-402", "plover-shingle", "hk-58", "hb-10", "rs-3"],
}


def bare(name: str) -> Submittal:
    """An example without data sheets."""
    subject = submittal(name)
    job = subject.inputs.job.model_copy(update={"data_sheets": ()})
    return Submittal(subject.sheets, replace(subject.inputs, job=job))


@pytest.mark.parametrize(("name", "devices"), DEVICES.items())
@pytest.mark.parametrize(("asked", "outcome"), [("required", "open"), (None, "ask")])
def test_each_device_without_one_is_told(
    name: str, devices: list[str], asked: str | None, outcome: str
) -> None:
    stated = {} if asked is None else {"data_sheets": asked}
    missing = found(RULE, under(bare(name), **stated))
    assert [(f.objects[0], f.outcome.value) for f in missing] == [(d, outcome) for d in devices]


def test_where_none_are_required_none_are_missing() -> None:
    (finding,) = RULE.check(under(bare("tile-gable"), data_sheets="not_required"))
    assert finding.outcome is Outcome.NOT_APPLICABLE


def test_the_documents_of_an_example_are_those_of_its_devices() -> None:
    told = {f.objects: f.outcome for f in RULE.check(submittal("cross-gable"))}
    assert set(told.values()) == {Outcome.PASS}
    assert ("dl-76", "D-3") in told


def test_one_document_may_be_of_two_devices_and_one_is_missed() -> None:
    subject = submittal("cross-gable")
    first, _, third, _ = subject.inputs.job.data_sheets
    both = third.model_copy(update={"of": ("dl-76", "dl-450")})
    job = subject.inputs.job.model_copy(update={"data_sheets": (first, both)})
    (missing,) = found(RULE, Submittal(subject.sheets, replace(subject.inputs, job=job)))
    assert (missing.objects, missing.outcome) == (("bittern-post",), "open")
    assert "mounting system bittern-post" in missing.message
