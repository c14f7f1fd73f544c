"""The text of a spec with the position of every value in it."""

from collections.abc import Iterable
from dataclasses import dataclass, field, replace

from sheets.base.diagnostics import Diagnostic, Place, SpecPath

Position = tuple[int, int]
"""Line and column, both from 0."""


@dataclass(frozen=True, slots=True)
class Source:
    """Where each value of a spec was written. Paths are steps from the top: ("cases", 0, "shelves",
    "count").
    """

    file: str
    lines: tuple[str, ...] = ()
    values: dict[SpecPath, Position] = field(default_factory=dict)
    keys: dict[SpecPath, Position] = field(default_factory=dict)
    nests: frozenset[SpecPath] = frozenset()

    def place_of(self, path: SpecPath) -> Place:
        """Return the place of a value: of its key when the value is a mapping or a list; of the nearest
        thing around it that is written when it is a default itself.
        """
        for length in range(len(path), -1, -1):
            found = path[:length]
            if found in self.nests and found in self.keys:
                return self.at(self.keys[found])
            if found in self.values:
                return self.at(self.values[found])
        return self.at((0, 0))

    def key_place(self, path: SpecPath) -> Place:
        """Return the place of a key, or what place_of returns when there is none."""
        return self.at(self.keys[path]) if path in self.keys else self.place_of(path)

    def is_written(self, path: SpecPath) -> bool:
        """Return whether the user wrote this value (else it is a default or inherited)."""
        return path in self.values

    def placed(self, found: Iterable[Diagnostic]) -> tuple[Diagnostic, ...]:
        """Return diagnostics of a later stage with the place of their spec path, where they have none yet."""
        return tuple(
            replace(d, place=self.place_of(d.path)) if d.place is None and d.path is not None else d
            for d in found
        )

    def at(self, position: Position) -> Place:
        """Return the place of a position in the text."""
        line, column = position
        text = self.lines[line] if line < len(self.lines) else ""
        return Place(self.file, line + 1, column + 1, text)
