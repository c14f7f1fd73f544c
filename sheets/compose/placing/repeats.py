"""A string's gaps that come again and again, as the boards of a backer do, said once where each alone has no
room: so many at so much, and what they come to.

Source: metric as in ISO 129-1, 21 × 100 (= 2100); inch as on US shop drawings, 21 @ 4" = 7'-0" (both from
memory).
"""

from __future__ import annotations

import itertools
from collections.abc import Callable, Collection, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from sheets.annotate.intent import Gap
from sheets.base.notation import Run, format_length
from sheets.compose.placing.manner import Manner

_FEWEST = 5  # layers of a build-up may be as thick as one another and are still each their own


@dataclass(frozen=True, slots=True)
class Repeated:
    """A gap of a string, or several alike as one: times, from the first one's beginning to the last one's
    end."""

    gap: Gap
    times: int = 1


@dataclass(frozen=True, slots=True)
class Said:
    """What is printed: runs to set, the size alone as written, and what stands before and after it."""

    runs: tuple[Run, ...]
    value: str
    prefix: str
    suffix: str


def in_order(gaps: Sequence[Gap]) -> tuple[Gap, ...]:
    """The gaps of a string along it, each from its lower end to its higher."""
    return tuple(sorted((_upward(gap) for gap in gaps), key=lambda gap: (gap.a, gap.b)))


def _upward(gap: Gap) -> Gap:
    if gap.a <= gap.b:
        return gap
    return replace(gap, a=gap.b, b=gap.a, foot_a=gap.foot_b, foot_b=gap.foot_a)


def repeated(
    gaps: Sequence[Gap], has_room: Callable[[Gap], bool], given: Collection[tuple[Fraction, Fraction]]
) -> Iterator[Repeated]:
    """Yield the gaps of a string in order, neighbours alike as one where one alone has no room for its text.

    given: what other dimensions of the view measure, from and to: that is not measured again.
    """
    for alike in _runs(gaps):
        first, last = alike[0], alike[-1]
        if len(alike) < _FEWEST or has_room(first) or (first.a, last.b) in given:
            yield from (Repeated(gap) for gap in alike)
            continue
        parts = tuple(dict.fromkeys(part for gap in alike for part in gap.parts))
        whole = Gap(first.a, last.b, first.foot_a, last.foot_b, parts, verify=first.verify)
        yield Repeated(whole, len(alike))


def _runs(gaps: Sequence[Gap]) -> list[list[Gap]]:
    found: list[list[Gap]] = []
    for gap in gaps:
        before = found[-1][-1] if found else None
        if before and before.b == gap.a and before.verify == gap.verify and _size(before) == _size(gap):
            found[-1].append(gap)
        else:
            found.append([gap])
    return found


def _size(gap: Gap) -> Fraction:
    return gap.b - gap.a


def said(one: Repeated, manner: Manner) -> Said:
    """What is printed of a gap."""
    gap = one.gap
    whole = format_length(_size(gap), manner.notation)
    verify = " \u00b1" if gap.verify else ""
    if one.times == 1:
        suffix = (" EQ" if gap.equal else "") + verify
        return Said((*whole.runs, Run(suffix)) if suffix else whole.runs, whole.plain, "", suffix)
    each = format_length(_size(gap) / one.times, manner.notation)
    before, between, after = ("@", " = ", "") if manner.units == "inch" else ("\u00d7", " (= ", ")")
    suffix = after + verify
    end = (Run(suffix),) if suffix else ()
    found = (Run(f"{one.times} {before} "), *each.runs, Run(between), *whole.runs, *end)
    return Said(found, whole.plain, f"{one.times} {before} {each.plain}{between}", suffix)


def measured_of(strings: Sequence[Sequence[Gap]]) -> frozenset[tuple[Fraction, Fraction]]:
    """From where to where the gaps of some strings measure."""
    return frozenset((g.a, g.b) for g in itertools.chain.from_iterable(in_order(gaps) for gaps in strings))
