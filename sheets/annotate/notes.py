"""What a drafter writes on a view: leader notes in short capitals, and lines under its title."""

from __future__ import annotations

from fractions import Fraction

from sheets.annotate.intent import Annotated, Callout
from sheets.annotate.mirror import mirror_note, pair_name
from sheets.base.notation import Notation, format_length
from sheets.model.part import Joint, Part
from sheets.model.wall import Wall
from sheets.views.view import Seen, View

_SHAPES = ("dado", "rabbet", "groove", "saw cut", "mitre", "scribe", "notch", "bevel")
_FEW = 9  # leader notes on one view: more of them and nobody reads any


def callouts(wall: Wall, one: Annotated, by_key: dict[str, Part]) -> tuple[Callout, ...]:
    """Return the leader notes of a view.

    In details each subject with its material and those of its joints that the detail measures; on the
    elevation and sections what others build, backers and scribes.
    """
    view = one.view
    if view.kind == "detail":
        return _of_detail(wall, one, by_key)
    if view.kind in ("elevation", "section"):
        return _of_whole(wall, view, by_key)
    return ()


def view_notes(wall: Wall, view: View) -> tuple[str, ...]:
    """Return the lines under a view's title."""
    lines: list[str] = []
    mirrored = mirror_note(wall)
    if mirrored and view.kind in ("elevation", "plan"):
        lines.append(mirrored)
    alike = _alike_elsewhere(wall, view)
    if alike:
        lines.append("ALSO AT " + ", ".join(alike))
    if view.kind == "elevation" and any(station.verify for station in wall.stations):
        lines.append("\u00b1, V.I.F.: VERIFY IN FIELD BEFORE CUTTING")
    return tuple(lines)


def material_words(part: Part) -> str:
    """Return a part's material as a note says it: WHITE OAK, QUARTER SAWN."""
    material = part.material
    words = [material.name]
    if material.kind == "panel" and material.face:
        words.append(f"{material.face} face")
    if material.kind == "wood" and material.cut:
        words.append(material.cut)
    return ", ".join(words).upper()


def joint_words(joint: Joint, notation: Notation) -> str:
    """Return a joint as a note says it: (2) SAW CUTS 1/8" x 1/4" DEEP, GLUE."""
    words = joint.kind.upper()
    if joint.count > 1:
        words = f"({joint.count}) {words}S"
    if joint.width is not None and joint.depth is not None:
        words += f" {size_words(joint.width, notation)} x {size_words(joint.depth, notation)} DEEP"
    elif joint.depth is not None:
        words += f" {size_words(joint.depth, notation)} DEEP"
    elif joint.width is not None:
        words += f" {size_words(joint.width, notation)} WIDE"
    return words + (f", {joint.fastening.upper()}" if joint.fastening else "")


def _alike_elsewhere(wall: Wall, view: View) -> tuple[str, ...]:
    # The mirrored side needs no word of its own: the elevation says that it is mirrored.
    components = {component.key: component for component in wall.components}
    names: list[str] = []
    for owner in view.also:
        component = components.get(owner)
        if owner != view.subject and (component is None or not component.twin):
            names.append(pair_name(component) if component else owner.upper())
    return tuple(dict.fromkeys(names))


def _others_words(part: Part) -> tuple[str, ...]:
    material = material_words(part)
    name = part.name.upper()
    if "BY OTHERS" in f"{name}, {material}":
        return (name, "BY OTHERS") if "BY OTHERS" not in name else (name,)
    return (f"{name}, {material}", "BY OTHERS")


def _of_detail(wall: Wall, annotated: Annotated, by_key: dict[str, Part]) -> tuple[Callout, ...]:
    view = annotated.view
    sizes = {gap.b - gap.a for string in annotated.strings for gap in string.gaps}
    found: list[Callout] = []
    said: set[tuple[str, ...]] = set()
    seen = {one.part: one for one in view.seen}
    for key in view.subjects:
        one, part = seen.get(key), by_key.get(key)
        if one is None or part is None or one.how == "hidden":
            continue
        joints = [joint_words(j, wall.notation) for j in part.joints if _is_shown(j, sizes, view.subjects)]
        text = (f"{part.name.upper()}, {material_words(part)}", *dict.fromkeys(joints))
        if text not in said and len(found) < _FEW:
            said.add(text)
            found.append(Callout(f"note/{key}", text, one.spot, key))
    for one in view.seen:
        part = by_key.get(one.part)
        if part is None or part.maker != "others" or one.how == "hidden" or one.part in view.subjects:
            continue
        text = _others_words(part)
        if text not in said and len(found) < _FEW:
            said.add(text)
            found.append(Callout(f"note/{one.part}", text, one.spot, one.part))
    return tuple(found)


def _is_shown(joint: Joint, sizes: set[Fraction], subjects: tuple[str, ...]) -> bool:
    # A joint is spoken of where its shape is measured and its mate is there.
    said = [size for size in (joint.width, joint.depth) if size is not None]
    here = not joint.mate or joint.mate in subjects
    return joint.kind in _SHAPES and here and bool(said) and all(size in sizes for size in said)


def _of_whole(wall: Wall, view: View, by_key: dict[str, Part]) -> tuple[Callout, ...]:
    found: list[Callout] = []
    largest: dict[tuple[str, ...], tuple[Fraction, Seen]] = {}
    for one in view.seen:
        part = by_key.get(one.part)
        if part is None or one.how == "hidden":
            continue
        text: tuple[str, ...]
        if part.maker == "others":
            text = _others_words(part)
        elif any(joint.kind == "scribe" for joint in part.joints) and view.kind == "elevation":
            text = ("SCRIBE TO WALL, V.I.F.",)
        elif part.role.startswith("backer") and view.kind == "elevation" and not part.twin:
            text = (f"BACKER, {material_words(part)}",)
        else:
            continue
        area = (one.box.u1 - one.box.u0) * (one.box.v1 - one.box.v0)
        if text not in largest or area > largest[text][0]:
            largest[text] = (area, one)
    for said, (_, one) in sorted(largest.items()):
        found.append(Callout(f"note/{one.part}", said, one.spot, one.part))
    return tuple(found[:_FEW])


def size_words(length: Fraction, notation: Notation) -> str:
    """Return a size as it stands in a sentence: 5 1/2", 140 mm."""
    text = format_length(length, notation).plain
    return f"{text} mm" if notation.unit == "mm" else text
