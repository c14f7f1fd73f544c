"""Small changes to the figures of the tables and to the rules, one at a time.

A figure is changed by a twentieth, up and down by turns. In the rules a comparison is moved onto its edge and
turned round, a sum becomes a difference, a product a quotient, the least the greatest, and a constant is
changed by a twentieth. What only writes messages or draws pictures is left out.
"""

from __future__ import annotations

import ast
import copy
import csv
import functools
import importlib
import io
import re
import sys
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from types import CodeType, FunctionType, ModuleType
from typing import Any

ROOT = Path(__file__).parents[2]
TABLES, CHECKS = ROOT / "sheets" / "tables", ROOT / "sheets" / "checks"

_NUMBER = re.compile(r"(?P<value>\d+ \d+/\d+|\d+/\d+|\d+(?:\.\d+)?)(?P<unit> in| mm)?")
_NO_FIGURES = ("label", "nominal", "name", "quarters", "editions", "read_in", "service_class", "rate")
"""Columns that name a row, though they hold numbers."""
_NO_VERDICT = ("reports", "wording.py", "sag_picture.py", "alignment_picture.py", "fireside_picture.py")
_TWENTIETH = Fraction(1, 20)


@dataclass(frozen=True)
class Mutant:
    """One change. where: the file, from the root, and the line; says: what it does; apply: does it, in this
    process alone.
    """

    where: Path
    line: int
    says: str
    apply: Callable[[], None]

    @property
    def name(self) -> str:
        return f"{self.where.relative_to(ROOT)}:{self.line}: {self.says}"


def table_mutants() -> Iterator[Mutant]:
    """Yield a change of each figure of each table."""
    for path in sorted(TABLES.glob("*.csv")):
        rows = list(csv.reader(path.read_text("utf-8").splitlines()))
        for at, row in enumerate(rows[1:], 1):
            for column, cell in enumerate(row):
                number = _NUMBER.fullmatch(cell)
                if number is None or rows[0][column] in _NO_FIGURES:
                    continue
                by = 1 + (_TWENTIETH if (at + column) % 2 else -_TWENTIETH)
                value = sum((Fraction(word) for word in number["value"].split()), Fraction(0)) * by
                if not value:
                    continue
                changed = f"{float(value):.9g}{number['unit'] or ''}"
                said = f"{row[0]}, {rows[0][column]} {cell} -> {changed}"
                yield Mutant(path, at + 1, said, _in_table(path, rows, at, column, changed))


def _in_table(path: Path, rows: list[list[str]], at: int, column: int, changed: str) -> Callable[[], None]:
    def apply() -> None:
        from sheets.tables import read

        mutated = [list(row) for row in rows]
        mutated[at][column] = changed
        text = io.StringIO()
        csv.writer(text, lineterminator="\n").writerows(mutated)
        read.files = lambda _: _Folder({path.name: text.getvalue()})  # type: ignore[assignment,return-value]

    return apply


@dataclass(frozen=True)
class _Folder:
    """The folder of the tables with other text for some of them."""

    texts: dict[str, str]
    name: str = ""

    def joinpath(self, name: str) -> _Folder:
        return _Folder(self.texts, name)

    def read_text(self, encoding: str) -> str:
        return self.texts.get(self.name) or (TABLES / self.name).read_text(encoding)


def forget() -> None:
    """Forget what was read from the tables and worked out of it."""
    for module in list(sys.modules.values()):
        if getattr(module, "__name__", "").startswith("sheets."):
            for value in list(vars(module).values()):
                if isinstance(value, functools._lru_cache_wrapper):
                    value.cache_clear()


_EDGE: dict[type[ast.cmpop], tuple[type[ast.cmpop], ...]] = {
    ast.Lt: (ast.LtE, ast.GtE),
    ast.LtE: (ast.Lt, ast.Gt),
    ast.Gt: (ast.GtE, ast.LtE),
    ast.GtE: (ast.Gt, ast.Lt),
    ast.Eq: (ast.NotEq,),
    ast.NotEq: (ast.Eq,),
}
_OTHER: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Div,
    ast.Div: ast.Mult,
}
_OTHER_END = {"min": "max", "max": "min"}


