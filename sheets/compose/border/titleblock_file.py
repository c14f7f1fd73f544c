"""Reading a title block: a shipped one by its name, or a file of one's own by its path.

Every fault of one file is told, each at its line and column, so that a user mends them in one go.
"""

from __future__ import annotations

import math
import os
import re
from collections.abc import Iterable
from functools import lru_cache
from importlib.resources import files
from pathlib import Path

from sheets.base.diagnostics import Diagnostic, SpecPath, nearest
from sheets.base.source import Source
from sheets.base.text_file import lines_of, read_text, shown_name
from sheets.base.yaml_tree import Kind, Node, read_tree
from sheets.compose.border.titleblock import (
    FIELDS,
    SHIPPED,
    BlockCell,
    BlockLayout,
    Split,
    TitleBlock,
    named_fields,
)

KIND = Kind("a title block", "name and layouts", "Start from one of those that are shipped.", "", 24)
_CELL_KEYS = ("size", "kind", "label", "field", "text", "height", "least", "lines", "weight", "align")
_KINDS = ("text", "stamp", "revisions", "blank")
_EDGES = ("right", "bottom")
_OURS = re.compile(r"(?m)^layouts\s*:")
_NUMBER = re.compile(r"[0-9]{1,5}(\.[0-9]{1,4})?")
_MOST_MM = 2000.0
_LEAST_LETTERING = 2.5
_MOST_LINES = 20

Read = tuple[TitleBlock | None, tuple[Diagnostic, ...]]


def load(name: str, folder: Path | None = None) -> Read:
    """Return the title block of a shipped name, or of a YAML file by its path (seen from `folder`).

    What is wrong in a user's file carries its place there; what is wrong with the name has none.
    """
    if name in SHIPPED:
        return _shipped(name)
    if not name.endswith((".yaml", ".yml")):
        guess = nearest(name, SHIPPED)
        known = (f"Did you mean {guess}? " if guess else "") + (
            f"Shipped: {', '.join(SHIPPED)}; or write the path of a .yaml file."
        )
        message = f"there is no title block '{name}'"
        return None, (Diagnostic("titleblock-unknown", "error", message, help=known),)
    path = Path(name) if folder is None else folder / name
    text, complaint = read_text(path, shown_name(path), KIND.name)
    if text is None:
        assert complaint is not None
        if complaint.code in ("no-file", "not-a-file", "unreadable"):
            # The spec names what is no file: the mistake is there.
            help_text = f"It is looked for beside the spec. Shipped: {', '.join(SHIPPED)}."
            message = f"title block '{name}': {complaint.message}"
            complaint = Diagnostic("titleblock-unreadable", "error", message, help=help_text)
        return None, (complaint,)
    return parse(text, os.fspath(path))


@lru_cache(maxsize=8)
def _shipped(name: str) -> Read:
    return parse(files("titleblocks").joinpath(f"{name}.yaml").read_text("utf-8"), f"{name}.yaml")


def parse(text: str, file: str) -> Read:
    """Return the title block that a YAML text describes, with what is wrong in it. None if anything is.

    file: the name that places carry.
    """
    # A line is shown of what looks like a title block, not of any file that a spec's author may point at.
    lines = lines_of(text) if _OURS.search(text) else ()
    tree, source, faults = read_tree(text, Source(shown_name(file), lines), KIND)
    if tree is None:
        return None, faults
    reader = _Reader(source)
    block = reader.block(tree, Path(file).stem)
    return (None if reader.found else block), tuple(reader.found)


