"""What each stone, metal and other thing of the wall is taken for beside a fireplace: burning or not."""

from __future__ import annotations

from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.mechanics.decided_at import at
from sheets.checks.mechanics.fireside import CAUTIONS, FIREPLACE_ITSELF
from sheets.checks.mechanics.strengths import noncombustible
from sheets.model.part import Material, Provenance
from sheets.model.wall import Wall
from sheets.tables.noncombustible import imitation_in, nearest_noncombustible, noncombustible_named
from sheets.tables.read import Cited

NAME = "fire-materials"
LIST = Cited("the closed list of what does not burn, sheets/tables/noncombustible.csv", "from memory")

EXPLAIN = """\
Reads every material named under `masonry:` and `other:` that a piece beside a fireplace is made of. What
does not burn is a closed list of whole names and synonyms: brick, stone by its kind, tile, concrete,
steel and other metals, glass, cement board. Any other name counts as combustible in every clearance rule.
A name or a finish that says an imitation (effect, look, faced, veneer, vinyl, ...) never counts as what
it imitates. Wood, panels and gypsum board are combustible whatever treats them.
Sources: IRC R1001.9.2 and ASTM E136 in the words of the residential code; each row names its own. The
list says what a thing is called, not what was bought: the product's own test report governs."""


def _judge(wall: Wall) -> Outcome:
    if wall.opening is None:
        return Outcome(0)
    used = {
        part.material
        for part in wall.parts
        if part.material.kind in ("masonry", "other")
        and part.does.fire not in FIREPLACE_ITSELF | {"electronics"}
    }
    materials = sorted(used, key=lambda each: each.key)
    unknown = [each for each in materials if noncombustible(each) is None]
    return Outcome(
        len(materials),
        tuple(_unknown(each) for each in unknown),
        tuple(_measure(each) for each in materials),
    )


def _unknown(material: Material) -> Finding:
    row, near = noncombustible_named(material.name), nearest_noncombustible(material.name)
    word = imitation_in(material.name) or imitation_in(material.finish)
    why = f"'{word}' says an imitation" if word else "no list has it by this name"
    near = None if word or row else near
    return about(
        NAME,
        "warning",
        f"{material.name}{f', {material.finish},' if material.finish else ''} counts as combustible in every "
        f"clearance: {why}",
        made_from=at(Provenance(), "materials", material.key),
        cure=(f"write {near} if that is what it is, or " if near else "")
        + "name it as the list of `shopset explain fire-materials` does, or keep it as far off as wood",
        cited=LIST,
    )


def _measure(material: Material) -> Measure:
    row = noncombustible(material)
    return Measure(
        f"{material.key}: {material.name}",
        "taken as noncombustible" if row else "taken as combustible",
        "a whole name in the list",
        "for information" if row else "to judge",
        row.cited if row else LIST,
    )


RULE = Rule(NAME, "What does not burn", "clearance", 90, _judge, EXPLAIN, CAUTIONS)
