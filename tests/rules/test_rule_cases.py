"""Every case of every rule; how to write one is told in cases/README.md."""

from collections.abc import Iterator

import pytest
from rule_cases import CASE_FILES, FIRE_CODES, Case, adopting, build, read_cases

from planset.citation import CodeEdition
from planset.design.design import build_design
from planset.finding import Finding, worst
from planset.rules.registry import RULES
from planset.rules.rule import Rule
from planset.rules.run import judge_by

LOCAL = "Ordinance 7"
RULE_OF = {rule.id: rule for rule in RULES}


def every_case() -> Iterator[object]:
    for path in CASE_FILES:
        rule_id, cases = read_cases(path)
        rule = RULE_OF[rule_id]
        for name, case in cases.items():
            for edition in case.editions_for(rule):
                yield pytest.param(rule, case, edition, id=f"{rule_id}-{name}-{edition or 0}")


@pytest.mark.parametrize(("rule", "case", "edition"), list(every_case()))
def test_case(rule: Rule, case: Case, edition: CodeEdition | None) -> None:
    findings = judge_by(rule, build(case, rule, edition))
    for finding in findings:
        assert_well_formed(finding, rule, edition)
    assert_expected(findings, case)


def assert_well_formed(finding: Finding, rule: Rule, edition: CodeEdition | None) -> None:
    assert finding.rule == rule.id
    # a rule that only the town of a case has is cited by the text of the town
    assert finding.citation.startswith(("" if edition is None else str(edition), LOCAL))
    assert finding.message.endswith(".")
    assert finding.message.count(". ") <= 1, "one or two sentences"
    assert (finding.measured is None) or (finding.limit is not None)
    assert finding.as_record()["rule"] == rule.id


def assert_expected(findings: tuple[Finding, ...], case: Case) -> None:
    expect = case.expect
    concerned = [f for f in findings if expect.about is None or expect.about in f.objects]
    assert worst(concerned) == expect.outcome
    found = next(f for f in concerned if f.outcome == expect.outcome)
    assert found.measured == pytest.approx(expect.measured, abs=0.005)
    assert found.limit == pytest.approx(expect.limit, abs=1e-6)
    assert expect.unit in (None, found.unit)
    assert expect.citation in (None, found.citation)
    assert (expect.says or "") in found.message


def fire_cases() -> Iterator[object]:
    """The first case of each rule whose editions are a fire code's."""
    for path in CASE_FILES:
        rule_id, cases = read_cases(path)
        rule = RULE_OF[rule_id]
        case = next(iter(cases.values()))
        if rule.held_by in FIRE_CODES and len(case.editions_for(rule)) > 1:
            yield pytest.param(rule, case, id=rule_id)


@pytest.mark.parametrize(("rule", "case"), list(fire_cases()))
def test_fire_codes_reach_nothing_but_access(rule: Rule, case: Case) -> None:
    """So that the cases above may build the rest once; every edition is built whole here."""
    first, *others = (build_design(adopting(case, rule, e)) for e in case.editions_for(rule))
    for other in others:
        assert (other.arrays, other.racking) == (first.arrays, first.racking)
        assert (other.loads, other.electrical) == (first.loads, first.electrical)
