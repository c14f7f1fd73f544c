"""The drawing's manner is data: functions of compose/ hold no sizes of their own, they read two tables."""

from __future__ import annotations

import ast
from pathlib import Path

COMPOSE = Path(__file__).resolve().parents[2] / "sheets" / "compose"
PLAIN = {0.0, 0.5, 1.0, 2.0, 90.0}  # nothing, half, whole, twice; a right angle in degrees
NOISE = {1e-6, 1e-9}  # what divides by no zero
AT_MOST = 0


def bare_numbers(tree: ast.Module) -> list[tuple[int, float]]:
    """Return the floats written in functions, with their lines, but for plain ones."""
    found = {
        (node.lineno, node.col_offset): node.value
        for function in ast.walk(tree)
        if isinstance(function, (ast.FunctionDef, ast.AsyncFunctionDef))
        for node in ast.walk(function)
        if isinstance(node, ast.Constant) and isinstance(node.value, float)
    }
    return [(line, value) for (line, _), value in sorted(found.items()) if value not in PLAIN | NOISE]


def test_sizes_on_paper_stand_in_tables() -> None:
    bare = [
        f"{path.relative_to(COMPOSE)}:{line}: {value}"
        for path in sorted(COMPOSE.rglob("*.py"))
        for line, value in bare_numbers(ast.parse(path.read_text("utf-8")))
    ]
    asked = "name these in view_sizes.py or page_sizes.py, with a reason:"
    assert len(bare) <= AT_MOST, "\n".join((asked, *bare))


def test_a_bare_number_is_seen_and_a_plain_one_is_not() -> None:
    tree = ast.parse("SIZE = 3.5\ndef f(x: float = 0.5) -> float:\n    return x * 3.7 + 2.0\n")
    assert bare_numbers(tree) == [(3, 3.7)]
