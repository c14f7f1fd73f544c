"""General notes for the first sheet: what a shop set has to say of this wall beyond its views and schedules.

Sentences in capitals as they are lettered; each line is one paragraph, broken where it is set.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from sheets.annotate.notes import joint_words, material_words
from sheets.base.notation import size_words
from sheets.model.part import Part
from sheets.model.wall import Wall
from sheets.tables.loads import N_PER_MM_PER_KG_PER_M, shelf_load


@dataclass(frozen=True, slots=True)
class NoteGroup:
    """General notes under one heading."""

    heading: str
    lines: tuple[str, ...]


def general_notes(wall: Wall) -> tuple[NoteGroup, ...]:
    """Return the notes that apply to this wall, by heading; a heading without a note is left out."""
    groups = (
        NoteGroup("MATERIALS AND FINISH", _materials(wall)),
        NoteGroup("JOINERY AND FASTENERS", _joinery(wall)),
        NoteGroup("ANCHORAGE", _anchorage(wall)),
        NoteGroup("SHELVES", _shelves(wall)),
        NoteGroup("SITE", _site(wall)),
        NoteGroup("FIREPLACE", _fireplace(wall)),
        NoteGroup("DIMENSIONS AND TOLERANCES", _dimensions(wall)),
        NoteGroup("WORK BY OTHERS", _others(wall)),
        NoteGroup("PROJECT NOTES", tuple(note.upper() for note in wall.notes)),
    )
    return tuple(group for group in groups if group.lines)


def _materials(wall: Wall) -> tuple[str, ...]:
    lines = []
    for material in wall.materials:
        parts = [part for part in wall.parts if part.material.key == material.key and part.maker == "shop"]
        if not parts:
            continue
        said = material_words(parts[0])
        if material.kind == "panel" and material.thickness is not None:
            said += f", {size_words(material.thickness, wall.notation)} TRUE THICKNESS"
        if material.finish:
            said += f", {material.finish.upper()} FINISH"
        roles = sorted({part.name.upper().split(",")[0] for part in parts})
        lines.append(f"{said}: {', '.join(roles)}.")
    if any(part.grain is not None and part.maker == "shop" for part in wall.parts):
        lines.append(
            "GRAIN RUNS WITH THE LENGTH GIVEN IN THE PARTS SCHEDULE. "
            "MATCH COLOUR AND GRAIN OF PIECES SEEN TOGETHER."
        )
        lines.append(
            "FINISH BACKS AND CONCEALED FACES OF SOLID WOOD AS THE FRONT, "
            "SO THAT BOTH FACES TAKE UP MOISTURE ALIKE."
        )
    return tuple(lines)


def _joinery(wall: Wall) -> tuple[str, ...]:
    seen: dict[str, set[str]] = {}
    for part in wall.parts:
        if part.maker != "shop":
            continue
        for joint in part.joints:
            if joint.kind != "scribe" and (joint.fastening or joint.kind != "butt"):
                said = joint_words(replace(joint, mate="", count=1), wall.notation)
                seen.setdefault(said, set()).add(part.name.upper().split(",")[0])
    lines = [f"{said}: {', '.join(sorted(names))}." for said, names in sorted(seen.items())]
    if any(component.kind.arrives == "stood up" for component in wall.components):
        screw = wall.settings.fasteners.case.upper()
        lines.append(f"CASES: {screw}, CONCEALED WHERE IT CAN BE, PILOT HOLES IN SOLID WOOD.")
    if any("GLUE" in said for said in seen):
        lines.append("GLUE: FOR INTERIOR WOODWORK. SOLID BOARDS ACROSS A PANEL ARE LEFT FREE TO MOVE.")
    return tuple(lines)


def _anchorage(wall: Wall) -> tuple[str, ...]:
    if not any(part.maker == "shop" for part in wall.parts):
        return ()
    fasteners, checks = wall.settings.fasteners, wall.settings.checks
    every = size_words(checks.stud_spacing, wall.notation)
    size = " x ".join(
        size_words(length, wall.notation) for length in (fasteners.wall_diameter, fasteners.wall_length)
    )
    into = (
        f"TO A PLACE, PLACES {every} APART AT MOST, INTO SOLID BACKING BEHIND EACH PIECE"
        if checks.blocking
        else f"TO A STUD, STUDS {every} ON CENTRE"
    )
    return (
        "FIX TO THE WALL ON SITE, THROUGH HANGING RAILS AND CLEATS AND WHAT COVERS THEM, HEADS PLUGGED OR "
        f"CAPPED: {fasteners.wall.upper()}, {size}, "
        f"{fasteners.screws_per_stud} {into}.",
        "TALL CASES AND LOADED SHELVES CAN TIP: NO CASE STANDS LOOSE. ANCHORS ARE SIZED BY THOSE "
        "RESPONSIBLE FOR THE STRUCTURE.",
        "BLOCKING BEHIND THE WALL FACE WHERE NO STUD FALLS: BY OTHERS, BEFORE THE WALL IS CLOSED.",
    )


def _shelves(wall: Wall) -> tuple[str, ...]:
    shelves = [part for part in wall.parts if part.does.bears and part.maker == "shop"]
    if not shelves:
        return ()
    fixed = [
        part for part in shelves if any(joint.kind in ("dado", "butt", "notch") for joint in part.joints)
    ]
    kind = (
        "FIXED, HOUSED IN THE SIDES"
        if len(fixed) == len(shelves)
        else ("ADJUSTABLE" if not fixed else "FIXED WHERE HOUSED, OTHERS ADJUSTABLE")
    )
    lines = [f"{len(shelves)} SHELVES, {kind}, WHERE THE SECTIONS SHOW THEM."]
    lines.append(f"SHELVES ARE MEANT FOR {_load(wall)} OF SHELF; SEE THE CHECKS.")
    rows = _rows(wall, shelves)
    if rows > 1:
        lines.append(f"ON THE DEEPEST STAND {rows} ROWS, ONE BEHIND THE OTHER: {_per_length(wall, rows)}.")
    return tuple(lines)


def _load(wall: Wall) -> str:
    checks = wall.settings.checks
    if checks.given_load is not None:  # said as it was given, whatever the units of the sheets
        unit = "LB PER FOOT" if checks.given_load.per == "foot" else "KG PER METRE"
        return f"{checks.given_load.weight} {unit}"
    return f"{checks.load.upper()}, {_per_length(wall, 1)}"


def _rows(wall: Wall, shelves: list[Part]) -> int:
    """The most rows that stand on a shelf of this use."""
    checks = wall.settings.checks
    if checks.given_load is not None:
        return 1
    return max(shelf_load(checks.load).rows_on(part.extent.size("y")) for part in shelves)


def _per_length(wall: Wall, rows: int) -> str:
    load = shelf_load(wall.settings.checks.load)
    if wall.units == "mm":
        return f"{rows * load.newton_per_mm / N_PER_MM_PER_KG_PER_M:.0f} KG PER METRE"
    return f"{rows * load.per_foot_lb:.0f} LB PER FOOT"


def _site(wall: Wall) -> tuple[str, ...]:
    lines = [
        "MEASURE THE ROOM BEFORE CUTTING: WIDTH AT FLOOR AND AT CASE TOPS, "
        "HEIGHT AT BOTH ENDS, FLOOR LEVEL, WALLS PLUMB.",
    ]
    if any(joint.kind == "scribe" for part in wall.parts for joint in part.joints):
        lines.append("SCRIBE WHERE SHOWN; THE SCRIBE IS INCLUDED IN THE PART'S SIZE.")
    if any(station.verify for station in wall.stations):
        lines.append("DIMENSIONS MARKED \u00b1 ARE VERIFIED IN THE FIELD.")
    if wall.room.doorway is not None:
        width, height = wall.room.doorway
        lines.append(
            f"DOORWAY TO THE ROOM {size_words(width, wall.notation)} x "
            f"{size_words(height, wall.notation)} CLEAR: "
            "ASSEMBLIES PASS IT WHOLE OR ARE ASSEMBLED INSIDE."
        )
    return tuple(lines)


def _dimensions(wall: Wall) -> tuple[str, ...]:
    # Grade words of woodwork standards; which edition governs is the contract's affair.
    return (
        f"DIMENSIONS ARE FINISHED SIZES TO FINISHED FACES, ON A GRID OF "
        f"{size_words(wall.grid, wall.notation)}. DO NOT SCALE.",
        "X FROM THE CENTRE LINE, DEPTH FROM THE FINISHED WALL FACE, HEIGHT FROM THE FINISHED FLOOR.",
        "WORKMANSHIP AND TOLERANCES: CUSTOM GRADE UNLESS NOTED OTHERWISE IN THE CONTRACT.",
    )


def _fireplace(wall: Wall) -> tuple[str, ...]:
    if wall.opening is None:
        return ()
    return (
        f"{wall.opening.appliance.upper()}: APPLIANCE, FLUE, FUEL, POWER AND HEARTH ARE THE WORK "
        "OF LICENSED TRADES.",
        "ITS LISTING AND MANUAL AND LOCAL CODE GOVERN. CLEARANCES PRINTED HERE ARE WHAT WAS COPIED FROM "
        "THEM; THOSE RESPONSIBLE CHECK THEM ON SITE BEFORE WORK BEGINS.",
        "KEEP COMBUSTIBLE PARTS OUT OF THE CLEARANCES; THESE SHEETS DO NOT CERTIFY THAT THEY ARE.",
    )


def _others(wall: Wall) -> tuple[str, ...]:
    lines: list[str] = []
    named = sorted({part.name.upper() for part in wall.parts if part.maker == "others"})
    if named:
        lines.append(f"NOT IN THE WOODWORKER'S WORK: {', '.join(named)}.")
    lines.append("FRAMING, BLOCKING, WALL FINISH AND POWER: BY OTHERS.")
    return tuple(lines)
