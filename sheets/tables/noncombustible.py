"""What does not burn: a closed list of materials by whole name. What is not in it counts as combustible."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from sheets.base.diagnostics import nearest
from sheets.tables.match import names_of, plain_name
from sheets.tables.read import Cited, cited, rows

IMITATIONS = frozenset(
    (
        "acrylic", "applique", "artificial", "clad", "coated", "composite", "cultured", "effect",
        "engineered", "epoxy", "fake", "faced", "faux", "film", "foam", "foil", "imitation", "laminate",
        "laminated", "like", "look", "mock", "paper",
        "plastic", "polymer", "polyurethane", "printed", "replica", "resin",
        "simulated", "solid surface", "sticker", "style", "synthetic", "vinyl", "veneer", "veneered",
        "wallpaper", "wrap", "wrapped",
    )
)  # fmt: skip
"""Words of a name or a finish that say a thing looks like another: what carries the look may burn."""


@dataclass(frozen=True, slots=True)
class Noncombustible:
    """One known material, and where it is said that it does not burn."""

    name: str
    names: frozenset[str]
    cited: Cited


@cache
def noncombustibles() -> tuple[Noncombustible, ...]:
    """Return the list in its order."""
    return tuple(
        Noncombustible(row["name"], names_of(row["name"], row["synonyms"]), cited(row))
        for row in rows("noncombustible")
    )


def noncombustible_named(name: str) -> Noncombustible | None:
    """Return the material of exactly this name or synonym; None for any other, which counts as combustible.

    Case, hyphens and the order 'tile, glazed' do not matter; a name with a further word is another name.
    """
    plain = plain_name(name)
    return next((each for each in noncombustibles() if plain in each.names), None)


def imitation_in(text: str) -> str:
    """Return the first word of a name or a finish that means an imitation, "" when there is none."""
    plain = plain_name(text)
    padded = f" {plain} "
    return next((word for word in sorted(IMITATIONS) if f" {word} " in padded), "")


def nearest_noncombustible(name: str) -> str | None:
    """Return the name in the list that a name was most likely meant to be, or None."""
    known = sorted({each for row in noncombustibles() for each in row.names})
    return nearest(plain_name(name), known)
