"""The error family: what is wrong, where it stands, and how to mend it."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import ClassVar


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing wrong in one place of a user's file.

    Attributes:
        file: the file as the user named it.
        line: line number counted from 1, or None when the whole file is meant.
        field: dotted path of the field, empty when the whole file is meant.
        message: what is wrong, with the value that was given.
        mend: what to change; may be empty.
    """

    file: str
    line: int | None
    field: str
    message: str
    mend: str

    def __str__(self) -> str:
        """Return `file:line: field: what is wrong; how to mend it`, fit for a terminal."""
        place = self.file if self.line is None else f"{self.file}:{self.line}"
        field = f"{self.field}: " if self.field else ""
        mend = f"; {self.mend}" if self.mend else ""
        line = f"{place}: {field}{self.message}{mend}"
        return "".join(sign if sign.isprintable() else "?" for sign in line)


class PlansetError(Exception):
    """Anything this program reports to its user without a traceback."""

    exit_code: ClassVar[int] = 2


class JobErrors(PlansetError):  # noqa: N818 - it carries several errors
    """The job, or a file it names, cannot be used; all problems are carried together."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        """Keep each problem once, in the order of the files and their lines."""
        once = dict.fromkeys(problems)
        self.problems = tuple(sorted(once, key=lambda p: (p.file, p.line or 0)))
        super().__init__(self.problems)

    def __str__(self) -> str:
        """Return one line per problem."""
        return "\n".join(map(str, self.problems))


class MachineError(PlansetError):
    """The machine failed us: no space left, no permission, a missing program file."""

    exit_code: ClassVar[int] = 3