class _Reader:
    # Walks the tree with the path of each node, by which its place is known.

    def __init__(self, source: Source) -> None:
        self.source = source
        self.found: list[Diagnostic] = []

    def say(self, path: SpecPath, what: str, help_text: str = "", *, key: bool = False) -> None:
        place = self.source.key_place(path) if key else self.source.place_of(path)
        self.found.append(Diagnostic("titleblock-invalid", "error", what, place, help_text))

    def mapping(self, path: SpecPath, node: Node, allowed: Iterable[str], wanted: str) -> dict[str, Node]:
        if not isinstance(node, dict):
            self.say(path, f"{wanted} wanted here, not {_shown(node)}")
            return {}
        known = tuple(allowed)
        for key in node:
            if key not in known:
                what = f"'{key}' is not a word of a title block here"
                self.say((*path, key), what, _choice(key, known), key=True)
        return node

    def block(self, tree: Node, name: str) -> TitleBlock | None:
        data = self.mapping((), tree, ("name", "source", "layouts"), "keys are")
        entries = data.get("layouts")
        if not isinstance(entries, list) or not entries:
            self.say(("layouts",), "a title block has a list of `layouts`, each with edge, depth and body")
            return None
        layouts = [self.layout(("layouts", k), entry) for k, entry in enumerate(entries)]
        return TitleBlock(str(data.get("name", name)), tuple(x for x in layouts if x))

    def layout(self, path: SpecPath, node: Node) -> BlockLayout | None:
        data = self.mapping(path, node, ("needs", "edge", "depth", "body"), "edge, depth and body are")
        for key in ("edge", "depth", "body"):
            if isinstance(node, dict) and key not in data:
                self.say(path, f"'{key}' of this layout is missing")
        if not {"edge", "depth", "body"} <= data.keys():
            return None
        within = (*path, "needs")
        needs = self.mapping(within, data.get("needs") or {}, ("width", "height"), "width and height are")
        edge = self.word(path, data, "edge", _EDGES, "")
        depth = self.number(path, data, "depth", 0.0, above_zero=True)
        body = self.node((*path, "body"), data["body"])
        if body is None:
            return None
        return BlockLayout(
            self.number(within, needs, "width", 0.0),
            self.number(within, needs, "height", 0.0),
            "right" if edge == "right" else "bottom",
            depth,
            body,
        )

    def node(self, path: SpecPath, node: Node) -> BlockCell | Split | None:
        if not isinstance(node, dict):
            self.say(path, f"a cell or a split is wanted here, not {_shown(node)}")
            return None
        size = None if node.get("size", "fill") == "fill" else self.size(path, node)
        way = next((way for way in ("down", "across") if way in node), None)
        if way is None:
            return self.cell(path, node, size)
        self.mapping(path, node, ("size", way), "")
        entries = node[way]
        if not isinstance(entries, list) or not entries:
            self.say((*path, way), f"`{way}` is a list of cells", key=True)
            return None
        parts = [self.node((*path, way, k), entry) for k, entry in enumerate(entries)]
        return Split(size, "down" if way == "down" else "across", tuple(p for p in parts if p))

    def cell(self, path: SpecPath, node: dict[str, Node], size: float | None) -> BlockCell:
        data = self.mapping(path, node, _CELL_KEYS, "")
        if "field" in data and "text" in data:
            self.say((*path, "text"), "a cell has a `field` or a `text`, not both", key=True)
        key = "field" if "field" in data else "text"
        height = self.number(path, data, "height", _LEAST_LETTERING, least=_LEAST_LETTERING)
        least = self.number(path, data, "least", min(height, _LEAST_LETTERING), least=_LEAST_LETTERING)
        if least > height:
            self.say((*path, "least"), f"`least` is {least:g} mm, more than the `height` of {height:g}")
        lines = self.number(path, data, "lines", 1.0, above_zero=True)
        if lines != int(lines) or lines > _MOST_LINES:
            self.say((*path, "lines"), f"`lines` is a whole number from 1 to {_MOST_LINES}")
            lines = 1.0
        weight = self.word(path, data, "weight", ("regular", "bold"), "regular")
        return BlockCell(
            size,
            self.word(path, data, "kind", _KINDS, "text"),
            self.text(path, data, "label"),
            self.template((*path, key), self.text(path, data, key)),
            height,
            least,
            int(lines),
            "bold" if weight == "bold" else "regular",
            self.word(path, data, "align", ("left", "centre", "right"), "left"),
        )

    def template(self, path: SpecPath, text: str) -> str:
        names = named_fields(text)
        for name in names:
            if name not in FIELDS:
                self.say(path, f"there is no field {{{name}}}", _choice(name, FIELDS))
        if text.count("{") != len(names) or text.count("}") != len(names):
            self.say(path, f"'{text[:60]}' has a brace without its partner")
        return text

    def text(self, path: SpecPath, data: dict[str, Node], key: str) -> str:
        value = data.get(key, "")
        if isinstance(value, str) and all(c.isprintable() for c in value):
            return value
        self.say((*path, key), f"`{key}` is one line of text, not {_shown(value)}")
        return ""

    def word(
        self, path: SpecPath, data: dict[str, Node], key: str, allowed: tuple[str, ...], default: str
    ) -> str:
        value = data.get(key, default)
        if isinstance(value, str) and value in allowed:
            return value
        self.say((*path, key), f"{key} is {_shown(value)}", _choice(str(value), allowed))
        return default

    def size(self, path: SpecPath, data: dict[str, Node]) -> float:
        return self.number(path, data, "size", 0.0, above_zero=True, or_fill=True)

    def number(
        self, path: SpecPath, data: dict[str, Node], key: str, default: float, *, least: float = 0.0,
        above_zero: bool = False, or_fill: bool = False,
    ) -> float:  # fmt: skip
        if key not in data:
            return default
        value = data[key]
        number = float(value) if isinstance(value, str) and _NUMBER.fullmatch(value) else math.nan
        if math.isfinite(number) and least <= number <= _MOST_MM and (number > 0 or not above_zero):
            return number
        low = "above 0" if above_zero else f"from {least:g}"
        what = f"`{key}` is {_shown(value)}; a number {low} to {_MOST_MM:g} is wanted"
        self.say((*path, key), what + (", or fill" if or_fill else ""))
        return default


def _choice(word: str, allowed: Iterable[str]) -> str:
    known = tuple(allowed)
    guess = nearest(word, known)
    return (f"Did you mean {guess}? " if guess else "") + f"Allowed: {', '.join(known)}."


def _shown(value: Node) -> str:
    if isinstance(value, dict):
        return "a mapping of keys"
    if isinstance(value, list):
        return "a list"
    return f"'{str(value)[:40]}'" if value else "nothing"
