"""Title blocks: read from YAML, checked, and chosen for a sheet. A block's name or the path of a file of
one's own.

A block is split `down` or `across` into cells; every length is mm on paper. See `titleblocks/*.yaml`.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from pathlib import Path
from string import Formatter
from typing import Any, Literal

from sheets.base.diagnostics import Diagnostic, nearest

FIELDS: tuple[str, ...] = (
    "project.title",
    "project.number",
    "project.site",
    "project.client",
    "project.firm",
    "project.drawn",
    "project.checked",
    "project.approved",
    "project.date",
    "project.status",
    "sheet.number",
    "sheet.title",
    "sheet.index",
    "sheet.count",
    "sheet.scale",
    "sheet.size",
    "sheet.revision",
    "set.units",
    "set.language",
)
"""What a cell may print, as {project.title}."""

SHIPPED: tuple[str, ...] = ("architect-strip", "iso-7200", "shop-small")
_CELL_KEYS = ("size", "kind", "label", "field", "text", "height", "least", "lines", "weight", "align")
_KINDS = ("text", "stamp", "revisions", "blank")
_EDGES = ("right", "bottom")


@dataclass(frozen=True, slots=True)
class BlockCell:
    """One box of a title block. field: what it prints, with {names}; height: of capitals, mm; least: the
    smallest it may shrink to; lines: how many it may break into."""

    size: float | None  # None: shares what is left
    kind: str = "text"
    label: str = ""
    field: str = ""
    height: float = 2.5
    least: float = 2.5
    lines: int = 1
    weight: Literal["regular", "bold"] = "regular"
    align: str = "left"


@dataclass(frozen=True, slots=True)
class Split:
    """A box divided down (top to bottom) or across (left to right)."""

    size: float | None
    way: Literal["down", "across"]
    parts: tuple[BlockCell | Split, ...]


@dataclass(frozen=True, slots=True)
class BlockLayout:
    """How a block lies on sheets whose frame is at least this wide and high, mm."""

    needs_width: float
    needs_height: float
    edge: Literal["right", "bottom"]
    depth: float
    body: BlockCell | Split


@dataclass(frozen=True, slots=True)
class TitleBlock:
    """A title block with its layouts, the first that suits a sheet being used."""

    name: str
    layouts: tuple[BlockLayout, ...]

    def layout_for(self, width: float, height: float) -> BlockLayout | None:
        """The layout for a frame of this size, mm; None if the block is too large for it."""
        return next((b for b in self.layouts if width >= b.needs_width and height >= b.needs_height), None)


def load(name: str, folder: Path | None = None) -> tuple[TitleBlock | None, tuple[Diagnostic, ...]]:
    """Return the title block of a shipped name, or of a YAML file by its path (seen from `folder`)."""
    if name in SHIPPED:
        return _shipped(name)
    if not name.endswith((".yaml", ".yml")):
        guess = nearest(name, SHIPPED)
        known = (
            f"did you mean {guess}?"
            if guess
            else "shipped: " + ", ".join(SHIPPED) + "; or the path of a .yaml file"
        )
        return None, (
            Diagnostic("titleblock-unknown", "error", f"there is no title block '{name}'", help=known),
        )
    path = Path(name) if folder is None else folder / name
    try:
        text = path.read_text("utf-8")
    except (OSError, UnicodeDecodeError) as problem:
        reason = getattr(problem, "strerror", None) or "it is not UTF-8 text"
        return None, (
            Diagnostic("titleblock-unreadable", "error", f"title block '{name}' cannot be read: {reason}"),
        )
    return parse(text, name)


@lru_cache(maxsize=8)
def _shipped(name: str) -> tuple[TitleBlock | None, tuple[Diagnostic, ...]]:
    return parse(files("titleblocks").joinpath(f"{name}.yaml").read_text("utf-8"), name)


def parse(text: str, name: str) -> tuple[TitleBlock | None, tuple[Diagnostic, ...]]:
    """Return the title block that a YAML text describes, with what is wrong in it. None if anything is."""
    import yaml

    try:
        data = yaml.load(text, Loader=yaml.CSafeLoader)
    except yaml.YAMLError as problem:
        mark = getattr(problem, "problem_mark", None)
        where = f" (line {mark.line + 1}, column {mark.column + 1})" if mark else ""
        what = getattr(problem, "problem", "") or "it is not YAML"
        return None, (Diagnostic("titleblock-invalid", "error", f"title block '{name}': {what}{where}"),)
    reader = _Reader(name)
    block = reader.block(data)
    return (None if reader.found else block), tuple(reader.found)


class _Reader:
    # Collects every fault of one file before giving up, so that a user mends them in one go.

    def __init__(self, name: str) -> None:
        self.name = name
        self.found: list[Diagnostic] = []

    def say(self, where: str, what: str, help: str = "") -> None:
        message = f"title block '{self.name}', {where}: {what}"
        self.found.append(Diagnostic("titleblock-invalid", "error", message, help=help))

    def known(self, where: str, data: dict[str, Any], allowed: Iterable[str]) -> None:
        allowed = tuple(allowed)
        for key in data:
            if key not in allowed:
                guess = nearest(str(key), allowed)
                self.say(
                    where,
                    f"'{key}' is not a word of a title block",
                    f"did you mean {guess}?" if guess else "allowed: " + ", ".join(allowed),
                )

    def block(self, data: Any) -> TitleBlock | None:
        if not isinstance(data, dict) or not isinstance(data.get("layouts"), list) or not data["layouts"]:
            self.say("at the top", "a list of `layouts` is missing")
            return None
        self.known("at the top", data, ("name", "source", "layouts"))
        layouts = [self.layout(f"layouts[{k}]", entry) for k, entry in enumerate(data["layouts"])]
        return TitleBlock(str(data.get("name", self.name)), tuple(x for x in layouts if x))

    def layout(self, where: str, data: Any) -> BlockLayout | None:
        if not isinstance(data, dict):
            self.say(where, "edge, depth and body are missing")
            return None
        self.known(where, data, ("needs", "edge", "depth", "body"))
        needs = data.get("needs") or {}
        if not isinstance(needs, dict):
            self.say(where, "`needs` is a width and a height")
            needs = {}
        self.known(where + ".needs", needs, ("width", "height"))
        edge = data.get("edge")
        if edge not in _EDGES:
            guess = nearest(str(edge), _EDGES)
            self.say(
                where, f"edge is '{edge}'", f"did you mean {guess}?" if guess else "edge is right or bottom"
            )
        depth = self.number(where, data, "depth", 0.0)
        if depth <= 0:
            self.say(where, "`depth`, how far the block reaches into the sheet, is a number above 0")
        body = self.node(where + ".body", data.get("body") or {})
        if body is None:
            return None
        return BlockLayout(
            self.number(where, needs, "width", 0.0),
            self.number(where, needs, "height", 0.0),
            "right" if edge == "right" else "bottom",
            depth,
            body,
        )

    def node(self, where: str, data: Any) -> BlockCell | Split | None:
        if not isinstance(data, dict):
            self.say(where, "a cell or a split is wanted")
            return None
        size = self.size(where, data)
        ways = [way for way in ("down", "across") if way in data]
        if not ways:
            return self.cell(where, data, size)
        self.known(where, data, ("size", ways[0]))
        entries = data[ways[0]]
        if not isinstance(entries, list) or not entries:
            self.say(where, f"`{ways[0]}` is a list of cells")
            return None
        parts = [self.node(f"{where}.{ways[0]}[{k}]", entry) for k, entry in enumerate(entries)]
        return Split(size, "down" if ways[0] == "down" else "across", tuple(p for p in parts if p))

    def cell(self, where: str, data: dict[str, Any], size: float | None) -> BlockCell:
        self.known(where, data, _CELL_KEYS)
        kind, align, weight = (
            data.get("kind", "text"),
            data.get("align", "left"),
            data.get("weight", "regular"),
        )
        for what, value, allowed in (
            ("kind", kind, _KINDS),
            ("align", align, ("left", "centre", "right")),
            ("weight", weight, ("regular", "bold")),
        ):
            if value not in allowed:
                guess = nearest(str(value), allowed)
                self.say(
                    where,
                    f"{what} is '{value}'",
                    f"did you mean {guess}?" if guess else "one of " + ", ".join(allowed),
                )
        template = str(data.get("field", data.get("text", "")) or "")
        self.template(where, template)
        height = self.number(where, data, "height", 2.5)
        least = self.number(where, data, "least", min(height, 2.5))
        if least < 2.5 or height < 2.5:
            self.say(where, "lettering is 2.5 mm high or more")
        return BlockCell(
            size,
            str(kind),
            str(data.get("label", "") or ""),
            template,
            height,
            least,
            int(self.number(where, data, "lines", 1)),
            "bold" if weight == "bold" else "regular",
            str(align),
        )

    def template(self, where: str, text: str) -> None:
        try:
            names = [name for _, name, _, _ in Formatter().parse(text) if name is not None]
        except ValueError:
            self.say(where, f"'{text}' has a brace without its partner")
            return
        for name in names:
            if name not in FIELDS:
                guess = nearest(name, FIELDS)
                self.say(
                    where,
                    f"there is no field {{{name}}}",
                    f"did you mean {{{guess}}}?" if guess else "fields: " + ", ".join(FIELDS),
                )

    def size(self, where: str, data: dict[str, Any]) -> float | None:
        if data.get("size", "fill") == "fill":
            return None
        value = self.number(where, data, "size", 0.0)
        if value <= 0:
            self.say(where, "`size` is mm above 0, or fill")
        return value

    def number(self, where: str, data: dict[str, Any], key: str, default: float) -> float:
        value = data.get(key, default)
        if isinstance(value, bool) or not isinstance(value, (int, float)):
            self.say(where, f"`{key}` is '{value}', a number of mm is wanted")
            return default
        return float(value)
