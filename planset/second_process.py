"""Work shared with a second process, where the machine can run two at once.

The second process is a copy of this one, so what it works on is not sent to it; only its results
are sent back. It never decides anything: work it does not finish, for whatever reason, is done by
this process, which then meets the same fault and tells of it.
"""

from __future__ import annotations

import os
import sys
import threading
import warnings
from collections.abc import Callable, Sequence
from contextlib import suppress
from functools import partial
from typing import TYPE_CHECKING, Generic, Self, TypeVar

if TYPE_CHECKING:
    from multiprocessing.connection import Connection
    from multiprocessing.context import ForkProcess

_FIRST = os.getpid()

Subject = TypeVar("Subject")
Result = TypeVar("Result")


class Ahead(Generic[Subject, Result]):
    """A function whose result a second process can work out ahead, while this one goes on.

    What was begun and is not asked for is given up when the block is left.

    Args:
        work: The function; what it gives can be pickled.
    """

    def __init__(self, work: Callable[[Subject], Result]) -> None:
        self._work = work
        self._begun: tuple[Subject, ForkProcess, Connection] | None = None

    def begin(self, subject: Subject) -> None:
        """Have the second process work, if there can be one; only the last call counts."""
        self._give_up()
        if can_fork():
            self._begun = (subject, *_start(partial(self._work, subject)))

    def __call__(self, subject: Subject) -> Result:
        """What the function gives for the subject, waited for if it was begun.

        Raises:
            Exception: What the function raises.
        """
        if self._begun and self._begun[0] is subject:
            with suppress(EOFError, OSError):
                found: Result = self._begun[2].recv()
                return found
        return self._work(subject)

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self._give_up()

    def _give_up(self) -> None:
        if self._begun:
            _, process, results = self._begun
            results.close()
            process.kill()
            process.join()
            self._begun = None


def done_by_two(tasks: Sequence[Callable[[], Result]]) -> list[Result]:
    """The results of tasks in their order, each done by the process that gets to it first.

    Args:
        tasks: At most 256; each takes nothing, and gives a result that can be pickled.

    Raises:
        Exception: What the first task raises that fails.
    """
    if len(tasks) < 2 or not can_fork():
        return [task() for task in tasks]
    # The two processes meet at a pipe: who reads the number of a task there does that task.
    numbers, filled = os.pipe()
    os.write(filled, bytes(range(len(tasks))))
    os.close(filled)
    try:
        with Ahead(partial(_done, tasks)) as by_the_other:
            by_the_other.begin(numbers)
            done = _done(tasks, numbers)
            done |= by_the_other(numbers)
    finally:
        os.close(numbers)
    return [done[n] if n in done else task() for n, task in enumerate(tasks)]


def can_fork() -> bool:
    """Whether a copy of this process can run beside it: on Linux, on two cores, in one thread.

    A copy itself has no copies.
    """
    return (
        sys.platform == "linux"
        and os.getpid() == _FIRST
        and len(os.sched_getaffinity(0)) > 1
        and threading.active_count() == 1
    )


def _done(tasks: Sequence[Callable[[], Result]], numbers: int) -> dict[int, Result]:
    """What came of the tasks that this process got to, by number; one that fails is left out."""
    done: dict[int, Result] = {}
    while number := os.read(numbers, 1):
        with suppress(Exception):
            done[number[0]] = tasks[number[0]]()
    return done


def _start(work: Callable[[], Result]) -> tuple[ForkProcess, Connection]:
    from multiprocessing import get_context  # noqa: PLC0415 - no one needs it but a run that forks

    context = get_context("fork")
    results, sending = context.Pipe(duplex=False)
    process = context.Process(target=_send, args=(work, sending), daemon=True)
    with warnings.catch_warnings():
        # The threads it warns of are those of linear algebra, which expects to be forked.
        warnings.simplefilter("ignore", DeprecationWarning)
        process.start()
    sending.close()
    return process, results


def _send(work: Callable[[], object], sending: Connection) -> None:
    with suppress(Exception), sending:
        sending.send(work())
