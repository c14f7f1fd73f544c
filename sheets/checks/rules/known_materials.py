"""Whether the tables know each wood and panel by its name, and which row judges it."""

from __future__ import annotations

from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.mechanics.decided_at import at
from sheets.checks.mechanics.strengths import panel_of, species
from sheets.checks.wording import WHAT_IS_UNKNOWN, density, modulus
from sheets.model.part import Material, Part
from sheets.model.wall import Wall
from sheets.tables.panels import Panel, nearest_panels
from sheets.tables.read import Cited, together
from sheets.tables.woods import Wood, may_be, trade_of

NAME = "known-materials"

EXPLAIN = """\
Reads the name of each wood and panel that the shop works. A name is matched whole, with the synonyms of
the tables; words of cut and grade before it do not matter. Nothing is guessed from a part of a name:
Brazilian cherry is no cherry, bending plywood no plywood, and oak alone may be any of several that differ
by a fifth in stiffness. A name that no row has, or that several have: a warning with the nearest names
and what was not judged. The row that was used is told with its figures.
Sources: names of the Wood Handbook, chapters 1 and 2, from memory; each row has its own."""


def _judge(wall: Wall) -> Outcome:
    pieces: dict[Material, list[Part]] = {}
    for part in wall.parts:
        if part.maker == "shop" and part.material.kind in ("wood", "panel"):
            pieces.setdefault(part.material, []).append(part)
    findings: list[Finding] = []
    measures: list[Measure] = []
    for material, parts in pieces.items():
        wood, panel = species(material), panel_of(material)
        if wood is not None:
            measures.append(_wood_row(wall, material, wood))
        elif panel is not None:
            measures.append(_panel_row(wall, material, panel))
        else:
            findings.append(_unknown_wood(parts) if material.kind == "wood" else _unknown_panel(parts))
    return Outcome(len(pieces), tuple(findings), tuple(measures))


def _wood_row(wall: Wall, material: Material, wood: Wood) -> Measure:
    moves = f"{100 * wood.radial:.2f} % radially and {100 * wood.tangential:.2f} % along the rings"
    return Measure(
        f"{material.key}: {material.name}",
        f"judged as {wood.species}: {modulus(wall, wood.e_mpa)}, {density(wall, wood.kg_per_m3)}, moves "
        f"{moves} for 1 % of moisture",
        "a row of the tables",
        "for information",
        together(*(Cited(wood.source, mark) for mark in wood.marks)),
    )


def _panel_row(wall: Wall, material: Material, panel: Panel) -> Measure:
    faced = f", {panel.face} face" if panel.face != "plain" else ""
    lower = f", {modulus(wall, panel.cautious_mpa)} in the end" if panel.cautious_mpa < panel.e_mpa else ""
    return Measure(
        f"{material.key}: {material.name}",
        f"judged as {panel.panel}{faced}: {modulus(wall, panel.e_mpa)}{lower}, "
        f"{density(wall, panel.kg_per_m3)}",
        "a row of the tables",
        "for information",
        together(panel.cited, panel.cautious_cited, panel.density_cited),
    )


def _unknown_wood(parts: list[Part]) -> Finding:
    material = parts[0].material
    near = may_be(material.name)
    listed = ", and whether it is a softwood is not known: it is listed by the quarter, as hardwood is"
    bought = "" if trade_of(material.name) else listed
    return _unknown(
        parts,
        f"'{material.name}' names no one wood of the tables",
        f"sag, movement and weight of {_count(parts)} were not judged{bought}",
        near,
        "species",
    )


def _unknown_panel(parts: list[Part]) -> Finding:
    name = parts[0].material.name
    return _unknown(
        parts,
        f"'{name}' is no panel of the tables",
        f"sag, bending, thickness and weight of {_count(parts)} were not judged",
        nearest_panels(name),
        "panel",
    )


def _count(parts: list[Part]) -> str:
    return f"its {len(parts)} pieces" if len(parts) > 1 else "its piece"


def _unknown(parts: list[Part], said: str, unjudged: str, near: tuple[str, ...], word: str) -> Finding:
    return about(
        NAME,
        "warning",
        f"{said}; {unjudged}",
        *parts,
        cure=f"if it is one of these, write its whole name: {', '.join(near)}; else let who knows it judge"
        if near
        else WHAT_IS_UNKNOWN,
        cited=Cited("no table", "confirmed"),
        made_from=at(parts[0].made_from, "materials", parts[0].material.key, word),
    )


RULE = Rule(NAME, "Woods and panels by name", "stock", 5, _judge, EXPLAIN)
