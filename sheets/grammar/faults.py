"""From what the types refuse to diagnostics that name the place, what was found and what is allowed."""

import re
from collections.abc import Iterable
from typing import Annotated, Any, get_args, get_origin

from pydantic import BaseModel, Tag, ValidationError

from sheets.base.diagnostics import Diagnostic, SpecPath, nearest, spec_path
from sheets.base.source import Source
from sheets.grammar.room import MATERIAL_KINDS
from sheets.grammar.schema import Spec

_ALSO_ALLOWED = {"Vault": ("rise",)}
"""Words that the reader takes before the types see them."""


def diagnostics_of(
    error: ValidationError, source: Source, language: type[Spec]
) -> tuple[Diagnostic, ...]:
    """Return one diagnostic for each thing that the types of the language refused."""
    faults = error.errors(include_url=False)
    # A misspelt key is one mistake: that the right one is missing need not be said as well.
    meant = {_meant(tuple(fault["loc"]), language) for fault in faults if fault["type"] == "extra_forbidden"}
    kept = [
        fault
        for fault in faults
        if not (fault["type"] == "missing" and _untagged(tuple(fault["loc"])) in meant)
    ]
    return tuple(_one(fault, source, language) for fault in kept)


def said_once(found: Iterable[Diagnostic], source: Source) -> tuple[Diagnostic, ...]:
    """Return diagnostics without those about the right side of a case that are of what it has from the left,
    and are said there."""
    told = tuple(found)
    at = {d.path for d in told}

    def is_said_left(path: SpecPath | None) -> bool:
        if path is None or path[:1] != ("cases",) or path[2:3] != ("right",) or len(path) == 3:
            return False
        return not source.is_written(path) and (*path[:2], *path[3:]) in at

    return tuple(d for d in told if not is_said_left(d.path))


def _meant(loc: SpecPath, language: type[Spec]) -> SpecPath:
    near = nearest(str(loc[-1]), _keys(_model_at(loc[:-1], language)))
    return (*_untagged(loc[:-1]), near or "")


def _untagged(loc: SpecPath) -> SpecPath:
    return tuple(step for step in loc if not _is_tag(step))


def _one(fault: Any, source: Source, language: type[Spec]) -> Diagnostic:
    loc: SpecPath = tuple(fault["loc"])
    path = _untagged(loc)
    kind: str = fault["type"]
    context: dict[str, Any] = fault.get("ctx", {})
    if kind == "missing":
        return _missing(path, source)
    if kind == "extra_forbidden":
        return _unknown_key(loc, path, source, language)
    place = source.place_of(path)
    if kind == "literal_error":
        allowed = tuple(re.findall(r"'([^']*)'", context.get("expected", "")))
        return _unknown_word(fault["input"], allowed, path, source)
    if kind == "union_tag_not_found":
        if isinstance(fault["input"], dict):
            return _unsaid_kind(fault["input"], path, source)
        kind = "model_type"
    if kind in ("model_type", "model_attributes_type", "dict_type", "tuple_type"):
        wanted = "a list is" if kind == "tuple_type" else "keys are"
        message = f"{wanted} wanted in {spec_path(path)}, not {_kind_of(fault['input'])}"
        return Diagnostic("wrong-type", "error", message, place, _keys_help(loc, language), path)
    return Diagnostic(
        kind, "error", f"{spec_path(path)}: {fault['msg']}", place, _word_help(fault, context), path
    )


def _word_help(fault: Any, context: dict[str, Any]) -> str:
    near = (
        nearest(fault["input"], context["words"])
        if "words" in context and isinstance(fault["input"], str)
        else None
    )
    return " ".join(
        words for words in (f"Did you mean {near}?" if near else "", context.get("help", "")) if words
    )


def _missing(path: SpecPath, source: Source) -> Diagnostic:
    holder = path[:-1]
    where = f" of {spec_path(holder)}" if holder else ""
    return Diagnostic(
        "missing-key",
        "error",
        f"'{path[-1]}'{where} is missing",
        source.place_of(holder),
        f"It has no default: write `{path[-1]}: ...` here.",
        path,
    )


def _unsaid_kind(material: dict[str, object], path: SpecPath, source: Source) -> Diagnostic:
    near = [(key, nearest(key, MATERIAL_KINDS)) for key in material]
    meant = next(((key, kind) for key, kind in near if kind), None)
    if meant:
        key, kind = meant
        message, step = f"'{key}' is not a key of {spec_path(path)}", (*path, key)
        return Diagnostic(
            "unknown-key", "error", message, source.key_place(step), f"Did you mean {kind}?", step
        )
    message = f"{spec_path(path)} does not say what it is"
    help_text = f"Give it one of these keys: {_listed(MATERIAL_KINDS)}."
    return Diagnostic("missing-key", "error", message, source.place_of(path), help_text, path)


