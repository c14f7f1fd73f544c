"""The history of a wall, told as edits to its spec: what an owner and an architect ask for, one after the
other."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from pathlib import Path

SPEC = Path(__file__).parent / "specs" / "history.yaml"


@dataclass(frozen=True)
class Step:
    """One revision. edits: (what stands in the spec, what is to stand there).

    sizes: the sizes the report must name, and no others; roles: what must be done to which kind of part
    that the
    shop makes, and nothing else.
    """

    name: str
    edits: tuple[tuple[str, str], ...]
    sizes: frozenset[str] = frozenset()
    roles: frozenset[tuple[str, str]] = frozenset()
    words: frozenset[str] = frozenset()
    more: dict[str, object] = field(default_factory=dict)


def pairs(*texts: str) -> frozenset[tuple[str, str]]:
    """`resized side` as (resized, side)."""
    return frozenset((kind, role) for kind, _, role in (text.partition(" ") for text in texts))


STEPS = (
    Step(
        "appliance wider",
        (("{width: 48, height: 14}", "{width: 52, height: 14}"),),
        frozenset({"opening width"}),
    ),
    Step(
        "shelf added",
        (("shelves: {count: 2,", "shelves: {count: 3,"),),
        frozenset({"shelves"}),
        pairs("added shelf", "moved shelf", "joints side"),
    ),
    Step(
        "shelf removed",
        (("shelves: {count: 3,", "shelves: {count: 2,"),),
        frozenset({"shelves"}),
        pairs("removed shelf", "moved shelf", "joints side"),
    ),
    Step(
        "species of the mantel's cap changed",
        (
            ("overhang: 1-1/2, material: walnut}", "overhang: 1-1/2, material: cherry}"),
            (
                "  walnut: {species: black walnut, finish: clear}",
                "  walnut: {species: black walnut, finish: clear}\n"
                "  cherry: {species: black cherry, finish: clear}",
            ),
        ),
    ),
    Step("mantel lowered", (("  top: 52\n", "  top: 51\n"),)),
    Step("case made taller", (("    height: 76\n", "    height: 80\n"),)),
    Step(
        "keys in another order, comments changed",
        (
            ("# as on the door", "# as the owner calls it"),
            (
                "    height: 80\n    depth: 12\n",
                "    # deep enough for atlases\n    depth: 12\n    height: 80\n",
            ),
            ("  title: Plover House, study", "  drawn: RV\n  title: Plover House, study"),
            ("  slate:  {masonry: slate, thickness: 3/4}\n", ""),
            ("materials:\n", "materials:\n  slate:  {masonry: slate, thickness: 3/4}\n"),
            ('  number: "2611"\n  drawn: RV\n', '  number: "2611"\n'),
        ),
    ),
    Step(
        "lengths in other units",
        (("    height: 80\n", "    height: 2032 mm\n"), ("width: 76\n", "width: 193.04 cm\n")),
    ),
    Step("posts left out", (("  posts:   {width: 6}\n", ""),)),
    Step(
        "a note added",
        (("  - Field verify", "  - Surround is set before the cases.\n  - Field verify"),),
        words=frozenset({"note"}),
    ),
    Step("saw cuts in the fascia", (("saw_cuts: {count: 1,", "saw_cuts: {count: 3,"),)),
    Step("posts back", (("  material: oak\n\ncases", "  posts:   {width: 6}\n  material: oak\n\ncases"),)),
)


def edited(text: str, step: Step) -> str:
    """The text of the spec after a step."""
    for old, new in step.edits:
        assert text.count(old) == 1, (step.name, old, text.count(old))
        text = text.replace(old, new)
    return text


def without_rows(text: str) -> str:
    """The text of a spec less its revisions."""
    return re.split(r"(?m)^revisions:", text)[0]
