"""From YAML text to a tree of text, in one pass over the parser's events, with the position of every node.

Only what our files need is let in: mappings with plain keys, lists, scalars. Anchors, aliases, tags, a second
document, a repeated key and excess of any kind are refused. Scalars stay text: what they mean is for those to
say who read the tree.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import yaml

from sheets.base.diagnostics import Diagnostic, SpecPath
from sheets.base.source import Position, Source

MOST_NODES = 20_000
MOST_FAULTS = 25
_LONGEST_KEY = 60
_NOTHING = frozenset(("~", "null", "Null", "NULL"))

Node = object
"""A str, a list of nodes, or a dict from str to node."""


@dataclass(frozen=True, slots=True)
class Kind:
    """What a file is, as it is called in what is said about it.

    name: "a spec". keys: some of its keys, in words. start: how to come by a good one. repeat: what its
    language has instead of an anchor, or empty. deepest: how many levels it nests at most.
    """

    name: str
    keys: str
    start: str
    repeat: str
    deepest: int

    @property
    def language(self) -> str:
        """Its language, as it is called: "the spec language"."""
        return f"the {self.name.split(' ', 1)[1]} language"


class _StopReadingError(Exception):
    """Reading goes no further; the faults say why."""


class _Builder:
    """Holds what one pass over the events gathers."""

    def __init__(self, events: Iterator[yaml.Event], source: Source, kind: Kind) -> None:
        self.events = events
        self.kind = kind
        self.source = source
        self.nests: set[SpecPath] = set()
        self.faults: list[Diagnostic] = []
        self.nodes = 0

    def fault(self, code: str, message: str, at: Position, help_text: str = "") -> None:
        self.faults.append(Diagnostic(code, "error", message, self.source.at(at), help_text))
        if len(self.faults) >= MOST_FAULTS:
            raise _StopReadingError

    def stop(self, code: str, message: str, at: Position, help_text: str = "") -> _StopReadingError:
        """Note a fault after which reading on makes no sense, and return what to raise."""
        self.faults.append(Diagnostic(code, "error", message, self.source.at(at), help_text))
        return _StopReadingError()

    def node(self, event: yaml.Event, path: SpecPath) -> Node:
        at = _position(event)
        self.nodes += 1
        self.source.values[path] = at
        if self.nodes > MOST_NODES:
            raise self.stop("too-large", f"{self.kind.name} has at most {MOST_NODES} values", at)
        if isinstance(event, yaml.AliasEvent):
            raise self.stop(
                "alias",
                f"an alias (*{str(event.anchor)[:_LONGEST_KEY]}) is not part of {self.kind.language}",
                at,
                "Write the value itself here.",
            )
        self._refuse_extras(event, at)
        if isinstance(event, yaml.ScalarEvent):
            return self._scalar(event, at)
        if len(path) >= self.kind.deepest:
            raise self.stop("too-deep", f"{self.kind.name} nests at most {self.kind.deepest} levels", at)
        self.nests.add(path)
        if isinstance(event, yaml.SequenceStartEvent):
            return self._list(path)
        return self._mapping(path)

    def _refuse_extras(self, event: yaml.Event, at: Position) -> None:
        anchor = getattr(event, "anchor", None)
        if anchor is not None:
            raise self.stop(
                "anchor",
                f"an anchor (&{anchor[:_LONGEST_KEY]}) is not part of {self.kind.language}",
                at,
                " ".join(("Leave it out;", self.kind.repeat)) if self.kind.repeat else "Leave it out.",
            )
        tag = getattr(event, "tag", None)
        # A quoted scalar may carry the tag "!", which says no more than its quotes.
        if tag is not None and tag != "!":
            message = f"a tag ({tag[:_LONGEST_KEY]}) is not part of {self.kind.language}"
            self.fault("tag", message, at, "Leave it out.")

    def _scalar(self, event: yaml.ScalarEvent, at: Position) -> str:
        text: str = event.value
        if text in _NOTHING and event.implicit[0]:
            self.fault(
                "empty-value",
                f"'{text}' says nothing",
                at,
                "Leave the key out for its default; put the word in quotes if it is meant as text.",
            )
        return text

    def _list(self, path: SpecPath) -> list[Node]:
        items: list[Node] = []
        while not isinstance(event := next(self.events), yaml.SequenceEndEvent):
            items.append(self.node(event, (*path, len(items))))
        return items

    def _mapping(self, path: SpecPath) -> dict[str, Node]:
        items: dict[str, Node] = {}
        while not isinstance(event := next(self.events), yaml.MappingEndEvent):
            at = _position(event)
            if not isinstance(event, yaml.ScalarEvent):
                what = "an alias" if isinstance(event, yaml.AliasEvent) else "a list or a mapping"
                raise self.stop("complex-key", f"a key is one word, not {what}", at)
            self._refuse_extras(event, at)
            key = str(event.value)
            if len(key) > _LONGEST_KEY or not key.isprintable() or not key.strip():
                raise self.stop("bad-key", "a key is one short printable word", at)
            step = (*path, key)
            if key in items:
                first = self.source.keys[step][0] + 1
                self.fault(
                    "duplicate-key",
                    f"'{key}' is written twice; the first is in line {first}",
                    at,
                    "Keep one of the two.",
                )
                kept = self.source.keys[step], self.source.values[step]
                self.node(next(self.events), step)
                self.source.keys[step], self.source.values[step] = kept
                continue
            self.source.keys[step] = at
            items[key] = self.node(next(self.events), step)
        return items


def read_tree(
    text: str, source: Source, kind: Kind
) -> tuple[dict[str, Node] | None, Source, tuple[Diagnostic, ...]]:
    """Return the tree of the text, the source with every position, and what is wrong with the text as YAML.

    The tree is None when there is anything wrong.
    """
    events = yaml.parse(text, Loader=getattr(yaml, "CSafeLoader", yaml.SafeLoader))
    builder = _Builder(iter(events), source, kind)
    tree: Node = None
    try:
        tree = _document(builder)
    except _StopReadingError:
        pass
    except yaml.YAMLError as error:
        builder.faults.append(_not_yaml(error, source))
    found = Source(source.file, source.lines, source.values, source.keys, frozenset(builder.nests))
    faults = tuple(builder.faults)
    return (tree if isinstance(tree, dict) and not faults else None), found, faults


def _document(builder: _Builder) -> Node:
    tree: Node = None
    documents = 0
    for event in builder.events:
        if isinstance(event, yaml.DocumentStartEvent):
            documents += 1
            if documents > 1:
                raise builder.stop(
                    "second-document",
                    f"{builder.kind.name} is one YAML document; a second one starts here",
                    _position(event),
                    "Put each into a file of its own.",
                )
            root = next(builder.events)
            tree = builder.node(root, ())
            if not isinstance(tree, dict):
                raise builder.stop(
                    "not-a-spec",
                    f"{builder.kind.name} is a mapping of keys such as {builder.kind.keys}",
                    _position(root),
                    builder.kind.start,
                )
    if documents == 0:
        message = f"there is nothing in this file: {builder.kind.name} is wanted"
        raise builder.stop("empty-file", message, (0, 0), builder.kind.start)
    return tree


def _position(event: yaml.Event) -> Position:
    mark = event.start_mark
    return (mark.line, mark.column) if mark else (0, 0)


def _not_yaml(error: yaml.YAMLError, source: Source) -> Diagnostic:
    mark = getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)
    problem = getattr(error, "problem", None) or getattr(error, "reason", None) or "it cannot be read"
    at = (mark.line, mark.column) if mark else (0, 0)
    at = (min(at[0], max(0, len(source.lines) - 1)), at[1])
    place = source.at(at)
    help_text = ""
    if "\t" in place.text_of_line[: place.column]:
        help_text = "Indent with spaces, not with tabs."
    elif "mapping values" in problem:
        help_text = "Put text that holds a colon into quotes, and look at the indent of this line."
    elif place.text_of_line.count("'") % 2 or place.text_of_line.count('"') % 2:
        help_text = "Look at the quotes: a value that begins with a quote must end with it."
    return Diagnostic("not-yaml", "error", f"this is not YAML: {problem}", place, help_text)
