"""From a document to a model, with every problem in our own words and at its own line."""

import difflib
import re
import typing
from collections.abc import Iterator, Mapping
from typing import Any, TypeVar

from pydantic import BaseModel, BeforeValidator, ValidationError
from pydantic.fields import FieldInfo

from planset.errors import Problem
from planset.source import Location, SourceDocument

M = TypeVar("M", bound=BaseModel)

_LONGEST_SHOWN = 40

_WRONG_TYPES = {
    "int_type": ("not a whole number", "write a whole number, without quotes or unit"),
    "float_type": ("not a number", "write a plain number, without quotes or unit"),
    "string_type": ("not text", "put it in quotes"),
    "bool_type": ("neither true nor false", "write true or false"),
    "dict_type": ("not a group of fields", "write its fields indented below it"),
    "tuple_type": ("not a list", "write its entries as `- ` lines below it"),
}

_NOT_A_GROUP = ("model_type", "model_attributes_type")

_LOOKS_LIKE_A_VALUE = re.compile(r"\s*|-?[0-9.]+|true|false|null")


def _shown(value: object) -> str:
    """Return a value of a document as a message shows it, empty when it is a group or a list."""
    if isinstance(value, dict | list):
        return ""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, str) and _LOOKS_LIKE_A_VALUE.fullmatch(value):
        return f'"{value}"'
    text = " ".join(str(value).split())
    return text if len(text) <= _LONGEST_SHOWN else f"{text[:_LONGEST_SHOWN]}..."


_TAG_ERRORS = ("union_tag_invalid", "union_tag_not_found")


def _models_within(annotation: Any) -> list[type[BaseModel]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return [annotation]
    return [model for part in typing.get_args(annotation) for model in _models_within(part)]


def _groups_at(model: type[BaseModel], location: Location) -> list[type[BaseModel]]:
    """Return what may stand at a location; positions in lists do not lead further."""
    models = [model]
    for step in location:
        if not isinstance(step, str):
            continue
        tagged = [m for m in models if _has_tag(m, step)]
        infos = [m.model_fields[step] for m in models if step in m.model_fields]
        within = [found for info in infos for found in _models_within(info.annotation)]
        models = within or tagged or models  # a word without a model of its own leads nowhere
    return models


def _known_fields(model: type[BaseModel], location: Location) -> list[str]:
    """Return the fields of the group at a location, each once."""
    groups = _groups_at(model, location)
    return list(dict.fromkeys(name for group in groups for name in group.model_fields))


def _missing(model: type[BaseModel], group: Location, field: str) -> tuple[str, str]:
    """Return that a field of a group is missing, with the values it may have where they are few."""
    infos = [m.model_fields[field] for m in _groups_at(model, group) if field in m.model_fields]
    words = list(dict.fromkeys(word for info in infos for word in _choices(info.annotation)))
    if not words:
        instead = [word for info in infos for word in _words_instead(info)]
        or_word = f", or {' or '.join(dict.fromkeys(instead))}" if instead else ""
        return "missing", f"add `{field}:` with its value{or_word}"
    return (
        "missing",
        f"add `{field}:` with {'one of: ' if len(words) > 1 else ''}{', '.join(words)}",
    )


def _words_instead(info: FieldInfo) -> Iterator[str]:
    """Yield the words that may stand in place of a value, as `none`."""
    for step in info.metadata:
        if isinstance(step, BeforeValidator):
            for part in typing.get_args(step.json_schema_input_type):
                yield from _choices(part)


def _choices(annotation: Any) -> Iterator[str]:
    """Yield the words a field takes, where words are all that it takes."""
    if annotation is bool:
        yield from ("true", "false")
    elif typing.get_origin(annotation) is typing.Literal:
        yield from (str(word) for word in typing.get_args(annotation))


def _has_tag(model: type[BaseModel], tag: str) -> bool:
    """Tell whether a model is the one of several that a word such as `gable` chooses."""
    return any(
        tag in typing.get_args(info.annotation)
        for name, info in model.model_fields.items()
        if name in ("shape", "kind", "place", "method")
    )


def _place(error: Mapping[str, Any], document: SourceDocument) -> Location:
    """Return where in the document an error stands.

    Where one of several models was chosen by a word, pydantic names that word as a step of the
    way; the document has no such step.
    """
    place: Location = ()
    *way, last = error["loc"] or ("",)
    for step in way:
        if _is_there(document.value_at(place), step):
            place = (*place, step)
    if error["type"] in _TAG_ERRORS:
        place = (*place, last) if _is_there(document.value_at(place), last) else place
        return (*place, error["ctx"]["discriminator"].strip("'"))
    lost = error["type"] == "missing" or _is_there(document.value_at(place), last)
    return (*place, last) if lost and error["loc"] else place


def _is_there(value: object, step: str | int) -> bool:
    if isinstance(value, dict):
        return step in value
    return isinstance(value, list) and isinstance(step, int) and step < len(value)


def _unknown_field(model: type[BaseModel], location: Location) -> tuple[str, str]:
    known = _known_fields(model, location[:-1])
    close = difflib.get_close_matches(str(location[-1]), known, n=1)
    if close:
        return "unknown field", f"write {close[0]} if that is meant, or remove it"
    return "unknown field", f"remove it, or use one of: {', '.join(known)}"


def _words(expected: str) -> str:
    """Return how to mend a word that is not accepted, from pydantic's list of those that are."""
    words = expected.replace("'", "").replace(" or ", ", ")
    return f"write one of: {words}" if "," in words else f"write {words}"


def _explain(error: Mapping[str, Any], model: type[BaseModel], value: object) -> tuple[str, str]:
    """Return what is wrong with a value and how to mend it, from one of pydantic's errors."""
    kind, location, context = error["type"], error["loc"], error.get("ctx", {})
    if kind == "missing":
        return _missing(model, location[:-1], location[-1])
    if kind == "extra_forbidden":
        return _unknown_field(model, location)
    if kind == "union_tag_not_found" and value is None:
        return _missing(model, location, context["discriminator"].strip("'"))
    if kind == "literal_error":
        message, mend = "not an accepted value", _words(context["expected"])
    elif kind == "union_tag_invalid":
        message, mend = "not an accepted value", _words(context["expected_tags"])
    elif kind == "value_error":
        message, _, mend = str(context["error"]).partition("; ")
    elif kind in _NOT_A_GROUP:
        fields = ", ".join(_known_fields(model, location))
        message, mend = "not a group of fields", f"write its fields indented below it: {fields}"
    else:
        message, mend = _WRONG_TYPES.get(kind, (error["msg"], "correct it"))
    if value is None:
        tells_how = kind in ("value_error", "tuple_type", *_NOT_A_GROUP)
        return "no value", mend if tells_how else "write it after the colon"
    got = _shown(value)
    return (f"{message} (got {got})" if got else message), mend


def _problem(error: Mapping[str, Any], model: type[BaseModel], document: SourceDocument) -> Problem:
    place = _place(error, document)
    return document.problem(place, *_explain(error, model, document.value_at(place)))


def validate(
    model: type[M], document: SourceDocument, context: Mapping[str, Any]
) -> tuple[M | None, list[Problem]]:
    """Return a document as a model, or None with all of its problems.

    Args:
        model: the model of the whole document.
        document: plain data with lines.
        context: `units`, the unit of a bare number in a length field, and what else the model's
            validators ask for.
    """
    try:
        return model.model_validate(document.data, context=dict(context)), []
    except ValidationError as invalid:
        errors = invalid.errors(include_url=False, include_input=False)
        return None, [_problem(error, model, document) for error in errors]
