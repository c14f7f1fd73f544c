"""Reading a spec: file to text, text to tree, tree to Spec, each with what is wrong with it.

A stage that finds errors ends the reading, since what follows would only repeat them; within a stage all are
told.
"""

import os
from pathlib import Path

from pydantic import ValidationError

from sheets.base.diagnostics import Diagnostic, has_errors, in_order
from sheets.base.source import Source
from sheets.base.text_file import lines_of, read_text, shown_name
from sheets.base.yaml_tree import Kind, read_tree
from sheets.grammar.faults import diagnostics_of, said_once
from sheets.grammar.inherit import inherited
from sheets.grammar.retired import renewed
from sheets.grammar.rules import broken_rules
from sheets.grammar.schema import Spec

KIND = Kind(
    "a spec",
    "project, room and cases",
    "`shopset new` writes one to start from.",
    "`mirrored: true` builds both sides from one description.",
    12,
)

Reading = tuple[Spec | None, Source, tuple[Diagnostic, ...]]


def read_spec(path: str | os.PathLike[str], language: type[Spec] = Spec) -> Reading:
    """Read the spec in a file. Returns (spec, source, diagnostics); the spec is None when there is any error.

    language: Spec, or a type that adds sections to it. Lengths in the spec are exact millimetres. Never
    raises for what is in the file, or for a file that is missing, unreadable, too large, no text or no spec:
    each is one diagnostic.
    """
    name = shown_name(path)
    text, complaint = read_text(Path(path), name, KIND.name)
    if text is None:
        assert complaint is not None
        return None, Source(name), (complaint,)
    return read_spec_text(text, name, language)


def read_spec_text(text: str, file: str = "spec.yaml", language: type[Spec] = Spec) -> Reading:
    """Read a spec from its text. file: the name that places carry. Returns what read_spec returns."""
    tree, source, faults = read_tree(text, Source(file, lines_of(text)), KIND)
    if tree is None:
        return None, source, in_order(faults)
    tree, old_words = renewed(tree, source)
    unit = "mm" if tree.get("units") == "mm" else "inch"
    try:
        spec = language.model_validate(inherited(tree, language), context={"unit": unit})
    except ValidationError as error:
        return (
            None,
            source,
            in_order((*old_words, *said_once(diagnostics_of(error, source, language), source))),
        )
    found = in_order((*old_words, *said_once(broken_rules(spec, source), source)))
    return (None if has_errors(found) else spec), source, found
