"""Runs: the stations of a wall sorted into rows that are dimensioned in one string each."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from sheets.base.keys import key_order, slug
from sheets.model.kind import Row, Rows
from sheets.model.part import Axis
from sheets.model.wall import Component, Rank, Station, Wall

Level = Literal["", "cases", "right cases", "middle", "mantel"]
"""The row of a run: `Row`, an own side told as left or right, as lines of what stands to the right of the
axis would cross the wall to the left."""


@dataclass(frozen=True, slots=True)
class Stop:
    """One place of a run, exact world mm, with what its stations say."""

    at: Fraction
    owners: tuple[str, ...]
    equal: bool
    verify: bool


@dataclass(frozen=True, slots=True)
class Run:
    """A row of stops along one world axis. `owner` is "" for a run of several components."""

    id: str
    axis: Axis
    rank: Rank
    level: Level
    owner: str
    name: str
    stops: tuple[Stop, ...]


def runs(wall: Wall) -> tuple[Run, ...]:
    """Return the runs of the wall, overall first, then major, then minor; mirrored twins only once.

    Major stations of all components that stand side by side make one run, whatever their chain; a chain with
    a minor station in it is a run of its own, its major stations included. A run of less than two stops
    measures nothing and is left out. Rows that go with a datum start there: heights at the floor,
    projections at the wall face, widths at the ends of the wall.
    """
    grouped: dict[tuple[Rank, Axis, Level, str, str], list[Station]] = defaultdict(list)
    fine = {(s.owner, s.axis, s.chain) for s in wall.stations if s.rank == "minor"}
    for station in wall.stations:
        component = wall.component_of(station.owner)
        level = _level(component, station.axis)
        if station.rank == "overall":
            grouped[("overall", station.axis, "", "", "overall")].append(station)
        if station.rank == "major":
            name = f"openings-{level}"
            grouped[("major", station.axis, level, "", name)].append(station)
        if (station.owner, station.axis, station.chain) in fine and not _is_twin(
            wall, station.owner, component
        ):
            grouped[("minor", station.axis, level, station.owner, station.chain or "parts")].append(station)
    for key, stations in grouped.items():
        rank, axis = key[0], key[1]
        if rank == "major":
            stations.extend(Station(axis, at, rank, "room") for at in _datum(wall, axis))
    found = [_run(key, stations) for key, stations in grouped.items()]
    order = {"overall": 0, "major": 1, "minor": 2}
    kept = [run for run in found if len(run.stops) > 1]
    return tuple(
        sorted(
            kept,
            key=lambda run: (order[run.rank], run.axis, run.level != "middle", run.level, key_order(run.id)),
        )
    )


def _level(component: Component | None, axis: Axis) -> Level:
    rows = component.kind.rows if component is not None else Rows(z="cases")
    row: Row = getattr(rows, axis)
    if row != "own side":
        return row
    # A mirrored twin says nothing that its left half does not.
    right = component is not None and component.extent.x0 >= 0 and not component.twin
    return "right cases" if right else "cases"


def _run(key: tuple[Rank, Axis, Level, str, str], stations: list[Station]) -> Run:
    rank, axis, level, owner, name = key
    by_place: dict[Fraction, list[Station]] = defaultdict(list)
    for station in stations:
        by_place[station.at].append(station)
    stops = tuple(
        Stop(
            at,
            tuple(sorted({station.owner for station in here} - {"room"}, key=key_order)),
            any(station.equal for station in here),
            any(station.verify for station in here),
        )
        for at, here in sorted(by_place.items())
    )
    name = slug(name)
    return Run(f"{name}-{axis}" + (f"/{owner}" if owner else ""), axis, rank, level, owner, name, stops)


def _datum(wall: Wall, axis: Axis) -> tuple[Fraction, ...]:
    half = wall.room.width / 2
    return (-half, half) if axis == "x" else (Fraction(0),)


def _is_twin(wall: Wall, owner: str, component: Component | None) -> bool:
    if component is not None and component.twin:
        return True
    return any(part.key == owner and part.twin for part in wall.parts)
