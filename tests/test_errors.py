"""The error family."""

import pickle

from planset.errors import JobErrors, MachineError, PlansetError, Problem

PITCH = Problem("job.yaml", 58, "roof.pitch", "not a roof pitch (got steep)", "write it as 5:12")
MISSING = Problem("job.yaml", None, "", "no such file", "check the name")


def test_a_problem_reads_as_one_line() -> None:
    assert str(PITCH) == ("job.yaml:58: roof.pitch: not a roof pitch (got steep); write it as 5:12")


def test_a_problem_of_the_whole_file_has_neither_line_nor_field() -> None:
    assert str(MISSING) == "job.yaml: no such file; check the name"


def test_problems_are_told_once_and_in_the_order_of_the_file() -> None:
    first = Problem("job.yaml", 3, "units", "wrong", "")
    errors = JobErrors([PITCH, first, PITCH])
    assert errors.problems == (first, PITCH)
    assert str(errors) == f"job.yaml:3: units: wrong\n{PITCH}"


def test_exit_codes() -> None:
    assert JobErrors([PITCH]).exit_code == 2
    assert MachineError("no space left").exit_code == 3
    assert issubclass(JobErrors, PlansetError)
    assert issubclass(MachineError, PlansetError)


def test_errors_travel_between_processes() -> None:
    again = pickle.loads(pickle.dumps(JobErrors([PITCH])))
    assert again.problems == (PITCH,)


def test_no_control_character_reaches_the_terminal() -> None:
    ring = Problem("job.yaml", 1, "a\nb", "wrong (got \x1b[2J\x07)", "")
    assert str(ring) == "job.yaml:1: a?b: wrong (got ?[2J?)"
