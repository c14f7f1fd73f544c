"""What is said elsewhere in the spec is copied to where it holds, before the types are checked.

A piece without a material takes the one of the thing it belongs to; a thing without one takes the first
material of the right kind; what is hidden takes `secondary`. What is written is never changed, and what is of
the wrong kind is left for the types to refuse.
"""

from dataclasses import dataclass
from fractions import Fraction

from sheets.base.length import LengthError, Unit, read_length
from sheets.grammar.casework import OtherSide
from sheets.grammar.room import MATERIAL_KINDS, Panel
from sheets.grammar.schema import Spec

Tree = dict[str, object]

STOCK_MATERIALS: Tree = {
    "oak": {"species": "white oak"},
    "ply": {"panel": "veneer-core plywood", "face": "white oak"},
    "slate": {"masonry": "slate"},
}
"""The materials of a spec that names none."""

SECONDARY = "secondary"
"""The name of the material of which everything hidden is made."""
_SECONDARY: dict[str, Tree] = {
    "inch": {"species": "yellow-poplar", "finish": ""},
    "mm": {"species": "Scots pine", "finish": ""},
}
"""What that is where the spec does not say (common practice)."""

_SHEETS = {"inch": ("arch-c", "architect-strip", "ansi-a"), "mm": ("iso-a2", "iso-7200", "iso-a4")}
_BOARD_WIDTHS = {"inch": ["6", "8"], "mm": ["75", "100", "125", "150", "175", "200", "225"]}
_LABEL_GRID = {"inch": "2-5/8x1-3x10", "mm": "70x37-3x8"}
_DIMENSIONS = {"inch": "feet-inches", "mm": "mm"}


def inherited(tree: Tree, language: type[Spec]) -> Tree:
    """Return a copy of the tree of a spec in this language with what it inherits written in. The tree's
    values are str, dict, list.
    """
    spec = dict(tree)
    unit: Unit = "mm" if spec.get("units") == "mm" else "inch"
    size, titleblock, paper = _SHEETS[unit]
    spec.setdefault("dimensions", _DIMENSIONS[unit])
    _fill(spec, "sheet", size=size, titleblock=titleblock)
    for section in ("labels", "patterns"):
        _fill(spec, section, paper=paper)
    _fill(spec, "labels", grid=_LABEL_GRID[unit])
    _fill(spec, "stock", board_widths=_BOARD_WIDTHS[unit])
    spec.setdefault("materials", STOCK_MATERIALS)
    materials = spec["materials"]
    if isinstance(materials, dict) and SECONDARY not in materials:
        spec["materials"] = {**materials, SECONDARY: _SECONDARY[unit]}
    solid, panel, masonry = (_first(materials, kind) for kind in ("species", "panel", "masonry"))
    _room(spec, solid, unit)
    first = {"wood": solid or panel, "masonry": masonry}
    for section, kinds in language.sections().items():
        for words in kinds:
            _default_material(spec, section, first.get(words.made_of))
    _mantel(spec)
    _overmantel(spec, solid or panel)
    cases = spec.get("cases")
    if isinstance(cases, list):
        stock = _Stock(solid, panel, _panels(spec["materials"], unit))
        spec["cases"] = [_case(case, stock) for case in cases]
    return spec


def _fill(parent: Tree, key: str, **values: object) -> None:
    section = parent.get(key, {})
    if isinstance(section, dict):
        parent[key] = {**section, **{k: v for k, v in values.items() if k not in section}}


def _first(materials: object, kind: str) -> str | None:
    if not isinstance(materials, dict):
        return None
    said = ((name, one) for name, one in materials.items() if name != SECONDARY)
    return next((name for name, one in said if _kind(one) == kind), None)


def _kind(said: object) -> str | None:
    return next((key for key in MATERIAL_KINDS if key in said), None) if isinstance(said, dict) else None


def _default_material(parent: Tree, key: str, material: object) -> None:
    section = parent.get(key)
    if isinstance(section, dict) and material is not None and "material" not in section:
        parent[key] = {**section, "material": material}


def _room(spec: Tree, solid: str | None, unit: Unit) -> None:
    room = spec.get("room")
    if not isinstance(room, dict):
        return
    room = dict(room)
    _default_material(room, "baseboard", solid)
    room["ceiling"] = _ceiling(room.get("ceiling", {}), unit)
    spec["room"] = room


def _ceiling(ceiling: object, unit: Unit) -> object:
    # A vault may be given by its rise instead of the ceiling's height. Both are left for the types to refuse.
    vault = ceiling.get("vault") if isinstance(ceiling, dict) else None
    if not (
        isinstance(ceiling, dict) and isinstance(vault, dict) and "rise" in vault and "height" not in ceiling
    ):
        return ceiling
    lengths = [_read(vault.get(key), unit) for key in ("spring", "rise")]
    if any(length is None or length <= 0 for length in lengths):
        return ceiling
    height = sum((length for length in lengths if length is not None), Fraction(0))
    return {**ceiling, "height": height, "vault": {k: v for k, v in vault.items() if k != "rise"}}


