"""The manifest of a set: what it was made from, and what each of its files holds.

It tells our own files from those a person made or changed: a file is ours when the manifest
carries its hash.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass
from pathlib import Path

from planset.output.json_text import json_text

MANIFEST = "manifest.json"


@dataclass(frozen=True, slots=True)
class FileRecord:
    """Content of one file: its SHA-256 in hexadecimal, and its size in bytes."""

    sha256: str
    size: int


@dataclass(frozen=True, slots=True)
class Manifest:
    """One set; the same job gives the same manifest, anywhere and at any time.

    Attributes:
        planset: version of the program.
        job: name of the job file, without its folder.
        job_sha256: hash of the job file.
        revision: the revision of the set, as the job names it.
        preliminary: whether the sheets are marked PRELIMINARY.
        files: the set's files by name.
    """

    planset: str
    job: str
    job_sha256: str
    revision: str
    preliminary: bool
    files: Mapping[str, FileRecord]

    def text(self) -> str:
        """Return the manifest as it stands in its file."""
        files = {name: asdict(record) for name, record in sorted(self.files.items())}
        return json_text(
            {
                "planset": self.planset,
                "job": {"file": self.job, "sha256": self.job_sha256},
                "revision": self.revision,
                "preliminary": self.preliminary,
                "files": files,
            }
        )

    @property
    def hashes(self) -> frozenset[str]:
        """Hashes of all files of the set."""
        return frozenset(record.sha256 for record in self.files.values())


def record_of(path: Path) -> FileRecord:
    """Return the record of a file as it is now.

    Raises:
        OSError: The file cannot be read.
    """
    content = path.read_bytes()
    return FileRecord(hashlib.sha256(content).hexdigest(), len(content))


def read_manifest(path: Path) -> Manifest | None:
    """Return the manifest in a file, None when there is none or it is not a whole one of ours.

    Raises:
        OSError: The file is there and cannot be read.
    """
    try:
        data = json.loads(path.read_text(encoding="utf-8"))
        return Manifest(
            planset=data["planset"],
            job=data["job"]["file"],
            job_sha256=data["job"]["sha256"],
            revision=data["revision"],
            preliminary=data["preliminary"],
            files={_plain(name): FileRecord(**record) for name, record in data["files"].items()},
        )
    except FileNotFoundError:
        return None
    except (ValueError, LookupError, TypeError, AttributeError):
        return None


def _plain(name: str) -> str:
    """Return a file name that stays in its folder.

    Raises:
        ValueError: It would lead out of the folder, so no manifest of ours holds it.
    """
    if Path(name).name != name or name in ("", ".."):
        msg = f"{name} is not a plain file name"
        raise ValueError(msg)
    return name
