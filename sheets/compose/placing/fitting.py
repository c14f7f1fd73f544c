"""The largest standard scale at which a view fits a space, found by trying; a finite search, from the
largest down."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from sheets.annotate.intent import Annotated, Side
from sheets.compose.placing.lanes import SideLanes
from sheets.compose.placing.manner import Manner
from sheets.compose.placing.match_line import MOST_PARTS, Ends, divided
from sheets.compose.placing.placed import Placed, lanes_round, least_size, place
from sheets.compose.placing.sayings import CROWDINGS, KEYED, PLAIN, Crowding, crowding_matters, least_beside
from sheets.compose.scales import WANTED, Scale, sensible

KEYNOTES_GAIN = Fraction(19, 10)


class Fitter:
    """Places views at scales and remembers what it placed, since several arrangements ask for the same.

    elsewhere: part marks that sections and details show, which an elevation or a plan may then leave out.
    """

    def __init__(self, manner: Manner, elsewhere: frozenset[str] = frozenset()) -> None:
        self.manner = manner
        self.elsewhere = elsewhere
        self._placed: dict[tuple[str, Fraction, Crowding], Placed] = {}
        self._least: dict[tuple[str, Fraction, Crowding], tuple[float, float]] = {}
        self._lanes: dict[tuple[str, Fraction], dict[Side, SideLanes]] = {}
        self._apart: dict[tuple[str, Crowding], Crowding] = {}
        self._ends: dict[str, Ends] = {}

    def at(self, annotated: Annotated, scale: Scale, crowding: Crowding = 0) -> Placed:
        """The view at a scale."""
        crowding = self._told_apart(annotated, crowding)
        key = (annotated.view.id, scale.ratio, crowding)
        if key not in self._placed:
            self._placed[key] = place(
                annotated,
                scale,
                self.manner,
                crowding=crowding,
                elsewhere=self.elsewhere,
                ends=self._ends.get(annotated.view.id, ()),
                sides=self._sides(annotated, scale),
            )
        return self._placed[key]

    def _told_apart(self, annotated: Annotated, crowding: Crowding) -> Crowding:
        # A view without long notes is the same in narrow columns, one without any the same with keynotes.
        key = (annotated.view.id, crowding)
        if key not in self._apart:
            self._apart[key] = crowding if crowding_matters(annotated, crowding) else 0
        return self._apart[key]

    def scales(self, annotated: Annotated) -> tuple[Scale, ...]:
        return sensible(annotated.view.kind, self.manner.units)

    def least(self, annotated: Annotated, scale: Scale, crowding: Crowding = 2) -> tuple[float, float]:
        """A lower bound of the paper a view needs, mm: found without placing it."""
        key = (annotated.view.id, scale.ratio, crowding)
        if key not in self._least:
            beside = least_beside(annotated, crowding)
            self._least[key] = least_size(annotated, scale.ratio, self._sides(annotated, scale), beside)
        return self._least[key]

    def _sides(self, annotated: Annotated, scale: Scale) -> dict[Side, SideLanes]:
        key = (annotated.view.id, scale.ratio)
        if key not in self._lanes:
            self._lanes[key] = lanes_round(annotated, scale.ratio, self.manner)
        return self._lanes[key]

    def fits(
        self, annotated: Annotated, scale: Scale, room: tuple[float, float], crowding: Crowding
    ) -> Placed | None:
        """The view at a scale if it fits a room (width, height), mm; None if not."""
        least_w, least_h = self.least(annotated, scale, crowding)
        if least_w > room[0] or least_h > room[1]:
            return None
        placed = self.at(annotated, scale, crowding)
        return placed if placed.size[0] <= room[0] and placed.size[1] <= room[1] else None

    def roomiest(self, annotated: Annotated, scale: Scale, room: tuple[float, float]) -> Placed:
        """The view at a scale in the least crowded manner that fits, or in the most crowded if none does."""
        fitting = (self.fits(annotated, scale, room, crowding) for crowding in CROWDINGS)
        return next((p for p in fitting if p is not None), self.at(annotated, scale, CROWDINGS[-1]))

    def largest(self, annotated: Annotated, width: float, height: float) -> Placed | None:
        """The view at the largest of its scales that fits, or None.

        Keynotes, which send the reader to and fro, are taken only where they make it about twice as large.
        """
        scales = self.scales(annotated)
        wanted = [s for s in scales if s.ratio >= WANTED.get(annotated.view.kind, 2)]
        for group in (wanted, scales) if wanted else (scales,):
            plain = self._first(annotated, group, (width, height), PLAIN)
            least = plain.scale.ratio * KEYNOTES_GAIN if plain else 0
            keyed = self._first(annotated, [s for s in group if s.ratio >= least], (width, height), KEYED)
            if keyed or plain:
                return keyed or plain
        return None

    def _first(
        self,
        annotated: Annotated,
        scales: Sequence[Scale],
        room: tuple[float, float],
        crowdings: Sequence[Crowding],
    ) -> Placed | None:
        tried = (self.fits(annotated, s, room, c) for s in scales for c in crowdings)
        return next((p for p in tried if p is not None), None)

    def in_parts(self, annotated: Annotated, width: float, height: float) -> tuple[Placed, ...]:
        """A view too wide for a room, in the fewest parts that fit it, meeting at match lines; () if none
        do."""
        whole = annotated.view.id
        for count in range(2, MOST_PARTS + 1):
            parts = divided(annotated, count, self.manner)
            # The first part has the id of the whole: what was placed of that is forgotten.
            self._forget(whole)
            self._ends.update({part.annotated.view.id: part.ends for part in parts})
            placed = [self.largest(part.annotated, width, height) for part in parts]
            if all(p is not None for p in placed):
                return tuple(p for p in placed if p is not None)
            for part in parts:
                key_of = part.annotated.view.id
                self._ends.pop(key_of)
                self._forget(key_of)
        return ()

    def _forget(self, view_id: str) -> None:
        self._placed = {key: p for key, p in self._placed.items() if key[0] != view_id}
        self._least = {key: p for key, p in self._least.items() if key[0] != view_id}
        self._lanes = {key: p for key, p in self._lanes.items() if key[0] != view_id}
        self._apart = {key: p for key, p in self._apart.items() if key[0] != view_id}
