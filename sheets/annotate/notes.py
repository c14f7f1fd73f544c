"""What a drafter writes on a view: leader notes in short capitals, and lines under its title."""

from __future__ import annotations

from fractions import Fraction

from sheets.annotate.intent import Annotated, Callout
from sheets.annotate.open_faces import end_of_leader, open_face
from sheets.annotate.twins import mirror_note, pair_name
from sheets.base.notation import Notation, size_words
from sheets.model.part import Joint, Part
from sheets.model.wall import Wall
from sheets.views.view import Seen, View

_SHAPES = ("dado", "rabbet", "groove", "saw cut", "mitre", "scribe", "notch", "bevel")
_FEW = 9  # leader notes on one view: more of them and nobody reads any
_ROOM = (Fraction(500), Fraction(150))  # mm: a face with less has no room for a note at the scale of a wall


def callouts(
    wall: Wall, sets: tuple[Annotated, ...], by_key: dict[str, Part]
) -> dict[str, tuple[Callout, ...]]:
    """Return the leader notes of each view by its id; what is said of a material is said once in the set.

    What others build is named on the elevation where its face has room for the note, else where it is cut;
    pieces of the shop in the first detail that is about them, with those of their joints that it measures. A
    detail names what others build beside its subjects, without the material.
    """
    found = _of_whole(sets, by_key)
    told: set[str] = set()
    for one in sets:
        if one.view.kind == "detail":
            found[one.view.id] = _of_detail(wall, one, by_key, told)
    return {view_id: tuple(notes[:_FEW]) for view_id, notes in found.items() if notes}


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
    if joint.where and joint.width is not None and joint.depth is not None:
        sizes = f"{size_words(joint.width, notation)} x {size_words(joint.depth, notation)}"
        words += f" {sizes} OUT OF THE {joint.where.upper()}"
    elif joint.width is not None and joint.depth is not None:
        words += f" {size_words(joint.width, notation)} x {size_words(joint.depth, notation)} DEEP"
    elif joint.depth is not None:
        words += f" {size_words(joint.depth, notation)} DEEP"
    elif joint.width is not None:
        words += f" {size_words(joint.width, notation)} WIDE"
    if joint.glued is not None:
        return f"{words}, {joint.held.upper()} {size_words(joint.glued, notation)} OF IT, THE REST FREE"
    return words + (f", {joint.held.upper()}" if joint.fastening else "")


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


def _of_detail(wall: Wall, annotated: Annotated, by_key: dict[str, Part], told: set[str]) -> list[Callout]:
    # told: names with materials that earlier details said; theirs are then the marks alone.
    view = annotated.view
    sizes = {gap.b - gap.a for string in annotated.strings for gap in string.gaps}
    found: list[Callout] = []
    said: set[tuple[str, ...]] = set()
    earlier = frozenset(told)
    for one in sorted(view.seen, key=lambda one: _order(view, one.part)):
        part = by_key.get(one.part)
        if part is None or one.how == "hidden" or len(found) >= _FEW:
            continue
        text: tuple[str, ...] = ()
        if part.maker == "others":
            text = (part.name.upper(),)
        elif part.key in view.subjects:
            cut = (joint for joint in part.joints if _is_shown(joint, sizes, view.subjects))
            joints = [joint_words(joint, wall.notation) for joint in cut]
            words = f"{part.name.upper()}, {material_words(part)}"
            named = words if words not in earlier else part.name.upper() if joints else ""
            told.add(words)
            text = (named, *dict.fromkeys(joints)) if named else ()
        if text and text not in said:
            said.add(text)
            found.append(Callout(f"note/{one.part}", text, one.spot, one.part))
    return found


def _order(view: View, key: str) -> tuple[int, int]:
    return (0, view.subjects.index(key)) if key in view.subjects else (1, 0)


def _is_shown(joint: Joint, sizes: set[Fraction], subjects: tuple[str, ...]) -> bool:
    # A joint is spoken of where its shape is measured and its mate is there.
    said = [size for size in (joint.width, joint.depth) if size is not None]
    here = not joint.mate or joint.mate in subjects
    return joint.kind in _SHAPES and here and bool(said) and all(size in sizes for size in said)


def _of_whole(sets: tuple[Annotated, ...], by_key: dict[str, Part]) -> dict[str, list[Callout]]:
    scribes_detailed = any(one.view.id.endswith("/scribe") for one in sets)
    best: dict[tuple[str, ...], tuple[int, str, Callout]] = {}
    for one in sets:
        if one.view.kind not in ("elevation", "section"):
            continue
        largest: dict[tuple[str, ...], tuple[Fraction, Seen]] = {}
        for seen in one.view.seen:
            part = by_key.get(seen.part)
            text = _whole_words(one.view, part, scribes_detailed) if part is not None else ()
            area = (seen.box.u1 - seen.box.u0) * (seen.box.v1 - seen.box.v0)
            if text and seen.how != "hidden" and (text not in largest or area > largest[text][0]):
                largest[text] = (area, seen)
        for text, (_, seen) in largest.items():
            note = _on_face(one, seen, text, by_key)
            rank = _where(one.view, seen, note)
            if text not in best or rank < best[text][0]:
                best[text] = (rank, one.view.id, note)
    found: dict[str, list[Callout]] = {}
    for _, (_, view_id, note) in sorted(best.items()):
        found.setdefault(view_id, []).append(note)
    return found


def _whole_words(view: View, part: Part, scribes_detailed: bool) -> tuple[str, ...]:
    if part.maker == "others":
        return _others_words(part)
    if view.kind != "elevation":
        return ()
    if any(joint.kind == "scribe" for joint in part.joints) and not scribes_detailed:
        return ("SCRIBE TO WALL, V.I.F.",)
    if part.does.member == "board" and not part.twin:
        return (f"BACKER, {material_words(part)}",)
    return ()


def _on_face(one: Annotated, seen: Seen, text: tuple[str, ...], by_key: dict[str, Part]) -> Callout:
    # On the elevation a leader ends near that edge of the face that is nearer to where its note can stand,
    # and off the axis, along which it could not be told from the centre line.
    name = f"note/{seen.part}"
    face = open_face(one, seen, by_key, right=False) if one.view.kind == "elevation" else None
    if face is None:
        return Callout(name, text, seen.spot, seen.part)
    middle = float(one.view.box.u0 + one.view.box.u1) / 2
    wide, tall = face.u1 - face.u0, face.v1 - face.v0
    room = face if wide >= _ROOM[0] and tall >= _ROOM[1] else None
    return Callout(name, text, end_of_leader(face, middle), seen.part, room)


def _where(view: View, seen: Seen, note: Callout) -> int:
    if view.kind == "elevation":
        return 0 if note.room is not None else 2
    return 1 if seen.how == "cut" else 3
