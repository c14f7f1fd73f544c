"""Which books each bay takes."""

from __future__ import annotations

from sheets.checks.finding import Measure, Outcome, Rule, about
from sheets.checks.mechanics.bays import Bay, bays
from sheets.checks.mechanics.decided_at import decided
from sheets.checks.wording import length
from sheets.model.purpose import Size
from sheets.model.wall import Wall
from sheets.tables.people import BookFormat, book_formats

NAME = "book-bays"

EXPLAIN = """\
Reads the clear height and depth of each bay and names the largest format of book that stands in it:
paperbacks want 8 in, trade books and octavos 10 in (8 in deep), large books 12 in, art books and binders
14 in, folios 16 in. A bay that takes no format at all is a note. Mixed heights serve most: three
quarters of books are 8 to 10 in high. Not judged where the spec gives its own load: what
stands there need not be books.
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
    findings = []
    measures = []
    smallest = book_formats()[0]
    for number, bay in enumerate(found, 1):
        takes = formats_for(bay)
        size = f"{length(wall, bay.height)} high, {length(wall, bay.depth)} deep"
        measures.append(
            Measure(
                f"{bay.case.name.lower()}, bay above the {bay.below.name.lower()} at "
                f"{length(wall, bay.below.extent.z1)}",
                size,
                f"up to {takes[-1].name}" if takes else "no format",
                "for information",
                smallest.cited,
            )
        )
        if not takes:
            findings.append(
                about(
                    NAME,
                    "note",
                    f"bay {number}, {size}, takes no format of book",
                    bay.below,
                    bay.above,
                    cure=f"would take {smallest.name}s from {length(wall, smallest.clear_height)} high and "
                    f"{length(wall, smallest.depth)} deep",
                    cited=smallest.cited,
                    made_from=decided(bay.case, _too_small(bay), "z"),
                )
            )
    return Outcome(len(found), tuple(findings), tuple(measures))


RULE = Rule(NAME, "Books that each bay takes", "use", 30, _judge, EXPLAIN)
