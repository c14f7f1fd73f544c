"""The whole wall: its components in the order that they rest on each other, then what is said of all."""

from collections.abc import Iterator, Sequence
from dataclasses import fields
from fractions import Fraction

from sheets.base.diagnostics import Diagnostic, has_errors, in_order
from sheets.grammar.measure import notation_of, written
from sheets.grammar.schema import Revision as RevisionRow
from sheets.grammar.schema import Spec
from sheets.model.marks import marked
from sheets.model.part import Part
from sheets.model.wall import Cut, Opening, Paper, Project, Revision, Void, Wall
from sheets.resolve.baseboard import KEY as BASEBOARD
from sheets.resolve.baseboard import baseboard_feature, reserved_half, resolve_baseboard, with_baseboard
from sheets.resolve.built import Built, Origin, Places, distinct
from sheets.resolve.components import COMPONENTS, Build, Site
from sheets.resolve.fireplace import enclosure_half, firebox_extent
from sheets.resolve.layout import Layout, lay_out
from sheets.resolve.masonry import hole_for, masonry_work
from sheets.resolve.materials import Materials
from sheets.resolve.middle import Middle, plan_middle
from sheets.resolve.room import resolve_room, room_facts, wall_stations
from sheets.resolve.settings import settings_of
from sheets.resolve.surround import surround_feature


def resolve(
    spec: Spec, source: Places | None, components: Sequence[Build] = COMPONENTS
) -> tuple[Wall | None, tuple[Diagnostic, ...]]:
    """Return the wall with every size known, and what solving found; None with an error among them.

    source: says where a value stands in the file; None leaves places out. components: build what stands at
    the wall, in order. Parts carry the marks of a first issue; `model.marks.marked` gives them those of
    earlier ones.
    """
    origin, materials = Origin(source), Materials(spec)
    layout, made = lay_out(spec, origin)
    middle, found = plan_middle(spec, origin, layout, materials)
    made += Built(found=(*found, *_refused_hearth(spec, origin, layout, middle)))
    if has_errors(made.found):
        return None, in_order(made.found)
    half = enclosure_half(middle)
    site = Site(spec, origin, layout, middle, materials)
    for build in components:
        made += build(site)
    if has_errors(made.found):
        return None, in_order(made.found)
    made += _round_the_room(spec, origin, layout, middle, materials, half, made)
    return marked(_wall(spec, made)), in_order(made.found)


def _round_the_room(
    spec: Spec,
    origin: Origin,
    layout: Layout,
    middle: Middle,
    materials: Materials,
    half: Fraction,
    built: Built,
) -> Built:
    """What is laid out when all else stands: baseboard, room, the strings and details of the whole wall."""
    reserved, sizes = reserved_half(spec, middle), materials.sizes
    enclosure = half if middle.enclosure else Fraction(0)
    made = resolve_baseboard(spec, origin, layout, middle, materials, reserved, enclosure)
    front = max((p.extent.y1 for p in (*built.parts, *made.parts)), default=Fraction(0))
    hole = hole_for(masonry_work(spec, origin, middle, sizes), firebox_extent(spec, middle, sizes))
    made += resolve_room(spec, origin, sizes, front, hole)
    edges = [x for s in layout.cases for x in (s.x0 - s.left.gap, s.x1 + s.right.gap)]
    edges += [-half, half] if half else []
    parts, margin = (*built.parts, *made.parts), sizes.of(("3/2", "40"))
    return made + Built(
        stations=wall_stations(spec, middle, edges),
        features=(
            *surround_feature(spec, parts, middle, margin),
            *baseboard_feature(parts, middle, reserved, margin),
        ),
    )


def _refused_hearth(spec: Spec, origin: Origin, layout: Layout, middle: Middle) -> Iterator[Diagnostic]:
    if middle.hearth_x is None:
        return
    for standing in layout.cases:
        if (
            standing.x0 < middle.hearth_x[1]
            and standing.x1 > middle.hearth_x[0]
            and standing.case.depth > middle.face
        ):
            wide = written(2 * middle.hearth_x[1], spec)
            yield origin.fault(
                "hearth-under-case",
                ("surround", "hearth"),
                f"the hearth, {wide} wide, reaches under the case '{standing.case.name}'",
            )
            return


def _plan_cut(made: Built, opening: Opening | None) -> Cut:
    """One plan, through posts and corbels when there are some, above a shelf and through no board on edge."""
    parts = [p for p in made.parts if p.maker == "shop"]
    corbel = next((p for p in parts if p.does.face == "corbel"), None)
    post = next((p for p in parts if p.does.face == "post"), None)
    tallest = max((p.extent.z1 for p in parts), default=Fraction(0))
    low, high = opening.extent.span("z") if opening else (Fraction(0), tallest)
    aim = corbel or post
    if aim is not None:
        low, high = aim.extent.span("z")
    level = _clear_level(parts, low, high)
    return Cut(kind="plan", title="PLAN", owner="room", axis="z", at=level, toward=1, signature="plan")


def _clear_level(parts: list[Part], low: Fraction, high: Fraction) -> Fraction:
    """The level nearest the middle of low..high that lies in no horizontal board."""
    flat = sorted((p.extent.z0, p.extent.z1) for p in parts if p.thickness_axis == "z" or p.role == "rail")
    middle = (low + high) / 2
    clear = []
    at = low
    for a, b in (*((a, b) for a, b in flat if b > low and a < high), (high, high)):
        if a > at:
            clear.append((at, a))
        at = max(at, b)
    if not clear:
        return middle
    best = min(
        clear, key=lambda span: (not span[0] < middle < span[1], abs((span[0] + span[1]) / 2 - middle), span)
    )
    if best[0] < middle < best[1] and min(middle - best[0], best[1] - middle) * 4 > best[1] - best[0]:
        return middle
    return (best[0] + best[1]) / 2


def _wall(spec: Spec, made: Built) -> Wall:
    opening = next(iter(made.openings), None)
    used = {part.material.key: part.material for part in made.parts}
    boards = [part for part in made.parts if part.assembly == BASEBOARD]
    return Wall(
        project=_project(spec),
        paper=Paper(
            size=spec.sheet.size, titleblock=spec.sheet.titleblock, orientation=spec.sheet.orientation
        ),
        units=spec.units,
        notation=notation_of(spec),
        grid=spec.precision,
        room=room_facts(spec),
        parts=made.parts,
        components=made.components,
        stations=distinct(made.stations),
        features=with_baseboard(made.features, boards),
        cuts=(_plan_cut(made, opening), *made.cuts),
        materials=tuple(used[key] for key in sorted(used)),
        opening=opening,
        notes=tuple(spec.notes),
        leftovers=made.leftovers,
        revisions=tuple(_revision(row) for row in spec.revisions),
        settings=settings_of(spec),
    )


def _revision(row: RevisionRow) -> Revision:
    void = None if row.void is None else Void(row.void.reason, row.void.sheets, row.void.after)
    return Revision(row.number, row.date, row.by, row.reason, row.digest or "", void)


def _project(spec: Spec) -> Project:
    # A title block is words alone: the model has the fields that the language has, under the same names.
    return Project(**{field.name: getattr(spec.project, field.name) for field in fields(Project)})
