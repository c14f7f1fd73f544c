"""What was copied from a manual, and the masonry around a firebox: what does not go together."""

from sheets.base.diagnostics import SpecPath
from sheets.base.source import Source
from sheets.grammar.listing import Datum
from sheets.grammar.measure import is_under_ceiling, opening_top, written
from sheets.grammar.rules.fault import Findings, error
from sheets.grammar.schema import Fireplace, Listing, Spec


def check(spec: Spec, fireplace: Fireplace, source: Source) -> Findings:
    """Yield what is wrong with listing, masonry and what hangs above."""
    if fireplace.listing:
        yield from _datums(fireplace.listing, source)
    if fireplace.masonry:
        yield from _masonry(spec, fireplace, source)
    hung = fireplace.hung
    if hung and hung.bottom < opening_top(fireplace):
        yield error(
            source,
            ("fireplace", "hung", "bottom"),
            "hung-collides",
            f"the {hung.what} starts below the top of the opening, {written(opening_top(fireplace), spec)}",
        )
    elif hung and not is_under_ceiling(
        spec.room.ceiling, spec.room.width, hung.width / 2, hung.bottom + hung.height
    ):
        yield error(
            source,
            ("fireplace", "hung", "height"),
            "hung-collides",
            f"the {hung.what} does not end under the ceiling",
        )


def _datums(listing: Listing, source: Source) -> Findings:
    used: list[tuple[SpecPath, Datum]] = [
        (("mantel", number), row.datum) for number, row in enumerate(listing.mantel)
    ]
    for word in ("ceiling", "television"):
        said = getattr(listing, word)
        if said:
            used.append(((word,), said.datum))
    given = {"opening": True, "unit": listing.unit_above is not None, "hood": listing.hood_above is not None}
    for path, datum in used:
        if not given[datum]:
            yield error(
                source,
                ("fireplace", "listing", *path, "datum"),
                "no-datum",
                f"a height is measured from the top of the {datum}, and nothing says where that is",
                f"Write `{datum}_above: ...` in the listing, from the top of the opening.",
            )


def _masonry(spec: Spec, fireplace: Fireplace, source: Source) -> Findings:
    path = ("fireplace", "masonry")
    if fireplace.appliance != "masonry":
        yield error(
            source,
            path,
            "masonry-listed",
            f"a {fireplace.appliance} appliance has no masonry around its firebox",
            "Leave it out, or write `appliance: masonry`.",
        )
    said = fireplace.masonry
    assert said is not None
    chimney = said.chimney
    if chimney and chimney.flue_wall:
        wall = chimney.flue_wall
        if 2 * wall >= chimney.width or 2 * wall >= chimney.depth:
            yield error(
                source,
                (*path, "chimney", "flue_wall"),
                "no-flue",
                f"walls of {written(wall, spec)} leave no flue in a chimney of "
                f"{written(chimney.width, spec)} by {written(chimney.depth, spec)}",
            )
