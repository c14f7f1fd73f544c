"""Every material that is named is there, and is of a kind that the piece can be made of."""

from collections.abc import Iterator
from fractions import Fraction

from pydantic import BaseModel

from sheets.base.diagnostics import SpecPath, nearest, spec_path
from sheets.base.length import MM_PER_INCH
from sheets.base.source import Source
from sheets.grammar.inherit import SECONDARY
from sheets.grammar.measure import written
from sheets.grammar.room import Masonry, OtherMaterial, Panel, SolidWood
from sheets.grammar.rules.fault import Findings, error
from sheets.grammar.schema import Backer, Case, Spec

_KIND_NAMES: dict[type[object], str] = {
    SolidWood: "solid wood",
    Panel: "a panel",
    Masonry: "masonry",
    OtherMaterial: "another material",
}
_WOOD = (SolidWood, Panel)
_LEAST = {"inch": MM_PER_INCH / 2, "mm": Fraction(12)}
"""Thinner stock takes no screw in its edge (common practice)."""
_SOLID_ONLY = frozenset(("frame", "cap", "backer", "corbels", "arch", "edge"))


def check(spec: Spec, source: Source) -> Findings:
    """Yield an error for each material that is missing or of the wrong kind."""
    for path, name, holder in _named(spec, ()):
        material = spec.materials.get(name)
        owner = path[:-1]
        if material is None:
            near = nearest(name, spec.materials)
            listed = ", ".join(spec.materials) or "none"
            help_text = (f"Did you mean {near}? " if near else "") + f"The materials of this spec: {listed}."
            yield error(source, path, "missing-material", f"there is no material '{name}'", help_text)
        elif not isinstance(material, _allowed(owner, holder)):
            wanted = " or ".join(_KIND_NAMES[kind] for kind in _allowed(owner, holder))
            yield error(
                source,
                path,
                "wrong-material",
                f"'{name}' is {_KIND_NAMES[type(material)]}; {spec_path(owner)} is made of {wanted}",
            )
    yield from _secondary(spec, source)
    yield from _panel_shelves(spec, source)


def _secondary(spec: Spec, source: Source) -> Findings:
    stock = spec.materials[SECONDARY]
    if not isinstance(stock, _WOOD):
        yield error(
            source,
            ("materials", SECONDARY),
            "wrong-material",
            f"'{SECONDARY}' is {_KIND_NAMES[type(stock)]}; what is hidden is made of solid wood or a panel",
        )
    elif stock.thickness < _LEAST[spec.units]:
        yield error(
            source,
            ("materials", SECONDARY, "thickness"),
            "wrong-material",
            f"a rail of {written(stock.thickness, spec)} takes no screw in its edge",
            f"{written(_LEAST[spec.units], spec)} or thicker would do.",
        )


def _allowed(owner: SpecPath, holder: BaseModel) -> tuple[type[object], ...]:
    if isinstance(holder, Backer) and holder.kind == "plain":
        return (Panel,)
    if owner == ("surround",):
        return (Masonry, OtherMaterial)
    if owner[-1] in _SOLID_ONLY:
        return (SolidWood,)
    return (SolidWood, Panel, OtherMaterial) if owner[-1] == "baseboard" else _WOOD


def _named(value: object, path: SpecPath) -> Iterator[tuple[SpecPath, str, BaseModel]]:
    if isinstance(value, BaseModel):
        for name in type(value).model_fields:
            said = getattr(value, name)
            if name == "material":
                yield (*path, name), said, value
            else:
                yield from _named(said, (*path, name))
    elif isinstance(value, tuple):
        for number, item in enumerate(value):
            yield from _named(item, (*path, number))


def _panel_shelves(spec: Spec, source: Source) -> Findings:
    cases: list[tuple[SpecPath, Case]] = [(("cases", number), case) for number, case in enumerate(spec.cases)]
    cases += [((*path, "right"), case.on_the_right) for path, case in cases if case.right is not None]
    for path, case in cases:
        backer = case.backer
        sheet = spec.materials.get(backer.material) if backer else None
        if backer and isinstance(sheet, Panel) and sheet.thickness != backer.thickness:
            yield error(
                source,
                (*path, "backer", "thickness"),
                "panel-thickness",
                f"a back of the panel '{backer.material}' cannot have another thickness than it has",
                "Leave the thickness out, or name a panel that has it.",
            )
        shelves = case.shelves
        material = spec.materials.get(shelves.material) if shelves else None
        if shelves and isinstance(material, Panel) and material.thickness != shelves.thickness:
            yield error(
                source,
                (*path, "shelves", "thickness"),
                "panel-thickness",
                f"shelves of the panel '{shelves.material}' cannot have another thickness than it has",
                "Leave the thickness out, or give the shelves a solid wood.",
            )
        if shelves and shelves.edge is not None and isinstance(material, SolidWood):
            yield error(
                source,
                (*path, "shelves", "edge"),
                "wrong-material",
                f"'{shelves.material}' is solid wood: shelves of it have no edge to cover",
                "Leave the edge out, or make the shelves of a panel.",
            )
