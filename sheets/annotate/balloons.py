"""Balloons for the parts, and the marks that lead from one view to another."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Mapping
from fractions import Fraction

from sheets.annotate.intent import Balloon, CutMark, DetailMark
from sheets.annotate.places import in_box
from sheets.base.keys import key_order
from sheets.model.part import Part
from sheets.views.frames import box_of, meet
from sheets.views.view import ExactBox, Frame, Seen, View

# About how large a view of each kind comes out on paper; only their order matters.
_SCALE = {"detail": 1 / 4, "section": 1 / 8, "plan": 1 / 16, "elevation": 1 / 16, "axonometric": 1 / 40}
_LEAST_PAPER = 2.0  # mm: a leader's end has to hit the part it means
_FRONT = 30.0  # mm at full size: narrower pieces are not marked on the elevation
_MOST_FRONTS = 10
_CROWD = 14  # balloons on one view before another view is looked for


def balloons(views: tuple[View, ...], by_key: Mapping[str, Part]) -> dict[str, tuple[Balloon, ...]]:
    """Return the balloons of each view by its id: every mark that can be seen once, where it is seen best.

    Best is where enough of the part shows for a leader, on the view that shows the most of it, cut before
    face, and not too many on one view. The subjects of a detail carry their marks there as well.
    """
    spots: dict[str, list[tuple[View, Seen, Part]]] = defaultdict(list)
    for view in views:
        for one in view.seen:
            part = by_key.get(one.part)
            if part is not None and part.mark and view.kind != "axonometric":
                spots[part.mark].append((view, one, part))
    found: dict[str, list[Balloon]] = defaultdict(list)
    counts: Counter[str] = Counter()
    for mark in sorted(spots, key=lambda mark: (len(spots[mark]), key_order(mark.lower() or "0"))):
        view, one, part = min(spots[mark], key=lambda spot: _poorness(spot[0], spot[1], spot[2], counts))
        found[view.id].append(Balloon(mark, one.spot, part.key))
        counts[view.id] += 1
    large = {by_key[key].mark for view in views for key in view.subjects if key in by_key}
    for view in views:
        if view.kind == "elevation":
            found[view.id].extend(_of_fronts(view, by_key, {balloon.mark for balloon in found[view.id]}))
        if view.kind == "detail" or (view.kind == "plan" and view.subject):
            have = {balloon.mark for balloon in found[view.id]}
            found[view.id].extend(_of_subjects(view, by_key, have if view.kind == "detail" else have | large))
    return {
        view_id: tuple(sorted(held, key=lambda balloon: (key_order(balloon.mark.lower()), balloon.part)))
        for view_id, held in found.items()
        if held
    }


def cut_marks(view: View, views: tuple[View, ...]) -> tuple[CutMark, ...]:
    """Return the lines on a plan or an elevation along which sections and plans were cut."""
    frame = view.frame
    if frame is None or view.kind not in ("plan", "elevation"):
        return ()
    found: list[CutMark] = []
    for other in views:
        of = other.frame
        if (
            other is view
            or of is None
            or of.cut_axis is None
            or of.cut_at is None
            or other.kind not in ("section", "plan")
        ):
            continue
        placed = frame.to_view(of.cut_axis, of.cut_at)
        if placed is None or not in_box(view.box, placed[0], placed[1]):
            continue
        sign = frame.u_sign if placed[0] == "u" else frame.v_sign
        runs: tuple[Fraction, Fraction] = (
            (view.box.v0, view.box.v1) if placed[0] == "u" else (view.box.u0, view.box.u1)
        )
        # The line stands square to the axis it was cut on; the arrows point the way the viewer looks.
        found.append(
            CutMark(
                other.id, "v" if placed[0] == "u" else "u", placed[1], runs[0], runs[1], -of.toward * sign
            )
        )
    return tuple(found)


def detail_marks(views: tuple[View, ...]) -> dict[str, tuple[DetailMark, ...]]:
    """Return the rings of each view by its id: each detail on the largest view that shows its place."""
    found: dict[str, list[DetailMark]] = defaultdict(list)
    for detail in views:
        if detail.kind != "detail" or detail.frame is None:
            continue
        parents = [parent for parent in (_ring(detail, view) for view in views) if parent is not None]
        if parents:
            _, view_id, ring = min(parents, key=lambda parent: parent[:2])
            found[view_id].append(ring)
    return {view_id: tuple(rings) for view_id, rings in found.items()}


def _ring(detail: View, view: View) -> tuple[tuple[int, Fraction, int], str, DetailMark] | None:
    frame, of = view.frame, detail.frame
    if (
        frame is None
        or of is None
        or view.kind not in ("section", "elevation", "plan")
        or of.cut_axis is None
    ):
        return None
    order = {"section": 0, "plan": 1, "elevation": 2}[view.kind]
    same_plane = {frame.u_axis, frame.v_axis} == {of.u_axis, of.v_axis}
    if same_plane:
        window = _turned(detail.box, of, frame)
        shown = meet(window, view.box)
        subjects = set(detail.subjects)
        seen = [one for one in view.seen if one.part in subjects and one.how in ("cut", "visible")]
        if shown is None or not seen:
            return None
        apart = (
            abs((frame.cut_at or Fraction(0)) - (of.cut_at or Fraction(0))) if frame.cut_axis else Fraction(0)
        )
        cut = 0 if any(one.how == "cut" for one in seen) else 1
        ring = DetailMark(detail.id, window.u0, window.u1, window.v0, window.v1)
        return (order + 3 * cut, apart, 0), view.id, ring
    return _edge_on(detail, view, order)


def _edge_on(
    detail: View, view: View, order: int
) -> tuple[tuple[int, Fraction, int], str, DetailMark] | None:
    # Looked at from its side, a detail's window is a line: the ring goes round it, half as wide as long.
    frame, of = view.frame, detail.frame
    if frame is None or of is None or of.cut_axis is None or of.cut_at is None:
        return None
    placed = frame.to_view(of.cut_axis, of.cut_at)
    if placed is None:
        return None
    shared = frame.v_axis if placed[0] == "u" else frame.u_axis
    low, high = sorted(_world_span(detail.box, of, shared))
    sign = frame.v_sign if placed[0] == "u" else frame.u_sign
    a, b = sorted((sign * low, sign * high))
    half = (b - a) / 4
    if placed[0] == "u":
        ring = DetailMark(detail.id, placed[1] - half, placed[1] + half, a, b)
    else:
        ring = DetailMark(detail.id, a, b, placed[1] - half, placed[1] + half)
    inside = (
        view.box.u0 <= (ring.u0 + ring.u1) / 2 <= view.box.u1
        and view.box.v0 <= (ring.v0 + ring.v1) / 2 <= view.box.v1
    )
    return ((order + 6, Fraction(0), 1), view.id, ring) if inside else None


def _turned(box: ExactBox, of: Frame, into: Frame) -> ExactBox:
    u = _world_span(box, of, into.u_axis)
    v = _world_span(box, of, into.v_axis)
    u0, u1 = sorted(into.u_sign * at for at in u)
    v0, v1 = sorted(into.v_sign * at for at in v)
    return ExactBox(u0, u1, v0, v1)


def _world_span(box: ExactBox, of: Frame, axis: str) -> tuple[Fraction, Fraction]:
    if axis == of.u_axis:
        return of.u_sign * box.u0, of.u_sign * box.u1
    return of.v_sign * box.v0, of.v_sign * box.v1


def _poorness(view: View, one: Seen, part: Part, counts: Counter[str]) -> tuple[object, ...]:
    scale = _SCALE[view.kind]
    width, height = float(one.box.u1 - one.box.u0) * scale, float(one.box.v1 - one.box.v0) * scale
    frame = view.frame
    whole = box_of(part.extent, frame) if frame is not None else one.box
    clipped = one.box != whole
    hidden = one.how in ("hidden", "overhead")
    narrow = min(width, height) < _LEAST_PAPER
    crowded = counts[view.id] >= _CROWD
    return (
        hidden,
        narrow,
        crowded,
        bool(part.twin),
        clipped,
        0 if one.how == "cut" else 1,
        counts[view.id] // 5,
        -round(width * height, 3),
        view.id,
        key_order(part.key),
    )


def _of_fronts(view: View, by_key: Mapping[str, Part], have: set[str]) -> list[Balloon]:
    # The elevation is looked at first: the pieces that make the face of the work carry their marks there too.
    found: list[Balloon] = []
    rows = [(one, by_key[one.part]) for one in view.seen if one.part in by_key and one.how == "visible"]
    large = [
        (one, part)
        for one, part in rows
        if part.mark and not part.twin and part.does.member != "board" and min(_size(one)) >= _FRONT
    ]
    for one, part in sorted(large, key=lambda row: (-min(_size(row[0])), key_order(row[1].key))):
        if part.mark not in have and len(have) < _MOST_FRONTS:
            have.add(part.mark)
            found.append(Balloon(part.mark, one.spot, part.key))
    return found


def _size(one: Seen) -> tuple[float, float]:
    return float(one.box.u1 - one.box.u0), float(one.box.v1 - one.box.v0)


def _of_subjects(view: View, by_key: Mapping[str, Part], have: set[str]) -> list[Balloon]:
    # A detail is about its subjects; the plan of one component about what of that component it cuts and no
    # detail shows larger.
    seen = {one.part: one for one in view.seen}
    keys = view.subjects or tuple(
        one.part for one in view.seen if one.how == "cut" and by_key[one.part].assembly == view.subject
    )
    found: list[Balloon] = []
    for key in keys:
        one, part = seen.get(key), by_key.get(key)
        if (
            one is not None
            and part is not None
            and part.mark
            and part.mark not in have
            and one.how != "hidden"
        ):
            have.add(part.mark)
            found.append(Balloon(part.mark, one.spot, key))
    return found
