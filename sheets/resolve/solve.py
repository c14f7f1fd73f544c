"""The whole wall: its components in the order that they rest on each other, then what is said of all."""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from sheets.base.diagnostics import Diagnostic, has_errors, in_order
from sheets.grammar.measure import notation_of, written
from sheets.grammar.schema import Spec
from sheets.model.marks import marked
from sheets.model.part import Part
from sheets.model.wall import Cut, Paper, Project, Revision, Wall
from sheets.resolve.baseboard import baseboard_feature, reserved_half, resolve_baseboard
from sheets.resolve.components import COMPONENTS, Build, Site
from sheets.resolve.features import subjects
from sheets.resolve.fireplace import enclosure_half, firebox_extent
from sheets.resolve.gather import Gathered, Places
from sheets.resolve.layout import Layout, lay_out
from sheets.resolve.materials import Materials
from sheets.resolve.middle import Middle, plan_middle
from sheets.resolve.room import room_facts, room_parts, wall_stations
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
    gathered = Gathered(source, spec.precision)
    materials = Materials(spec)
    layout = lay_out(spec, gathered)
    middle = plan_middle(spec, gathered, layout, materials)
    _refuse_hearth(spec, gathered, layout, middle)
    if has_errors(gathered.diagnostics):
        return None, in_order(gathered.diagnostics)
    half = enclosure_half(middle)
    site = Site(spec, gathered, layout, middle, materials)
    for build in components:
        build(site)
    if has_errors(gathered.diagnostics):
        return None, in_order(gathered.diagnostics)
    reserved = reserved_half(spec, middle)
    enclosure = half if middle.enclosure else Fraction(0)
    resolve_baseboard(spec, gathered, layout, middle, materials, reserved, enclosure)
    front = max((p.extent.y1 for p in gathered.parts), default=Fraction(0))
    room_parts(spec, gathered, materials.sizes, front, firebox_extent(spec, middle, materials.sizes))
    edges = [x for s in layout.cases for x in (s.x0 - s.left.gap, s.x1 + s.right.gap)]
    edges += [-half, half] if half else []
    wall_stations(gathered, spec, middle, edges)
    surround_feature(spec, gathered, middle, materials.sizes.of(("3/2", "40")))
    baseboard_feature(gathered, middle, reserved, materials.sizes.of(("3/2", "40")))
    _finish_features(gathered)
    _plan_cuts(gathered, middle, layout)
    return marked(_wall(spec, gathered)), in_order(gathered.diagnostics)


def _refuse_hearth(spec: Spec, gathered: Gathered, layout: Layout, middle: Middle) -> None:
    if middle.hearth_x is None:
        return
    for standing in layout.cases:
        if (
            standing.x0 < middle.hearth_x[1]
            and standing.x1 > middle.hearth_x[0]
            and standing.case.depth > middle.face
        ):
            wide = written(2 * middle.hearth_x[1], spec)
            gathered.say(
                "hearth-under-case",
                ("surround", "hearth"),
                f"the hearth, {wide} wide, reaches under the case '{standing.case.name}'",
            )
            return


def _finish_features(gathered: Gathered) -> None:
    """The base of a case is detailed with the baseboard before it, which is made later."""
    boards = [p for p in gathered.parts if p.role in ("baseboard", "baseboard return")]
    for k, feature in enumerate(gathered.features):
        if feature.kind == "base" and boards:
            more = subjects(boards, ("baseboard",), feature.axis, feature.at, feature.window)
            gathered.features[k] = replace(
                feature, subjects=(*feature.subjects, *more), signature=f"{feature.signature}/{len(more)}"
            )


def _plan_cuts(gathered: Gathered, middle: Middle, layout: Layout) -> None:
    """One plan, through posts and corbels when there are some, above a shelf and through no board on edge."""
    parts = [p for p in gathered.parts if p.maker == "shop"]
    corbel = next((p for p in parts if p.does.face == "corbel"), None)
    post = next((p for p in parts if p.does.face == "post"), None)
    aim = corbel or post
    tallest = max((p.extent.z1 for p in parts), default=Fraction(0))
    low, high = (aim.extent.z0, aim.extent.z1) if aim else (Fraction(0), tallest)
    if aim is None and middle.opening_z:
        low, high = middle.opening_z
    level = _clear_level(parts, low, high)
    title = "PLAN"
    gathered.cuts.insert(
        0, Cut(kind="plan", title=title, owner="room", axis="z", at=level, toward=1, signature="plan")
    )


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


def _wall(spec: Spec, gathered: Gathered) -> Wall:
    project = spec.project
    used = {part.material.key: part.material for part in gathered.parts}
    return Wall(
        project=Project(
            title=project.title,
            number=project.number,
            site=project.site,
            client=project.client,
            owner=project.owner,
            firm=project.firm,
            drawn=project.drawn,
            checked=project.checked,
            approved=project.approved,
            date=project.date,
            status=project.status,
        ),
        paper=Paper(
            size=spec.sheet.size, titleblock=spec.sheet.titleblock, orientation=spec.sheet.orientation
        ),
        units=spec.units,
        notation=notation_of(spec),
        grid=spec.precision,
        room=room_facts(spec),
        parts=tuple(gathered.parts),
        components=tuple(gathered.components),
        stations=tuple(gathered.stations),
        features=tuple(gathered.features),
        cuts=tuple(gathered.cuts),
        materials=tuple(used[key] for key in sorted(used)),
        opening=gathered.opening,
        notes=tuple(spec.notes),
        leftovers=tuple(gathered.leftovers),
        revisions=tuple(Revision(r.number, r.date, r.by, r.reason) for r in spec.revisions),
        settings=settings_of(spec),
    )
