"""Small walls built by hand: each test places only the pieces that its rule reads. Sizes in inches."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

import pytest

from sheets.base.length import inch
from sheets.base.notation import Notation
from sheets.checks.finding import Finding, RuleReport
from sheets.checks.run import rule_named
from sheets.geometry.solid import Solid, box
from sheets.model.fire import BesideRow, ListingRow, Manual, MasonryWork
from sheets.model.kind import Kind
from sheets.model.part import Bend, Curve, Extent, Joint, Material, Part, Provenance
from sheets.model.purpose import NO_PURPOSE, Bears, Purpose
from sheets.model.wall import Component, Opening, Paper, Project, Room, Wall
from tests.made_settings import settings

OAK = Material("oak", "wood", "red oak")
QUARTER = Material("quarter", "wood", "white oak", cut="quarter sawn")
PLY = Material("ply", "panel", "veneer-core plywood", face="white oak", thickness=inch("23/32"))
MDF = Material("mdf", "panel", "MDF", thickness=inch("3/4"))
SLATE = Material("slate", "masonry", "slate")
GYPSUM = Material("gypsum", "gypsum", "fire-rated gypsum board")
MATERIALS = {each.key: each for each in (OAK, QUARTER, PLY, MDF, SLATE, GYPSUM)}
KINDS = {
    "case": Kind("case", "C", "stood up"),
    "mantel": Kind("mantel", "M", about_opening=True, mantel_shelf=True, lies_on_masonry=True),
    "trim": Kind("trim", "T", lies_on_masonry=True),
    "surround": Kind("surround", arrives="by others", about_opening=True),
}
DOES = {
    "shelf": Purpose(
        Bears(("work/side-left", "work/side-right")),
        bounds=("floor", "ceiling"),
        lines=("level",),
        face="shelf",
    ),
    "side": Purpose(bounds=("end",)),
    "bottom": Purpose(bounds=("floor",)),
    "top": Purpose(bounds=("ceiling",)),
    "backer board": Purpose(bounds=("back",), member="board"),
    "panel": Purpose(member="panel"),
    "stile": Purpose(lines=("upright",), face="frame", member="stile"),
    "nailing rail": Purpose(anchors=True),
    "cap": Purpose(lines=("level",), face="cap", on_site=True),
    "cap return": Purpose(on_site=True),
    "cap board": Purpose(on_site=True),
    "fascia": Purpose(lines=("level",), face="fascia"),
    "corbel": Purpose(face="corbel"),
    "arch rail": Purpose(face="arch"),
    "post": Purpose(lines=("upright",), face="post"),
    "plinth": Purpose(lines=("level",)),
    "surround": Purpose(lines=("level", "upright"), face="surround", fire="facing"),
    "hearth": Purpose(lines=("level", "upright"), fire="hearth"),
    "baseboard": Purpose(lines=("level",), runs=True),
    "trim": Purpose(fire="trim"),
}
"""What the pieces of these tests are for, as components would say."""
Number = int | str | Fraction
Span = tuple[Number, Number]


@dataclass(frozen=True)
class Kit:
    """What tests build walls with."""

    def part(
        self,
        role: str,
        x: Span,
        y: Span,
        z: Span,
        *,
        axes: str = "yzx",
        material: Material | str = OAK,
        assembly: str = "work",
        key: str = "",
        joints: tuple[Joint, ...] = (),
        curve: Curve | None = None,
        maker: Any = "shop",
        notes: tuple[str, ...] = (),
        twin: str = "",
        line: int = 7,
        solid: Solid | None = None,
        bend: Bend | None = None,
    ) -> Part:
        """A plain block. axes: thickness, width and length axis, as resolve says them."""
        sizes = [inch(value) for span in (x, y, z) for value in span]
        t, w, length = axes
        return Part(
            key or f"{assembly}/{role.replace(' ', '-')}",
            role.capitalize(),
            role,
            assembly,
            MATERIALS[material] if isinstance(material, str) else material,
            Extent(*sizes),
            solid or box(*(float(size) for size in sizes)),
            t,
            w,
            length,  # type: ignore[arg-type]
            joints=joints,
            curve=curve,
            bend=bend,
            maker=maker,
            notes=notes,
            twin=twin,
            made_from=Provenance(("work", role), line, 3),
            does=DOES.get(role, NO_PURPOSE),
        )

    def component(
        self, kind: str, x: Span, y: Span, z: Span, *, key: str = "work", twin: str = ""
    ) -> Component:
        return Component(
            key,
            KINDS[kind],
            kind.upper(),
            Extent(*(inch(v) for span in (x, y, z) for v in span)),
            twin=twin,
            made_from=Provenance(("work",), 5, 1),
        )

    def opening(
        self,
        width: Number,
        height: Number,
        *,
        sill: Number = 0,
        face: Number = 0,
        appliance: str = "masonry",
        listing: tuple[tuple[Number, Number], ...] = (),
        facing: tuple[Number, Number] | None = None,
        legs: tuple[tuple[Number, Number], ...] = (),
        side_trim: tuple[tuple[Number, Number], ...] = (),
        masonry: tuple[Number, Number, Number] | None = None,
        said: bool = True,
        **copied: Any,
    ) -> Opening:
        """masonry: beside, above and behind the inside of the lining. copied: what else the manual says."""
        half, low = inch(width) / 2, inch(sill)
        hole = Extent(-half, half, inch(face) - inch(14), inch(face), low, low + inch(height))
        manual = Manual(
            mantel=tuple(ListingRow(inch(projection), inch(above)) for projection, above in listing),
            legs=tuple(BesideRow(inch(projection), inch(beside)) for projection, beside in legs),
            side_trim=tuple(BesideRow(inch(projection), inch(beside)) for projection, beside in side_trim),
            facing_above=inch(facing[0]) if facing else None,
            facing_beside=inch(facing[1]) if facing else None,
            **copied,
        )
        work = None
        if masonry is not None:
            beside, above, behind = (inch(value) for value in masonry)
            body = Extent(
                -half - beside, half + beside, hole.y0 - behind, hole.y1, hole.z0 * 0, hole.z1 + above
            )
            work = MasonryWork(body, said, None, Provenance(("fireplace", "masonry"), 4, 1))
        return Opening(hole, appliance, manual, work, Provenance(("fireplace",), 3, 1))

    def wall(
        self,
        *parts: Part,
        components: tuple[Component, ...] = (),
        opening: Opening | None = None,
        width: Number = 200,
        height: Number = 100,
        spring: Number | None = None,
        doorway: tuple[Number, Number] | None = None,
        units: Any = "inch",
        checks: dict[str, object] | None = None,
        stock: dict[str, object] | None = None,
        out_of_plumb: Number = "1/4",
        codes: dict[str, object] | None = None,
    ) -> Wall:
        grid = inch("1/16") if units == "inch" else Fraction(1)
        room = Room(
            inch(width),
            inch(height),
            inch(spring) if spring is not None else None,
            (inch(doorway[0]), inch(doorway[1])) if doorway else None,
            out_of_plumb=inch(out_of_plumb),
        )
        return Wall(
            Project("Test"),
            Paper("arch-c", "plain"),
            units,
            Notation("feet-inches" if units == "inch" else "mm", grid),
            grid,
            room,
            parts,
            components,
            (),
            (),
            (),
            (),
            opening,
            settings=settings(units, checks=checks or {}, stock=stock or {}, codes=codes or {}),
        )

    def report(self, rule: str, wall: Wall) -> RuleReport:
        found = rule_named(rule)
        assert found is not None, rule
        return found.check(wall)

    def findings(self, rule: str, wall: Wall) -> tuple[Finding, ...]:
        """What a rule finds; it must have looked at something, or the test would prove nothing."""
        report = self.report(rule, wall)
        assert report.looked_at > 0
        return report.findings

    def severities(self, rule: str, wall: Wall) -> list[str]:
        return [found.severity for found in self.findings(rule, wall)]

    def metric(self, wall: Wall) -> Wall:
        """The same wall as one who thinks in millimetres would have written it."""
        return replace(wall, units="mm", notation=Notation("mm", Fraction(1)), grid=Fraction(1))


@pytest.fixture(scope="session")
def kit() -> Kit:
    return Kit()
