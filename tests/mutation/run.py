"""What changes of figures and rules the tests near them do not see.

`python -m tests.mutation.run` collects the fast tests once, runs those that it needs as they are, then makes
one change at a time (`mutants.py`) in a copy of the process and runs what is near it until something fails:
for a rule the tests that name it and its rows of the edge table, for what rules share those of all that
import it, for a table also the tests of the tables and of published values. What no test fails on is listed:
a survivor. Tests that hold a value of a table from the time they were collected cannot see a change of it.
"""

from __future__ import annotations

import argparse
import ast
import os
import signal
import sys
from fnmatch import fnmatch
from functools import cache
from itertools import pairwise
from pathlib import Path

import pytest

from tests.mutation.mutants import CHECKS, ROOT, TABLES, Mutant, code_mutants, forget, table_mutants

NEAR = ("tests/tables", "tests/published", "tests/checks", "tests/acceptance/test_each_rule_has_its_edge.py")
_JUDGING = ("sheets.checks", "sheets.tables")
LONGEST = 600
"""Seconds after which a change is taken to make a test run for ever."""


@cache
def imported(path: Path) -> frozenset[Path]:
    """Return the files of the package that a file imports, itself and theirs included."""
    found = {path}
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith(_JUDGING):
            other = ROOT.joinpath(*str(node.module).split(".")).with_suffix(".py")
            if other.exists() and other != path:
                found |= imported(other)
    return frozenset(found)


@cache
def rules_by(path: Path) -> frozenset[str]:
    """Return the names of the rules that a file of the checks, or a table, has a part in."""
    if path.suffix == ".csv":
        readers = [each for each in TABLES.glob("*.py") if f'"{path.stem}"' in each.read_text("utf-8")]
    else:
        readers = [path]
    rules = [rule for rule in sorted((CHECKS / "rules").glob("*.py")) if rule.stem != "__init__"]
    return frozenset(
        rule.stem.replace("_", "-") for rule in rules if imported(rule) & set(readers)
    ) or frozenset(rule.stem.replace("_", "-") for rule in rules)


def near(mutant: Mutant, item: pytest.Item) -> bool:
    """Return whether a test may see a change."""
    place = item.path.relative_to(ROOT).parts
    rules = rules_by(mutant.where)
    if "test_each_rule_has_its_edge.py" in place:
        return "just_passes" in item.name and item.name.partition("[")[2].partition(",")[0] in rules
    if place[1] in ("tables", "published"):
        return True
    return bool(rules & named_in(item.path))


@cache
def named_in(path: Path) -> frozenset[str]:
    """Return the rules that a file of tests names, by their names or their modules'."""
    text = path.read_text("utf-8")
    names = {rule.stem.replace("_", "-") for rule in (CHECKS / "rules").glob("*.py")}
    return frozenset(name for name in names if name in text or name.replace("-", "_") in text)


class Mutation:
    """A run of pytest whose loop makes the changes, so many at a time."""

    def __init__(self, mutants: list[Mutant], processes: int) -> None:
        self.mutants, self.processes = mutants, processes
        self.failed = ""
        self.survivors: list[Mutant] = []

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        if report.failed:
            self.failed = self.failed or f"{report.nodeid}: {report.longreprtext}"

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        wanted = [item for item in session.items if any(near(mutant, item) for mutant in self.mutants)]
        run(wanted, self)
        if self.failed:
            print(f"a test fails without any change: {self.failed}")
            return True
        running: dict[int, Mutant] = {}
        for number, mutant in enumerate(self.mutants, 1):
            if len(running) >= self.processes:
                self._ended(running)
            running[self._tried(mutant, [item for item in wanted if near(mutant, item)])] = mutant
            if not number % 50:
                print(f"{number} of {len(self.mutants)}, {len(self.survivors)} survive", flush=True)
        while running:
            self._ended(running)
        return True

    def _ended(self, running: dict[int, Mutant]) -> None:
        pid, status = os.wait()
        mutant = running.pop(pid)
        if status == 0:
            self.survivors.append(mutant)
            print(f"survives: {mutant.name}", flush=True)

    def _tried(self, mutant: Mutant, items: list[pytest.Item]) -> int:
        """A copy of this process that makes the change and ends with 0 when no test fails."""
        sys.stdout.flush()
        pid = os.fork()
        if pid:
            return pid
        signal.alarm(LONGEST)
        null = os.open(os.devnull, os.O_WRONLY)
        os.dup2(null, 1)
        os.dup2(null, 2)
        try:
            mutant.apply()
            run(items, self)
        except BaseException:
            os._exit(2)
        os._exit(1 if self.failed else 0)


def run(items: list[pytest.Item], until: Mutation) -> None:
    """Run tests one after the other until one fails, nothing remembered of the tables."""
    forget()
    for item, after in pairwise([*items, None]):
        assert item is not None
        item.config.hook.pytest_runtest_protocol(item=item, nextitem=after)
        if until.failed:
            return


def main() -> int:
    """Make the changes that are asked for, list the survivors; exit 1 when there are any."""
    words = argparse.ArgumentParser(description=__doc__)
    words.add_argument("--only", choices=("tables", "code"), help="changes of figures or of rules alone")
    words.add_argument("--match", default="*", help="of files whose name matches, as woods* or shelf_sag*")
    words.add_argument("--every", type=int, default=1, help="each so many-th change alone: a sample")
    words.add_argument("--start", type=int, default=0, help="with --every: from which change on")
    words.add_argument("-j", type=int, default=1, help="changes tried at a time")
    said = words.parse_args()
    mutants = [*(() if said.only == "code" else table_mutants())]
    mutants += [*(() if said.only == "tables" else code_mutants())]
    mutants = [mutant for mutant in mutants if fnmatch(mutant.where.stem, said.match)]
    mutants = mutants[said.start :: said.every]
    os.chdir(ROOT)
    mutation = Mutation(mutants, said.j)
    said_to_pytest = ["-o", "addopts=--import-mode=importlib", "-p", "no:terminal", "-p", "no:cacheprovider"]
    ended = pytest.main([*said_to_pytest, *NEAR], [mutation])
    if mutation.failed or ended not in (pytest.ExitCode.OK, pytest.ExitCode.NO_TESTS_COLLECTED):
        return 2
    print(f"{len(mutants)} changes, {len(mutation.survivors)} survive")
    return 1 if mutation.survivors else 0


if __name__ == "__main__":
    sys.exit(main())
