"""Specs for property tests: valid walls from all over the language, as the tree of a YAML file and as its
text.

`walls()` draws trees whose values are text, as a person writes them; `yaml_text(tree)` is the file. All
that is drawn is within reach of a shop: the reader accepts it and it can be built.
"""

from fractions import Fraction

import yaml
from hypothesis import strategies as st

Tree = dict[str, object]


class Lengths:
    """Draws lengths in inches (on sixteenths) or the like in whole millimetres (25 mm to the inch)."""

    def __init__(self, draw, unit: str) -> None:
        self.draw, self.unit = draw, unit

    def between(self, low: float, high: float) -> Fraction:
        """Draw a length from low to high inches, in the unit of the spec."""
        step = 16 if self.unit == "inch" else 25
        n = self.draw(st.integers(int(low * step), max(int(low * step), int(high * step))))
        return Fraction(n, 16) if self.unit == "inch" else Fraction(n)

    def of(self, inches: float) -> Fraction:
        return Fraction(inches).limit_denominator(16) if self.unit == "inch" else Fraction(round(inches * 25))


def text(length: Fraction) -> str:
    """Return a length as it is written: 5, 5-1/8, 3/4, 130."""
    whole, rest = divmod(abs(length), 1)
    sign = "-" if length < 0 else ""
    if not rest:
        return f"{sign}{whole}"
    return f"{sign}{whole}-{rest}" if whole else f"{sign}{rest}"


def yaml_text(tree: Tree) -> str:
    """Return the tree as a YAML file."""
    return yaml.safe_dump(tree, sort_keys=False, allow_unicode=True)


@st.composite
def walls(draw) -> Tree:
    """Draw one valid spec: units, room, middle of the wall and cases, each in many forms."""
    unit = draw(st.sampled_from(["inch", "mm"]))
    size = Lengths(draw, unit)
    tree: Tree = {"project": {"title": "Drawn at random"}, "units": unit, "materials": _materials(unit)}
    middle_kind = draw(
        st.sampled_from(["none", "none", "whole", "whole", "mantel", "surround", "overmantel"])
    )
    middle, half, top = _middle(draw, size, middle_kind)
    beside = size.between(24, 50)
    room_half = half + beside if half else size.between(40, 110)
    spring = max(top + size.of(6), size.between(90, 100))
    ceiling: Tree = {"height": text(spring)}
    if draw(st.booleans()):
        ceiling = {"height": text(spring + size.between(2, 14)), "vault": {"spring": text(spring)}}
    room: Tree = {"width": text(2 * room_half), "ceiling": ceiling}
    if draw(st.booleans()):
        room["baseboard"] = {
            "height": text(size.between(3, 7)),
            "thickness": text(size.between(0.5, 0.75)),
            "stops_at": draw(st.sampled_from(["surround", "cases"])),
        }
    tree["room"] = room
    tree.update(middle)
    if "mantel" in middle and draw(st.booleans()):
        tree["overmantel"] = _overmantel(draw, size, 2 * half)
    cases = _cases(draw, size, bool(half), room_half, beside, spring)
    if middle_kind == "none" and not cases:
        cases = [{"name": "only", **_case(draw, size, spring), "width": "fill"}]
    if cases:
        tree["cases"] = cases
        if "baseboard" in room and draw(st.booleans()):
            # Flush plinths as high as the baseboard, which then runs across them and turns their free ends.
            room["baseboard"]["stops_at"] = "surround"
            for case in cases:
                case["plinth"] = {"height": room["baseboard"]["height"]}
    return tree


EXTREMES = (
    "1/64",
    "0",
    "1/16",
    "1/2",
    "1",
    "3",
    "7",
    "13",
    "30",
    "61",
    "100",
    "400",
    "1.5 mm",
    "33 mm",
    "301 mm",
)


@st.composite
def bent_walls(draw) -> Tree:
    """Draw a wall of which one or two lengths are put far out of the ordinary; the reader may refuse it."""
    tree = draw(walls())
    for _ in range(draw(st.integers(1, 2))):
        holder, key = draw(st.sampled_from(list(_lengths(tree))))
        holder[key] = draw(st.sampled_from(EXTREMES))
    for case in tree.get("cases", []):
        case["bays"] = draw(st.sampled_from(["1", "2", "5"]))
    return tree


def _lengths(tree: object):
    """Yield (mapping or list, key) of every length in the tree."""
    items = tree.items() if isinstance(tree, dict) else enumerate(tree) if isinstance(tree, list) else ()
    for key, value in items:
        if isinstance(value, (dict, list)):
            yield from _lengths(value)
        elif key in _LENGTH_KEYS or isinstance(key, int):
            yield tree, key


