"""Work shared with a second process gives what it gives in one, whatever becomes of the second."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import threading
import time
from functools import partial
from pathlib import Path

import pytest

from planset import second_process
from planset.second_process import Ahead, can_fork, done_by_two
from tests.example_job import edited, sheets

FORKS = pytest.mark.skipif(sys.platform != "linux", reason="forks only on Linux")


@pytest.fixture
def two(monkeypatch: pytest.MonkeyPatch) -> int:
    """A second process is there although the test runner has threads; the number of this one."""
    monkeypatch.setattr(second_process, "can_fork", lambda: True)
    return os.getpid()


def in_process(_: object) -> int:
    return os.getpid()


@FORKS
def test_what_was_begun_is_worked_out_by_another_process(two: int) -> None:
    subject = "a set"
    with Ahead(in_process) as ahead:
        assert ahead(subject) == two
        ahead.begin(subject)
        assert ahead(subject) != two


@FORKS
def test_what_was_not_begun_is_worked_out_here(two: int) -> None:
    with Ahead(in_process) as ahead:
        ahead.begin("one set")
        assert ahead("another set") == two


@FORKS
def test_a_fault_comes_to_light_here(two: int) -> None:
    def fails(_: object) -> int:
        raise LookupError(os.getpid())

    with Ahead(fails) as ahead:
        ahead.begin("a set")
        with pytest.raises(LookupError, match=str(two)):
            ahead("a set")


@FORKS
@pytest.mark.parametrize(
    "end",
    [partial(signal.raise_signal, signal.SIGTERM), partial(os._exit, 0)],
    ids=["killed", "gone"],
)
def test_a_second_process_that_ends_early_is_done_without(end: object, two: int) -> None:
    def ends(_: object) -> int:
        if os.getpid() != two and callable(end):
            end()
        return os.getpid()

    with Ahead(ends) as ahead:
        ahead.begin("a set")
        assert ahead("a set") == two


@FORKS
def test_a_result_that_cannot_be_sent_is_worked_out_here(two: int) -> None:
    with Ahead(lambda _: (os.getpid(), threading.Lock())) as ahead:
        ahead.begin("a set")
        assert ahead("a set")[0] == two


@FORKS
@pytest.mark.usefixtures("two")
def test_what_is_not_asked_for_is_given_up() -> None:
    begun = time.monotonic()
    with Ahead(time.sleep) as ahead:
        ahead.begin(60.0)
    assert time.monotonic() - begun < 30


@FORKS
def test_two_processes_do_each_task_once_between_them(two: int, tmp_path: Path) -> None:
    def note(number: int) -> tuple[int, int]:
        with (tmp_path / f"{number}").open("x", encoding="utf-8"):  # fails if done before
            time.sleep(0.02)
        return number, os.getpid()

    done = done_by_two([partial(note, number) for number in range(20)])
    assert [number for number, _ in done] == list(range(20))
    processes = {process for _, process in done}
    assert len(processes) == 2
    assert two in processes


@FORKS
def test_the_first_task_that_fails_is_told(two: int) -> None:
    def task(number: int) -> int:
        if number in (2, 5):
            raise LookupError(number)
        return number

    assert two
    with pytest.raises(LookupError, match="2"):
        done_by_two([partial(task, number) for number in range(8)])


@FORKS
def test_tasks_of_a_second_process_that_dies_are_done_here(two: int) -> None:
    def task(number: int) -> int:
        if os.getpid() != two:
            os._exit(1)
        time.sleep(0.02)
        return number

    assert done_by_two([partial(task, number) for number in range(8)]) == list(range(8))


def test_beside_other_threads_there_is_no_second_process() -> None:
    waiting = threading.Event()
    thread = threading.Thread(target=waiting.wait)
    thread.start()
    try:
        assert not can_fork()
        assert done_by_two([partial(in_process, n) for n in range(4)]) == [os.getpid()] * 4
    finally:
        waiting.set()
        thread.join()


@FORKS
def test_a_set_is_the_same_drawn_by_one_process_or_by_two(tmp_path: Path) -> None:
    """One core for the first draw: then there is no second process."""
    script = (
        "import os, sys; from pathlib import Path; from planset import pipeline, second_process;"
        "os.sched_setaffinity(0, {min(os.sched_getaffinity(0))}) if sys.argv[3] == '1' else None;"
        "print(second_process.can_fork());"
        "pipeline.draw(Path(sys.argv[1]), Path(sys.argv[2]))"
    )
    job, sets = edited(tmp_path, sheets("G-001", "A-101", "E-601")), []
    for processes in ("1", "2"):
        out = tmp_path / processes
        command = [sys.executable, "-c", script, str(job), str(out), processes]
        told = subprocess.run(command, capture_output=True, text=True, check=True)
        if processes == "2" and told.stdout.strip() == "False":
            pytest.skip("this machine has one core")
        assert told.stdout.strip() == str(processes == "2")
        sets.append({path.name: path.read_bytes() for path in out.iterdir()})
    assert sets[0] == sets[1]