def code_mutants() -> Iterator[Mutant]:
    """Yield the changes of each rule and of what rules share."""
    for path in sorted(CHECKS.rglob("*.py")):
        if not any(word in path.parts for word in _NO_VERDICT):
            tree = ast.parse(path.read_text("utf-8"))
            for number, (line, says, change) in enumerate(_changes(tree)):
                yield Mutant(path, line, says, _in_code(path, number, says, change))


def _in_code(path: Path, number: int, says: str, change: Callable[[], None]) -> Callable[[], None]:
    def apply() -> None:
        tree = ast.parse(path.read_text("utf-8"))
        _, said, again = list(_changes(tree))[number]
        assert said == says
        again()
        name = ".".join(path.relative_to(ROOT).with_suffix("").parts)
        _replace(importlib.import_module(name), compile(ast.fix_missing_locations(tree), str(path), "exec"))

    return apply


def _changes(tree: ast.Module) -> Iterator[tuple[int, str, Callable[[], None]]]:
    """Each change of a tree: its line, what it is in words, and what makes it."""
    for node in _judging(tree):
        if isinstance(node, ast.Compare) and len(node.ops) == 1:
            for other in _EDGE.get(type(node.ops[0]), ()):
                yield _said(node, functools.partial(setattr, node, "ops", [other()]))
        elif isinstance(node, ast.BinOp) and type(node.op) in _OTHER:
            yield _said(node, functools.partial(setattr, node, "op", _OTHER[type(node.op)]()))
        elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub):
            yield _said(node, functools.partial(setattr, node, "op", ast.UAdd()))
        elif isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in _OTHER_END:
            other_end = ast.Name(_OTHER_END[node.func.id], ast.Load())
            yield _said(node, functools.partial(setattr, node, "func", other_end))
        elif isinstance(node, ast.Constant) and _is_figure(node.value) and node.value:
            yield _said(node, functools.partial(setattr, node, "value", node.value * 1.05))


def _is_figure(value: object) -> bool:
    """Counts and places in a row are small whole numbers: no figures."""
    return isinstance(value, float) or (type(value) is int and value > 3)


def _said(node: ast.expr, change: Callable[[], None]) -> tuple[int, str, Callable[[], None]]:
    before, held = ast.unparse(node), copy.copy(node.__dict__)
    change()
    after = ast.unparse(node)
    node.__dict__.update(held)
    return node.lineno, f"{before} -> {after}", change


def _judging(tree: ast.AST) -> Iterator[ast.AST]:
    """All of a tree but annotations and what is written in messages."""
    for name, field in ast.iter_fields(tree):
        if name in ("annotation", "returns", "decorator_list"):
            continue
        for child in field if isinstance(field, list) else [field]:
            if isinstance(child, ast.AST) and not isinstance(child, ast.JoinedStr):
                yield child
                yield from _judging(child)


def _replace(module: ModuleType, code: CodeType) -> None:
    """Give the functions of a module the code of its changed text, and its constants their values, wherever
    they were imported to.
    """
    scratch: dict[str, Any] = {"__name__": module.__name__, "__file__": module.__file__}
    exec(code, scratch)
    for name, new in scratch.items():
        old = vars(module).get(name)
        if isinstance(new, type) and isinstance(old, type) and new.__module__ == module.__name__:
            for key, value in vars(new).items():
                _swap(vars(old).get(key), value)
        elif not name.startswith("__") and not _swap(old, new) and isinstance(new, int | float | Fraction):
            for other in list(sys.modules.values()):
                if getattr(other, "__name__", "").startswith("sheets.") and vars(other).get(name) is old:
                    setattr(other, name, new)


def _swap(old: object, new: object) -> bool:
    old, new = (getattr(each, "fget", None) or getattr(each, "__wrapped__", each) for each in (old, new))
    if isinstance(old, FunctionType) and isinstance(new, FunctionType):
        old.__code__ = new.__code__
        return True
    return False