_LENGTH_KEYS = frozenset(
    (
        "width",
        "height",
        "depth",
        "thickness",
        "spring",
        "sill",
        "projection",
        "above",
        "beside",
        "top",
        "breast",
    )
    + (
        "overhang",
        "setback",
        "rise",
        "rail",
        "chord",
        "scribe",
        "stile",
        "dado",
        "face",
        "gap",
        "length",
        "offset",
    )
    + ("graduated",)
)


def _materials(unit: str) -> Tree:
    panel = {"panel": "veneer-core plywood", "face": "white oak"}
    return {
        "oak": {"species": "white oak", "cut": "quarter sawn"},
        "walnut": {"species": "black walnut"},
        "ply": {**panel, "thickness": "23/32" if unit == "inch" else "18"},
        "slate": {"masonry": "slate"},
    }


def _middle(draw, size: Lengths, kind: str) -> tuple[Tree, Fraction, Fraction]:
    """Return the sections at the middle of the wall, half the width they take and the height of their top."""
    if kind == "none":
        return {}, Fraction(0), Fraction(0)
    width, height, sill = size.between(24, 60), size.between(10, 32), draw(st.sampled_from([0, 4, 18]))
    sill_length = size.of(sill)
    around = size.between(9, 16)
    found: Tree = {}
    whole = width + 2 * around
    if kind != "overmantel":
        found["fireplace"] = {
            "opening": {"width": text(width), "height": text(height), "depth": text(size.between(6, 20))},
            "sill": text(sill_length),
            "appliance": draw(st.sampled_from(["masonry", "listed gas", "listed electric"])),
        }
    if kind in ("whole", "surround"):
        surround: Tree = {"material": "slate", "width": text(whole)}
        if draw(st.booleans()):
            thick = size.between(0.75, 2)
            surround["hearth"] = {"projection": text(size.between(8, 20)), "thickness": text(thick)}
        surround["to_floor"] = "true" if "hearth" in surround or draw(st.booleans()) else "false"
        if kind == "surround":
            surround["height"] = text(sill_length + height + around)
        found["surround"] = surround
    top = sill_length + height + around
    if kind != "surround":
        mantel, top = _mantel(draw, size, sill_length + height, around, width)
        if kind != "whole":
            mantel["width"] = text(whole)
        found["mantel"] = mantel
    return found, whole / 2, top


def _mantel(
    draw, size: Lengths, opening_top: Fraction, around: Fraction, width: Fraction
) -> tuple[Tree, Fraction]:
    breast = size.between(3, 7)
    layers: Tree = {}
    high = Fraction(0)
    if draw(st.booleans()):
        thick = size.between(1, 2)
        layers["cap"] = {"thickness": text(thick), "overhang": text(size.between(0, 2)), "material": "walnut"}
        high += thick
    if not layers or draw(st.booleans()):
        tall = size.between(3, 8)
        layers["fascia"] = {"height": text(tall)}
        if draw(st.booleans()):
            layers["fascia"]["saw_cuts"] = {"count": str(draw(st.integers(1, 3)))}
        high += tall
    if draw(st.booleans()):
        tall = size.between(1.5, 3)
        layers["sub_fascia"] = {"height": text(tall), "setback": text(size.between(0.25, 0.75))}
        high += tall
    mantel: Tree = {
        "breast": text(breast),
        "layers": layers,
        "material": "oak",
        "returns": draw(st.sampled_from(["mitred", "square"])),
    }
    post = around - size.between(2, 4)
    under = size.between(12, 16)
    if draw(st.booleans()):
        mantel["posts"] = {"width": text(post)}
    if draw(st.booleans()):
        mantel["corbels"] = {
            "width": text(post),
            "height": text(size.between(6, 11)),
            "projection": text(size.between(1.25, 2)),
            "curve": {"rise": text(size.between(0, 0.75))},
        }
    if draw(st.booleans()):
        mantel["arch"] = {
            "rise": text(size.between(0.5, 2)),
            "rail": text(size.between(4, 8)),
            "chord": text(width - size.between(0, 4)),
        }
        if "posts" in mantel and draw(st.booleans()):
            mantel["arch"]["lining"] = {
                "thickness": text(size.between(0.25, 0.75)),
                "laminations": str(draw(st.integers(1, 3))),
            }
    top = opening_top + under + high
    mantel["top"] = text(top)
    return mantel, top


