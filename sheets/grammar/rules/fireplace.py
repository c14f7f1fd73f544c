"""The opening, the surround and the hearth in the room."""

from fractions import Fraction

from sheets.base.source import Source
from sheets.grammar.measure import is_under_ceiling, opening_top, written
from sheets.grammar.rules import listing
from sheets.grammar.rules.fault import Findings, error
from sheets.grammar.schema import Fireplace, Spec, Surround

_OPENING = ("fireplace", "opening")


def check(spec: Spec, source: Source) -> Findings:
    """Yield what does not fit about the fireplace and its surround."""
    if spec.fireplace:
        yield from _opening(spec, spec.fireplace, source)
        yield from listing.check(spec, spec.fireplace, source)
    if spec.surround:
        yield from _surround(spec, spec.surround, source)
    if spec.fireplace and spec.surround:
        yield from _opening_in_surround(spec, spec.fireplace, spec.surround, source)


def _opening(spec: Spec, fireplace: Fireplace, source: Source) -> Findings:
    opening = fireplace.opening
    if opening.width >= spec.room.width:
        yield error(
            source,
            (*_OPENING, "width"),
            "opening-collides",
            f"the opening is {written(opening.width, spec)} wide, the wall {written(spec.room.width, spec)}",
        )
    elif not is_under_ceiling(spec.room.ceiling, spec.room.width, opening.width / 2, opening_top(fireplace)):
        yield error(
            source,
            (*_OPENING, "height"),
            "opening-collides",
            f"the top of the opening, {written(opening_top(fireplace), spec)} above the floor, is not under "
            "the ceiling",
        )


def _surround(spec: Spec, surround: Surround, source: Source) -> Findings:
    if surround.width > spec.room.width:
        yield error(
            source,
            ("surround", "width"),
            "too-wide",
            f"the surround is {written(surround.width, spec)} wide, "
            f"the wall {written(spec.room.width, spec)}",
        )
    if surround.height == "mantel":
        if spec.mantel is None:
            yield error(
                source,
                ("surround",),
                "missing-key",
                "the surround's height is missing: there is no mantel to run up to",
                "Write `height: ...` here, from the floor to its top.",
            )
    elif not is_under_ceiling(spec.room.ceiling, spec.room.width, surround.width / 2, surround.height):
        yield error(source, ("surround", "height"), "too-high", "the surround does not end under the ceiling")
    if not surround.to_floor and spec.fireplace is None:
        yield error(
            source,
            ("surround", "to_floor"),
            "surround",
            "without a fireplace there is no sill to stop at",
            "Write `to_floor: true`.",
        )
    hearth = surround.hearth
    if hearth and isinstance(hearth.width, Fraction) and hearth.width > spec.room.width:
        yield error(source, ("surround", "hearth", "width"), "too-wide", "the hearth is wider than the wall")


def _opening_in_surround(spec: Spec, fireplace: Fireplace, surround: Surround, source: Source) -> Findings:
    opening = fireplace.opening
    if opening.width >= surround.width:
        yield error(
            source,
            (*_OPENING, "width"),
            "opening-collides",
            f"the opening is {written(opening.width, spec)} wide; the surround around it only "
            f"{written(surround.width, spec)}",
        )
    if isinstance(surround.height, Fraction) and surround.height <= opening_top(fireplace):
        yield error(
            source,
            ("surround", "height"),
            "opening-collides",
            f"the surround ends {written(surround.height, spec)} above the floor, the opening "
            f"{written(opening_top(fireplace), spec)}",
        )
    hearth = surround.hearth
    if hearth and hearth.thickness > fireplace.sill > 0:
        yield error(
            source,
            ("surround", "hearth", "thickness"),
            "opening-collides",
            f"the hearth is thicker than the sill of the opening is high, {written(fireplace.sill, spec)}",
        )
