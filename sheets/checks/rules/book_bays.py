"""Which books each bay takes."""

from __future__ import annotations

from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.mechanics.bays import Bay, bays
from sheets.checks.mechanics.decided_at import decided
from sheets.checks.wording import length
from sheets.model.purpose import Size
from sheets.model.wall import Wall
from sheets.tables.people import BookFormat, book_formats

NAME = "book-bays"

EXPLAIN = """\
Reads the clear height and depth of each bay and names the largest format of book that stands in it:
paperbacks want 8 in (5 1/2 in deep), trade books and octavos 10 in (8 in deep), large books 12 in, art books
and binders 14 in, folios 16 in. A bay that takes no format at all is a note. Mixed heights serve most: three
quarters of books are 8 to 10 in high. Not judged where the spec gives its own load: what stands there need
not be books.
Sources: Burgoyne, Library Construction, and Dana, A Library Primer, for octavos; the rest is common
practice, from memory."""


def formats_for(bay: Bay) -> tuple[BookFormat, ...]:
    """Return the formats that a bay takes, smallest first."""
    return tuple(
        each for each in book_formats() if each.clear_height <= bay.height and each.depth <= bay.depth
    )


def _too_small(bay: Bay) -> Size:
    """What keeps books out: more shelves than there is height for, or the depth of the case."""
    return "y" if bay.depth < book_formats()[0].depth else "count"


def _judge(wall: Wall) -> Outcome:
    if wall.settings.checks.given_load is not None:
        return Outcome(0)
    found = bays(wall)
    measures = tuple(_measure(wall, bay) for bay in found)
    without: dict[str, list[Bay]] = {}
    for bay in found:
        if not formats_for(bay):
            without.setdefault(bay.case.key, []).append(bay)
    findings = tuple(_finding(wall, some) for some in without.values())
    return Outcome(len(found), findings, measures)


def _measure(wall: Wall, bay: Bay) -> Measure:
    takes = formats_for(bay)
    return Measure(
        f"{bay.case.name.lower()}, bay above the {bay.below.name.lower()} at "
        f"{length(wall, bay.below.extent.z1)}",
        _size(wall, bay),
        f"up to {takes[-1].name}" if takes else "no format",
        "for information",
        book_formats()[0].cited,
    )


def _size(wall: Wall, bay: Bay) -> str:
    return f"{length(wall, bay.height)} high, {length(wall, bay.depth)} deep"


def _finding(wall: Wall, some: list[Bay]) -> Finding:
    """One for all bays of a case that take no book, with the size of the largest."""
    smallest, largest = book_formats()[0], max(some, key=lambda bay: (bay.height, bay.depth))
    many = len(some) > 1
    return about(
        NAME,
        "note",
        f"{len(some)} bays of {largest.case.name.lower()}, the highest {_size(wall, largest)}, take "
        "no format "
        "of book"
        if many
        else f"the bay of {largest.case.name.lower()} above the {largest.below.name.lower()} at "
        f"{length(wall, largest.below.extent.z1)}, {_size(wall, largest)}, takes no format of book",
        *(part for bay in some for part in (bay.below, bay.above)),
        cure=f"would take {smallest.name}s from {length(wall, smallest.clear_height)} high and "
        f"{length(wall, smallest.depth)} deep",
        cited=smallest.cited,
        made_from=decided(largest.case, _too_small(largest), "z"),
    )


RULE = Rule(NAME, "Books that each bay takes", "use", 30, _judge, EXPLAIN)