def _read(written: object, unit: Unit) -> Fraction | None:
    try:
        return read_length(written, unit=unit) if isinstance(written, str) else None
    except LengthError:
        return None


def _mantel(spec: Tree) -> None:
    mantel = spec.get("mantel")
    if not isinstance(mantel, dict):
        return
    mantel = dict(mantel)
    own = mantel.get("material")
    layers = mantel.setdefault("layers", {"cap": {}, "fascia": {}})
    if isinstance(layers, dict):
        layers = dict(layers)
        for key in ("cap", "fascia", "sub_fascia"):
            _default_material(layers, key, own)
        mantel["layers"] = layers
    for key in ("posts", "corbels", "arch"):
        _default_material(mantel, key, own)
    arch = mantel.get("arch")
    if isinstance(arch, dict):
        mantel["arch"] = arch = dict(arch)
        _default_material(arch, "lining", arch.get("material"))
    spec["mantel"] = mantel


def _overmantel(spec: Tree, material: str | None) -> None:
    mantel = spec.get("mantel")
    own = mantel.get("material", material) if isinstance(mantel, dict) else material
    _default_material(spec, "overmantel", own)
    panelling = spec.get("overmantel")
    if isinstance(panelling, dict):
        spec["overmantel"] = panelling = dict(panelling)
        panelling.setdefault("panel", {})
        _default_material(panelling, "panel", panelling.get("material"))


@dataclass(frozen=True, slots=True)
class _Stock:
    """The first solid wood and the first panel by name, and the thickness of each panel as it is written."""

    solid: str | None
    panel: str | None
    panels: Tree


def _panels(materials: object, unit: Unit) -> Tree:
    if not isinstance(materials, dict):
        return {}
    usual = Panel.model_fields["thickness"].default
    own = usual.mm if unit == "mm" else usual.inch
    panels = {name: said for name, said in materials.items() if _kind(said) == "panel"}
    return {name: said.get("thickness", own) for name, said in panels.items()}


def _case(case: object, stock: _Stock) -> object:
    if not isinstance(case, dict):
        return case
    solid = stock.solid or stock.panel
    holder: Tree = {"case": case}
    _default_material(holder, "case", stock.panel or stock.solid)
    filled = holder["case"]
    assert isinstance(filled, dict)
    filled = dict(filled)
    _default_material(filled, "frame", solid)
    frame = filled.get("frame")
    face = frame.get("material") if isinstance(frame, dict) else solid
    backer = filled.get("backer")
    if isinstance(backer, dict) and backer.get("kind") == "plain":
        _default_material(filled, "backer", stock.panel)
    for key in ("plinth", "shelves", "cap", "backer"):
        _default_material(filled, key, face)
        _own_thickness(filled, key, stock)
    shelves = filled.get("shelves")
    if isinstance(shelves, dict):
        shelves = _edged(shelves, stock)
        filled["shelves"] = shelves
        spacing = shelves.get("spacing")
        if isinstance(spacing, list) and "count" not in shelves:
            filled["shelves"] = {**shelves, "count": str(max(0, len(spacing) - 1))}
    if isinstance(filled.get("right"), dict):
        filled["right"] = _other_side(filled, stock)
    return filled


def _own_thickness(case: Tree, key: str, stock: _Stock) -> None:
    """Shelves and a back of a panel are as thick as it is."""
    section = case.get(key)
    if key not in ("shelves", "backer") or not isinstance(section, dict) or "thickness" in section:
        return
    material = section.get("material")
    if isinstance(material, str) and material in stock.panels:
        case[key] = {**section, "thickness": stock.panels[material]}


def _edged(shelves: Tree, stock: _Stock) -> Tree:
    """The front edge of a panel is covered, by a lip of the first solid wood where nothing else is said."""
    material = shelves.get("material")
    if not isinstance(material, str) or material not in stock.panels:
        return shelves
    edge = shelves.get("edge", {} if stock.solid else "veneer")
    if isinstance(edge, dict) and "material" not in edge and stock.solid:
        edge = {**edge, "material": stock.solid}
    return {**shelves, "edge": edge}


def _other_side(case: Tree, stock: _Stock) -> object:
    # What is said of the right is laid over what is said of the left; a list of spacings says its own count.
    left = {key: case[key] for key in OtherSide.model_fields if key in case}
    right = case["right"]
    assert isinstance(right, dict)
    shelves = right.get("shelves")
    if isinstance(shelves, dict) and isinstance(left.get("shelves"), dict):
        base = dict(left["shelves"])  # type: ignore[call-overload]
        if isinstance(shelves.get("spacing"), list):
            base.pop("count", None)
        elif "count" in shelves and isinstance(base.get("spacing"), list):
            base.pop("spacing")
        left["shelves"] = base
    return _case(_laid_over(left, right), stock)


def _laid_over(left: Tree, right: Tree) -> Tree:
    found = dict(left)
    for key, value in right.items():
        under = found.get(key)
        found[key] = (
            _laid_over(under, value) if isinstance(under, dict) and isinstance(value, dict) else value
        )
    return found