def _unknown_key(loc: SpecPath, path: SpecPath, source: Source, language: type[Spec]) -> Diagnostic:
    model = _model_at(loc[:-1], language)
    key = str(path[-1])
    if model is not None and key in _ALSO_ALLOWED.get(model.__name__, ()):
        return Diagnostic(
            "said-twice",
            "error",
            "a vault has a rise or its ceiling a height, not both",
            source.key_place(path),
            "Leave one of the two out.",
            path,
        )
    allowed = _keys(model)
    where = spec_path(path[:-1]) or "a spec"
    near = nearest(key, allowed)
    help_text = (f"Did you mean {near}? " if near else "") + f"Allowed: {', '.join(allowed)}."
    message = f"'{key}' is not a key of {where}"
    place = source.key_place(path)
    if near is None and place.text_of_line[: place.column - 1].rstrip().endswith(","):
        # {title: Wren House, study}: the comma has ended the text.
        help_text = f"Put text that holds a comma into quotes. {help_text}"
    return Diagnostic("unknown-key", "error", message, place, help_text, path)


def _unknown_word(found: object, allowed: tuple[str, ...], path: SpecPath, source: Source) -> Diagnostic:
    place = source.place_of(path)
    if not isinstance(found, str):
        message = f"{spec_path(path)}: one word is wanted here, not {_kind_of(found)}"
        return Diagnostic("wrong-type", "error", message, place, f"Allowed: {', '.join(allowed)}.", path)
    near = nearest(found, allowed)
    help_text = (f"Did you mean {near}? " if near else "") + f"Allowed: {', '.join(allowed)}."
    message = (
        f"{spec_path(path)}: '{found[:60]}' is not allowed here"
        if found
        else f"{spec_path(path)}: nothing is written here"
    )
    return Diagnostic("unknown-word", "error", message, place, help_text, path)


def _keys_help(loc: SpecPath, language: type[Spec]) -> str:
    keys = _keys(_model_at(loc, language))
    return f"Its keys: {', '.join(keys)}." if keys else ""


def _keys(model: type[BaseModel] | None) -> tuple[str, ...]:
    return (*model.model_fields, *_ALSO_ALLOWED.get(model.__name__, ())) if model else ()


def _model_at(loc: SpecPath, language: type[Spec]) -> type[BaseModel] | None:
    # Follows the location through the types; None where it leads to no single mapping.
    kind: Any = language
    for step in loc:
        kind = kind if _is_tag(step) else _plain(kind)
        if _is_tag(step):
            kind = _tagged(kind, str(step))
        elif isinstance(kind, type) and issubclass(kind, BaseModel):
            info = kind.model_fields.get(str(step))
            if info is None:
                return None
            kind = info.annotation
        else:
            kind = _item(kind)
    kind = _plain(kind)
    return kind if isinstance(kind, type) and issubclass(kind, BaseModel) else None


def _tagged(kind: Any, tag: str) -> Any:
    for member in get_args(_bare(kind)):
        if get_origin(member) is Annotated and any(
            isinstance(m, Tag) and m.tag == tag for m in get_args(member)[1:]
        ):
            return get_args(member)[0]
    return None


def _item(kind: Any) -> Any:
    kind = _plain(kind)
    args = get_args(kind)
    return None if not args else args[1] if get_origin(kind) is dict else args[0]


def _bare(kind: Any) -> Any:
    return get_args(kind)[0] if get_origin(kind) is Annotated else kind


def _plain(kind: Any) -> Any:
    # Strips Annotated and `| None`.
    kind = _bare(kind)
    members = [m for m in get_args(kind) if m is not type(None)]
    return members[0] if len(members) == 1 and type(None) in get_args(kind) else kind


def _is_tag(step: object) -> bool:
    return isinstance(step, str) and step.startswith("<") and step.endswith(">")


def _kind_of(value: object) -> str:
    if isinstance(value, dict):
        return "keys"
    if isinstance(value, (list, tuple)):
        return "a list"
    return f"'{value[:40]}'" if isinstance(value, str) and value else "nothing"


def _listed(words: tuple[str, ...]) -> str:
    return ", ".join(words[:-1]) + " or " + words[-1]
