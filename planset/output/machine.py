"""What the operating system refuses, as errors that say what to do; and one run at a time."""

from __future__ import annotations

import errno
import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from planset.errors import MachineError

LOCK = ".planset.lock"

_MENDS = {
    errno.ENOSPC: "free some space and run again",
    errno.EDQUOT: "free some space and run again",
    errno.EACCES: "name a place you may write to, or have its permissions changed",
    errno.EPERM: "name a place you may write to, or have its permissions changed",
    errno.EROFS: "name a place that is not read-only",
    errno.EEXIST: "name a folder; a file stands in its place",
    errno.ENOTDIR: "name a folder; a file stands in its place",
    errno.EISDIR: "name a file; a folder stands in its place",
}


@contextmanager
def machine_errors(doing: str) -> Iterator[None]:
    """Turn what the operating system refuses inside into an error for the user.

    Args:
        doing: What was to be done, as in "write out/".

    Raises:
        MachineError: In place of any OSError.
    """
    try:
        yield
    except OSError as failure:
        reason = failure.strerror or str(failure)
        place = f" ({failure.filename})" if failure.filename else ""
        mend = _MENDS.get(failure.errno or 0, "mend that and run again")
        msg = f"cannot {doing}: {reason}{place}; {mend}"
        raise MachineError(msg) from failure


@contextmanager
def only_run(folder: Path) -> Iterator[None]:
    """Keep other runs out of a folder meanwhile.

    The operating system frees the lock when the process ends, however it ends; a lock file that
    is left over bars nobody.

    Raises:
        MachineError: Another run is in the folder.
        OSError: The lock file cannot be made.
    """
    path = folder / LOCK
    descriptor = _hold(path)
    try:
        yield
    finally:
        with suppress(OSError):
            path.unlink()
        os.close(descriptor)


def _hold(path: Path) -> int:
    """Return the descriptor of a locked lock file.

    Between opening and locking, the run before may have removed the file; then a new one is made.
    """
    while True:
        descriptor = os.open(path, os.O_RDWR | os.O_CREAT)
        try:
            _lock(descriptor)
            if os.path.samestat(os.fstat(descriptor), path.stat()):
                return descriptor
        except FileNotFoundError:
            pass
        except (BlockingIOError, PermissionError) as failure:
            os.close(descriptor)
            msg = f"another run is writing into {path.parent}; run again when it has ended"
            raise MachineError(msg) from failure
        os.close(descriptor)


def _lock(descriptor: int) -> None:
    if sys.platform == "win32":
        import msvcrt  # noqa: PLC0415 - there only

        msvcrt.locking(descriptor, msvcrt.LK_NBLCK, 1)
    else:
        import fcntl  # noqa: PLC0415 - not there

        fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
