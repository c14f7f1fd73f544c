"""All views of a wall, in the order of a set."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from typing import TypeVar

from sheets.base.keys import slug
from sheets.model.wall import Cut, Feature, Wall
from sheets.views.axonometric import axonometric
from sheets.views.detail import detail
from sheets.views.elevation import elevation
from sheets.views.part_view import part_views
from sheets.views.plan import plan
from sheets.views.section import section
from sheets.views.view import View

_Asked = TypeVar("_Asked", Cut, Feature)

# Where a plan is cut when no component asks for one: about the height of the eye of one who sits.
_PLAN_AT = Fraction(1200)  # mm


def make_views(wall: Wall) -> tuple[View, ...]:
    """Return plan, elevation, sections, details and the axonometric.

    Ids are stable: "plan", "elevation", "section/<owner>", "detail/<owner>/<kind>", "part/<key>",
    "axonometric"; a second one of the same owner and kind has a number. Alike cuts and features (same
    signature) and pieces that are cut alike are drawn once.
    """
    plans = [cut for cut in wall.cuts if cut.kind == "plan"] or [Cut("plan", "PLAN", "", "z", _plan_at(wall))]
    sections = [cut for cut in wall.cuts if cut.kind == "section"]
    taken: set[str] = set()
    views: list[View] = []
    for number, (cut, _) in enumerate(_once(plans)):
        views.append(plan(wall, cut, _named("plan" if number == 0 else f"plan/{cut.owner or 'wall'}", taken)))
    views.append(elevation(wall))
    for cut, also in _once(sections):
        views.append(section(wall, cut, _named(f"section/{cut.owner or 'wall'}", taken), also))
    for feature, also in _once(sorted(wall.features, key=lambda feature: feature.order)):
        views.append(
            detail(wall, feature, _named(f"detail/{feature.owner}/{slug(feature.kind)}", taken), also)
        )
    views.extend(part_views(wall))
    views.append(axonometric(wall))
    return tuple(views)


def _once(asked: Iterable[_Asked]) -> list[tuple[_Asked, tuple[str, ...]]]:
    # The first of those alike, and the owners of the others.
    firsts: dict[tuple[str, str], _Asked] = {}
    others: dict[tuple[str, str], list[str]] = {}
    for number, one in enumerate(asked):
        key = (one.kind, one.signature or f"#{number}")
        if key in firsts:
            others[key].append(one.owner)
        else:
            firsts[key] = one
            others[key] = []
    return [(one, tuple(dict.fromkeys(others[key]))) for key, one in firsts.items()]


def _named(wanted: str, taken: set[str]) -> str:
    name, number = wanted, 2
    while name in taken:
        name, number = f"{wanted}-{number}", number + 1
    taken.add(name)
    return name


def _plan_at(wall: Wall) -> Fraction:
    tops = [part.extent.z1 for part in wall.parts if part.maker == "shop"]
    return min([_PLAN_AT, *(top / 2 for top in ([max(tops)] if tops else []))])