def _overmantel(draw, size: Lengths, width: Fraction) -> Tree:
    """Panelling narrower than the mantel, so that caps of cases beside it are clear of it."""
    return {
        "height": text(size.between(5, 6)),
        "width": text(width - size.of(8)),
        "panels": str(draw(st.integers(1, 3))),
        "stile": text(size.between(1.5, 3)),
        "rail": text(size.between(1, 1.5)),
        "mullion": text(size.between(1.5, 3)),
        "panel": {"gap": text(size.between(0, 0.125)), "let_in": text(size.between(0.25, 0.375))},
    }


def _cases(
    draw, size: Lengths, has_middle: bool, room_half: Fraction, beside: Fraction, spring: Fraction
) -> list[Tree]:
    kinds = ["none", "mirrored", "left", "right", "both", "pair"]
    kind = draw(st.sampled_from(kinds if has_middle else [*kinds[1:], "centre", "offset"]))
    made: list[Tree] = []
    free = beside if has_middle else room_half
    if kind == "mirrored":
        made.append({"name": "flanking", "mirrored": "true", "width": "fill"})
    elif kind == "left":
        made.append({"name": "near", "at": "left", "width": _width(draw, size, free)})
    elif kind == "right":
        made.append({"name": "far", "at": "right", "width": _width(draw, size, free)})
    elif kind == "both":
        made += [
            {"name": "near", "at": "left", "width": "fill"},
            {"name": "far", "at": "right", "width": _width(draw, size, free)},
        ]
    elif kind == "pair":
        made += [
            {"name": "end", "mirrored": "true", "width": text(size.of(11))},
            {"name": "inner", "mirrored": "true", "width": "fill"},
        ]
    elif kind == "centre":
        made.append({"name": "middle", "at": "centre", "width": text(free)})
    elif kind == "offset":
        made.append({"name": "aside", "at": {"offset": text(-free / 4)}, "width": text(free)})
    return [{**_case(draw, size, spring), **case} for case in made]


def _width(draw, size: Lengths, free: Fraction) -> str:
    return "fill" if draw(st.booleans()) else text(free - size.between(2, 8))


def _case(draw, size: Lengths, spring: Fraction) -> Tree:
    case: Tree = {
        "height": text(spring - size.between(4, 40)),
        "depth": text(size.between(9, 16)),
        "scribe": text(size.between(0, 1)),
        "material": "ply",
    }
    if draw(st.booleans()):
        case["frame"] = {
            "stile": text(size.between(1.25, 2)),
            "rail": text(size.between(1.25, 3)),
            "material": "oak",
        }
    if draw(st.booleans()):
        case["plinth"] = {
            "height": text(size.between(3, 6)),
            "setback": text(draw(st.sampled_from([0, 2])) * size.of(1)),
        }
    if draw(st.booleans()):
        case["cap"] = {
            "thickness": text(size.between(0.75, 1.5)),
            "overhang": text(size.between(0, 1.5)),
            "material": "walnut",
            "returns": draw(st.sampled_from(["mitred", "square"])),
        }
        if draw(st.booleans()):
            case["cap"]["saw_cuts"] = {"count": "1"}
    if draw(st.booleans()):
        case["backer"] = {
            "face": text(size.between(3, 7)),
            "direction": draw(st.sampled_from(["vertical", "horizontal"])),
        }
        if draw(st.integers(0, 2)) == 0:
            case["backer"] = {"kind": "plain", "material": "ply"}
    if draw(st.booleans()):
        case["shelves"] = _shelves(draw, size)
    if draw(st.integers(0, 3)) == 0:
        case["bays"] = "2"
        if "frame" in case:
            case["frame"]["stile"] = text(size.between(1.25, 1.5))
    return case


def _shelves(draw, size: Lengths) -> Tree:
    count = draw(st.integers(0, 4))
    spacing: object = draw(st.sampled_from(["even", "graduated", "ratio", "list"]))
    if spacing == "graduated":
        spacing = {"graduated": text(size.between(0.25, 0.75))}
    elif spacing == "ratio":
        spacing = {"ratio": draw(st.sampled_from(["1.05", "1.08", "13/12"]))}
    elif spacing == "list":
        spacing = ["fill", *([text(size.between(5, 6))] * (count // 2)), *(["fill"] * (count - count // 2))]
    found: Tree = {"count": str(count), "spacing": spacing, "material": "oak"}
    kind = draw(st.sampled_from(["solid", "solid", "lip", "thin lip", "veneer"]))
    if kind == "solid":
        return {**found, "thickness": text(size.between(0.75, 1.25))}
    edges = {"lip": {}, "thin lip": {"thickness": text(size.of(0.25))}, "veneer": "veneer"}
    return {**found, "material": "ply", "edge": edges[kind]}
