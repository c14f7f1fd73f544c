"""Each rule of the checks has a spec that just passes and one that just fails, a step apart, and says where
in the file the failing one is changed.
"""

from __future__ import annotations

import ast
import inspect
import sys
from pathlib import Path

import pytest

from sheets.base.length import inch, read_length
from sheets.checks.finding import Finding
from sheets.checks.run import RULES, run_checks
from sheets.pipeline import solve
from tests.acceptance.edge_table import EDGES, Edge
from tests.acceptance.edits import base, changed, place

GRID = inch("1/16")
SEVERITIES = ("error", "warning", "note")


def written(edge: Edge, value: str) -> str:
    """The wall of a row with the value; an empty value leaves what the wall has."""
    text = changed(base(edge.wall), edge.given)
    return changed(text, {edge.path: value}) if value else text


def found(tmp_path: Path, edge: Edge, value: str) -> list[Finding]:
    """What the rule says of it, of the severity that the row is about."""
    path = tmp_path / "wall.yaml"
    path.write_text(written(edge, value), encoding="utf-8")
    solved = solve(path)
    assert solved.wall is not None, [each.message for each in solved.diagnostics]
    report = next(each for each in run_checks(solved.wall, solved.source.place_of) if each.rule == edge.rule)
    assert report.looked_at > 0
    return [each for each in report.findings if each.severity == edge.severity and edge.says in each.message]


@pytest.mark.parametrize("edge", EDGES, ids=lambda edge: edge.name)
def test_one_spec_just_passes_and_one_just_fails(tmp_path: Path, edge: Edge) -> None:
    assert found(tmp_path, edge, edge.passes) == []
    failing = found(tmp_path, edge, edge.fails)
    assert failing
    # Its place is where PyYAML, read by itself, has the value or the key that is to be changed.
    wanted = place(written(edge, edge.fails), edge.at or edge.path)
    assert wanted in [(each.made_from.line, each.made_from.column) for each in failing]
    assert all(each.cure and each.cited.source for each in failing)


@pytest.mark.parametrize("edge", [edge for edge in EDGES if not edge.step], ids=lambda edge: edge.name)
def test_the_step_is_one_of_the_grid_or_finer(edge: Edge) -> None:
    passes, fails = (read_length(value, unit="inch") for value in (edge.passes, edge.fails))
    assert 0 < abs(passes - fails) <= GRID


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_no_rule_is_without_its_pair(rule) -> None:  # type: ignore[no-untyped-def]
    """Every severity that a rule's own file names has a row, warnings and errors and what only informs."""
    tree = ast.parse(inspect.getsource(sys.modules[rule.judge.__module__]))
    can = {node.value for node in ast.walk(tree) if isinstance(node, ast.Constant)} & set(SEVERITIES)
    if any(isinstance(node, ast.Name) and node.id == "judge_of" for node in ast.walk(tree)):
        can |= {"error", "warning"}  # as heavily as the codes that judge
    assert can, "a rule that never finds anything"
    assert can <= {edge.severity for edge in EDGES if edge.rule == rule.name}


def test_the_table_names_no_rule_that_is_gone() -> None:
    assert {edge.rule for edge in EDGES} <= {rule.name for rule in RULES}
