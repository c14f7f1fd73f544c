"""From YAML text to a tree of text, in one pass over the parser's events, with the position of every node.

Only what a spec needs is let in: mappings with plain keys, lists, scalars. Anchors, aliases, tags, a second
document, a repeated key and excess of any kind are refused. Scalars stay text: what they mean is the schema's
to say.
"""

from collections.abc import Iterator

import yaml

from sheets.base.diagnostics import Diagnostic, SpecPath
from sheets.spec.source import Position, Source

DEEPEST = 12
MOST_NODES = 20_000
MOST_FAULTS = 25
_LONGEST_KEY = 60
_NOTHING = frozenset(("~", "null", "Null", "NULL"))

Node = object
"""A str, a list of nodes, or a dict from str to node."""


class _StopReadingError(Exception):
    """Reading goes no further; the faults say why."""


class _Builder:
    """Holds what one pass over the events gathers."""

    def __init__(self, events: Iterator[yaml.Event], source: Source) -> None:
        self.events = events
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
            raise self.stop("too-large", f"a spec has at most {MOST_NODES} values", at)
        if isinstance(event, yaml.AliasEvent):
            raise self.stop(
                "alias",
                f"an alias (*{str(event.anchor)[:_LONGEST_KEY]}) is not part of the spec language",
                at,
                "Write the value itself here.",
            )
        self._refuse_extras(event, at)
        if isinstance(event, yaml.ScalarEvent):
            return self._scalar(event, at)
        if len(path) >= DEEPEST:
            raise self.stop("too-deep", f"a spec nests at most {DEEPEST} levels", at)
        self.nests.add(path)
        if isinstance(event, yaml.SequenceStartEvent):
            return self._list(path)
        return self._mapping(path)

    def _refuse_extras(self, event: yaml.Event, at: Position) -> None:
        anchor = getattr(event, "anchor", None)
        if anchor is not None:
            raise self.stop(
                "anchor",
                f"an anchor (&{anchor[:_LONGEST_KEY]}) is not part of the spec language",
                at,
                "Leave it out; `mirrored: true` builds both sides from one description.",
            )
        tag = getattr(event, "tag", None)
        # A quoted scalar may carry the tag "!", which says no more than its quotes.
        if tag is not None and tag != "!":
            self.fault(
                "tag", f"a tag ({tag[:_LONGEST_KEY]}) is not part of the spec language", at, "Leave it out."
            )

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


def read_tree(text: str, source: Source) -> tuple[dict[str, Node] | None, Source, tuple[Diagnostic, ...]]:
    """Return the tree of the text, the source with every position, and what is wrong with the text as YAML.

    The tree is None when there is anything wrong.
    """
    builder = _Builder(iter(yaml.parse(text, Loader=getattr(yaml, "CSafeLoader", yaml.SafeLoader))), source)
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
                    "a spec is one YAML document; a second one starts here",
                    _position(event),
                    "Put each wall into a file of its own.",
                )
            root = next(builder.events)
            tree = builder.node(root, ())
            if not isinstance(tree, dict):
                raise builder.stop(
                    "not-a-spec",
                    "a spec is a mapping of keys such as project, room and cases",
                    _position(root),
                    "`shopset new` writes one to start from.",
                )
    if documents == 0:
        raise builder.stop(
            "empty-file", "there is nothing in this spec", (0, 0), "`shopset new` writes one to start from."
        )
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
