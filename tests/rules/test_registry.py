"""The registry, the rule files and the case files tell of the same rules."""

import ast
from importlib import import_module
from pathlib import Path

import pytest
from rule_cases import CASE_FILES, read_cases

import planset.rules
from planset.rules.registry import RULES
from planset.rules.rule import Rule

FOLDER = Path(planset.rules.__path__[0])
FILES = {
    f"{path.parent.name}.{path.stem.replace('_', '-')}": path
    for path in sorted(FOLDER.glob("*/*.py"))
    if path.stem != "__init__"
}

NEEDED = {
    # never fails: the code, or the lack of one, leaves it to be asked
    "structure.wind-method": {"pass", "ask"},
    "structure.added-gravity": {"pass", "ask"},
    "structure.added-mass": {"pass", "ask"},
    "structure.review-limits": {"pass", "ask"},
    "structure.snow": {"ask"},
    "structure.screening": {"n/a", "ask"},  # every list has lines that no design can show
    "electrical.string-minimum-voltage": {"pass", "ask"},
    "electrical.voltage-drop": {"pass", "ask"},
    "electrical.grounding-electrode": {"pass", "ask"},
    "electrical.busbar-reading": {"pass", "ask"},
    "electrical.back-fed-hold-down": {"pass", "ask"},
    "electrical.backup-circuits": {"pass", "ask"},
    "electrical.emergency-disconnect": {"pass", "ask"},
    "electrical.surge-protection": {"pass", "ask"},
    "electrical.directory-telephone": {"pass", "ask"},
    "electrical.battery-siting": {"fail", "ask"},
    "electrical.battery-shutdown": {"pass", "ask"},
    "layout.driveway-side": {"pass", "ask"},
    "fire.other-like-dwellings": {"n/a", "ask"},
    # no screw in the book's table is too thick for the lumber in it; failed by hand in test_run.py
    "structure.side-room": {"pass", "tight"},
    # tells what was found, or what was done
    "layout.array-fit": {"pass", "n/a"},
    "structure.roof-live-load": {"pass"},
    # others judge it
    "structure.by-others": {"open"},
}

by_id = pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)


def test_registry_lists_the_files_present() -> None:
    assert sorted(rule.id for rule in RULES) == sorted(FILES)


@by_id
def test_a_rule_is_the_record_of_its_file(rule: Rule) -> None:
    path = FILES[rule.id]
    assert import_module(f"planset.rules.{path.parent.name}.{path.stem}").RULE is rule


def test_rules_stand_by_subject() -> None:
    subjects = [rule.subject for rule in RULES]
    assert list(dict.fromkeys(subjects)) == ["fire access", "structure", "layout", "electrical"]
    assert subjects == sorted(subjects, key=list(dict.fromkeys(subjects)).index)
    folders = {rule.id.partition(".")[0]: rule.subject for rule in RULES}
    assert len(folders) == len(set(subjects))


@by_id
def test_clauses_belong_to_an_adopted_code(rule: Rule) -> None:
    assert bool(rule.held_by) == bool(rule.clauses)
    assert rule.not_in.isdisjoint(rule.clauses)


@by_id
def test_docstrings_and_no_edition_tested(rule: Rule) -> None:
    module = ast.parse(FILES[rule.id].read_text(encoding="utf-8"))
    checks = [part for part in module.body if getattr(part, "name", "") == "check"]
    assert ast.get_docstring(module)
    assert all(isinstance(part, ast.FunctionDef) and ast.get_docstring(part) for part in checks)
    assert len(checks) == 1
    assert not edition_tests(module)


def edition_tests(module: ast.Module) -> list[str]:
    """Questions which edition it is; its numbers and clauses are looked up, never asked for."""
    return [
        ast.unparse(node)
        for node in ast.walk(module)
        if (isinstance(node, ast.Compare) and any(map(_edition, (node.left, *node.comparators))))
        or (isinstance(node, ast.Match) and _edition(node.subject))
    ]


def _edition(node: ast.expr) -> bool:
    return isinstance(node, ast.Name) and node.id == "edition"


@pytest.mark.parametrize(
    "source",
    [
        "if edition >= 2020: pass",
        "x = 1 if edition == 2020 else 2",
        "match edition:\n    case 2020: pass",
        "y = edition in (2017, 2020)",
    ],
)
def test_an_edition_tested_is_found(source: str) -> None:
    assert edition_tests(ast.parse(source))


def test_looking_a_clause_up_is_allowed() -> None:
    assert not edition_tests(ast.parse("low = CLAUSES[edition] if table(edition).low > 3 else ''"))


def test_every_case_file_is_a_rules() -> None:
    assert sorted(path.stem for path in CASE_FILES) == sorted(FILES)
    assert all(read_cases(path)[0] == path.stem for path in CASE_FILES)


@by_id
def test_every_rule_has_the_cases_it_needs(rule: Rule) -> None:
    path = next(path for path in CASE_FILES if path.stem == rule.id)
    cases = read_cases(path)[1].values()
    for edition in rule.clauses or (None,):
        outcomes = {c.expect.outcome for c in cases if edition in c.editions_for(rule)}
        assert NEEDED.get(rule.id, {"pass", "fail"}) <= outcomes, edition


@by_id
def test_what_is_said_of_rules_that_cannot_fail_is_true(rule: Rule) -> None:
    path = next(path for path in CASE_FILES if path.stem == rule.id)
    outcomes = {case.expect.outcome for case in read_cases(path)[1].values()}
    assert ("fail" in outcomes) == ("fail" in NEEDED.get(rule.id, {"fail"}))
