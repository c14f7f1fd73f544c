"""What the components build, as values that are added up: parts, stations, features, cuts, what was found."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, fields, replace
from fractions import Fraction
from typing import Protocol

from sheets.base.diagnostics import Diagnostic, Place, Severity, SpecPath
from sheets.model.part import Axis, Part, Provenance
from sheets.model.wall import Component, Cut, Feature, Leftover, Opening, Rank, Station


class Places(Protocol):
    """Where the values of a spec stand in its file."""

    def place_of(self, path: SpecPath) -> Place | None: ...


@dataclass(frozen=True, slots=True)
class Origin:
    """The file that a spec was read from; `source` is None for one that never was a file: places are then
    left out."""

    source: Places | None

    def made_from(self, path: SpecPath) -> Provenance:
        """Return where in the spec something comes from."""
        place = self._place(path)
        return Provenance(path, place.line, place.column) if place else Provenance(path)

    def fault(
        self, code: str, path: SpecPath, message: str, *, severity: Severity = "error", help: str = ""
    ) -> Diagnostic:
        """Return a diagnostic at the place of a spec path."""
        return Diagnostic(code, severity, message, self._place(path), help, path)

    def _place(self, path: SpecPath) -> Place | None:
        return self.source.place_of(path) if self.source is not None else None


@dataclass(frozen=True, slots=True)
class Built:
    """What one component, or some of it, adds to the wall. `a + b` is both, those of `a` first."""

    parts: tuple[Part, ...] = ()
    components: tuple[Component, ...] = ()
    stations: tuple[Station, ...] = ()
    features: tuple[Feature, ...] = ()
    cuts: tuple[Cut, ...] = ()
    leftovers: tuple[Leftover, ...] = ()
    found: tuple[Diagnostic, ...] = ()
    openings: tuple[Opening, ...] = ()  # of the fireplace: one at most

    def __add__(self, other: Built) -> Built:
        return Built(*(getattr(self, f.name) + getattr(other, f.name) for f in fields(self)))


NOTHING = Built()


def chain(axis: Axis, at: Iterable[Fraction], rank: Rank, owner: str, chain: str) -> tuple[Station, ...]:
    """Return the stations of one string."""
    return tuple(Station(axis, value, rank, owner, chain) for value in at)


def left_over(owner: str, what: str, amount: Fraction, placed: str) -> tuple[Leftover, ...]:
    """Return what the grid left over, when it left anything."""
    return (Leftover(owner, what, amount, placed),) if amount else ()


def distinct(stations: Iterable[Station]) -> tuple[Station, ...]:
    """Return each station of each chain once, the first rank and the first label winning."""
    kept: dict[tuple[Axis, Fraction, str, str], Station] = {}
    for one in stations:
        known = kept.setdefault((one.axis, one.at, one.owner, one.chain), one)
        if one.label and not known.label:
            kept[one.axis, one.at, one.owner, one.chain] = replace(known, label=one.label)
    return tuple(kept.values())
