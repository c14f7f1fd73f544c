"""Each piece has its mirror image about the axis of the wall, or is a declared exception."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from sheets.base.diagnostics import Severity
from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.mechanics.board_rows import body_of
from sheets.checks.wording import called, length
from sheets.geometry.solid import volume
from sheets.model.part import Part
from sheets.model.wall import Component, Wall
from sheets.tables.read import Cited

NAME = "symmetry"
GEOMETRY = Cited("computed about the axis of the wall", "computed")

EXPLAIN = """\
Reads every piece of shop and others and looks for its mirror image about the axis: same role and
material, same sizes, as far on the other side. A whole case that the spec places on one side, or off the
axis, or that departs on the right from the one it mirrors, is a declared exception: it is listed as a note,
one for the case. A single piece without its image
inside work that is otherwise alike is a warning: the eye finds it before the rule does. On a wall with
such an exception it is a note, since returns and baseboards follow the case that stands alone.
Source: geometry; that such walls are composed about an axis is the trade's habit."""

Image = tuple[str, str, Fraction, Fraction, Fraction, Fraction, Fraction, Fraction, int]


def _judge(wall: Wall) -> Outcome:
    parts = [part for part in wall.parts if part.maker != "room"]
    there: dict[Image, int] = {}
    for part in parts:
        image = _image(part, mirrored=False)
        there[image] = there.get(image, 0) + 1
    odd = [
        part
        for part in parts
        if there.get(_image(part, mirrored=True), 0) != there[_image(part, mirrored=False)]
    ]
    exceptions = [component for component in wall.components if _is_exception(wall, component)]
    findings = [_declared(wall, component) for component in exceptions]
    keys = tuple(component.key for component in exceptions)
    for left, right in _departures(wall):
        findings.append(_departs(left, right))
        keys += (left.key, right.key)
    declared = len(findings)
    alone = [
        part
        for part in odd
        if not any(part.assembly == key or part.assembly.startswith(key + "/") for key in keys)
    ]
    # Returns and baseboards follow a case that stands alone: there a piece without its image is no slip.
    severity: Severity = "note" if declared else "warning"
    findings += [_unmatched(wall, part, severity) for part in alone]
    measures = (
        (
            Measure(
                f"{len(parts)} pieces about the axis",
                f"{len(parts) - len(odd)} with their image",
                f"{declared} declared exceptions",
                "to judge" if alone else "within limit",
                GEOMETRY,
            ),
        )
        if parts
        else ()
    )
    return Outcome(len(parts), tuple(findings), measures)


def _image(part: Part, *, mirrored: bool) -> Image:
    box = part.extent
    # Tongues run one way and are not seen: the body of the board is compared.
    x0, x1 = body_of(part) if part.width_axis == "x" else (box.x0, box.x1)
    low, high = (-x1, -x0) if mirrored else (x0, x1)
    # To the cubic millimetre: two pieces of one size whose joints differ are no images of each other.
    wood = 0 if part.does.member == "board" else round(volume(part.solid))
    return (part.role, part.material.key, low, high, box.y0, box.y1, box.z0, box.z1, wood)


def _departures(wall: Wall) -> Iterator[tuple[Component, Component]]:
    # The two of a mirrored pair of which the right one is built otherwise: it is no twin, and has a hand.
    for right in wall.components:
        if right.hand == "right" and not right.twin:
            for left in wall.components:
                if left.hand == "left" and left.made_from.path == right.made_from.path[:-1]:
                    yield left, right


def _departs(left: Component, right: Component) -> Finding:
    return about(
        NAME,
        "note",
        f"{right.name.lower()} is built otherwise than {left.name.lower()}: an exception that the spec "
        "declares",
        right,
        left,
        cure="nothing, if it is meant; else leave out what departs",
        cited=GEOMETRY,
    )


def _is_exception(wall: Wall, component: Component) -> bool:
    if (
        component.kind.arrives != "stood up"
        or component.twin
        or any(other.twin == component.key for other in wall.components)
    ):
        return False
    if component.extent.middle("x") == 0:
        return False
    return not any(
        other.kind == component.kind
        and other.extent.x0 == -component.extent.x1
        and other.extent.x1 == -component.extent.x0
        and other.extent.z1 == component.extent.z1
        for other in wall.components
    )


def _declared(wall: Wall, component: Component) -> Finding:
    middle = component.extent.middle("x")
    return about(
        NAME,
        "note",
        f"{component.name.lower()} stands by itself, its middle {length(wall, abs(middle))} to the "
        f"{'right' if middle > 0 else 'left'} of the axis: an exception that the spec declares",
        component,
        cure="nothing, if it is meant; else mirror it, or place it on the axis",
        cited=GEOMETRY,
    )


def _unmatched(wall: Wall, part: Part, severity: Severity) -> Finding:
    middle = part.extent.middle("x")
    where = (
        "on the axis"
        if middle == 0
        else f"{length(wall, abs(middle))} {'right' if middle > 0 else 'left'} of the axis"
    )
    return about(
        NAME,
        severity,
        f"{called(part)}, {where}, has no mirror image on the other side",
        part,
        cure="give the other side the same piece, or waive this with a reason",
        cited=GEOMETRY,
    )


RULE = Rule(NAME, "Symmetry about the axis", "order", 10, _judge, EXPLAIN)
