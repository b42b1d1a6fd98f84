"""Finding catalog entries: a firm's own folder beside the job first, then the package's data."""

from collections.abc import Iterable
from pathlib import Path
from typing import TypeVar, get_args

from planset.catalog.battery import Battery
from planset.catalog.converter import Converter
from planset.catalog.fields import StrictModel
from planset.catalog.inverter import Inverter
from planset.catalog.jurisdiction import Jurisdiction
from planset.catalog.microinverter import Microinverter
from planset.catalog.module import Module
from planset.catalog.mounting import MountingSystem
from planset.catalog.shutdown import HazardControl, ShutdownDevice
from planset.catalog.validate import validate
from planset.errors import JobErrors, PlansetError, Problem
from planset.source import SourceDocument, read_yaml

Entry = TypeVar("Entry", bound=StrictModel)

PACKAGE_DATA = Path(__file__).with_name("data")

FOLDERS: dict[type[StrictModel], str] = {
    Module: "modules",
    Inverter: "inverters",
    Microinverter: "microinverters",
    Converter: "converters",
    Battery: "batteries",
    ShutdownDevice: "shutdown",
    HazardControl: "hazard_control",
    MountingSystem: "mounting",
    Jurisdiction: "jurisdictions",
}
"""Kind of entry to the folder its files lie in, one entry per file."""


class UnknownEntryError(PlansetError):
    """No catalog file of the kind has the name asked for."""


def folders_of(kind: type[StrictModel], job_folder: Path) -> tuple[Path, Path]:
    """Return the folders an entry is looked for in, in that order."""
    folder = FOLDERS[kind]
    return job_folder / "catalog" / folder, PACKAGE_DATA / folder


def _files(kind: type[StrictModel], job_folder: Path) -> dict[str, Path]:
    """Return the file of every name; a firm's own stands before the package's."""
    files: dict[str, Path] = {}
    for folder in reversed(folders_of(kind, job_folder)):
        files |= {path.stem: path for path in folder.glob("*.yaml")}
    return files


def names(kind: type[StrictModel], job_folder: Path) -> list[str]:
    """Return the names known for a kind of entry, in alphabetical order."""
    return sorted(_files(kind, job_folder))


def find(kind: type[Entry], name: str, job_folder: Path) -> Entry:
    """Return the catalog entry of a name; raises what `find_with_source` raises."""
    return find_with_source(kind, name, job_folder)[0]


def find_with_source(
    kind: type[Entry], name: str, job_folder: Path
) -> tuple[Entry, SourceDocument]:
    """Return the catalog entry of a name, and the file it stands in.

    Args:
        kind: the model of the entry.
        name: its file's name without folder and suffix; nothing else is looked up, so a name
            cannot lead out of the catalog.
        job_folder: the folder of the job, which may hold a `catalog` folder of its own.

    Raises:
        UnknownEntryError: when no file has the name.
        JobErrors: with every problem of the file, when it has any, as that it is a link that
            leads out of the catalog.
    """
    path = _files(kind, job_folder).get(name)
    if path is None:
        msg = f"no entry {name} in {FOLDERS[kind]}; known: {', '.join(names(kind, job_folder))}"
        raise UnknownEntryError(msg)
    if not any(path.resolve().is_relative_to(f.resolve()) for f in (job_folder, PACKAGE_DATA)):
        message = "a link that leads out of the job's folder"
        raise JobErrors([Problem(str(path), None, "", message, "copy the file there instead")])
    document = read_yaml(path)
    entry, problems = validate(kind, document, {"units": "in"})
    if entry is None:
        raise JobErrors(_of_another_kind(kind, document, problems) or problems)
    return entry, document


def _of_another_kind(
    kind: type[StrictModel], document: SourceDocument, problems: Iterable[Problem]
) -> list[Problem]:
    """Return the one problem of a file in the wrong folder, whose fields all mean nothing there."""
    given = document.data.get("kind")
    if any(problem.field == "kind" for problem in problems) and isinstance(given, str):
        message = f"not a kind of the folder {FOLDERS[kind]} (got {given:.40})"
        accepted = ", ".join(get_args(kind.model_fields["kind"].annotation))
        mend = f"write {accepted} if it is one, or move the file to the folder of its kind"
        return [document.problem(("kind",), message, mend)]
    return []
