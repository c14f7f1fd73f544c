"""The whole spec language as one type. A section that is not written is not built, and is None or empty
here.
"""

from collections.abc import Iterator
from typing import Literal, get_args

from sheets.grammar.casework import (
    Backer,
    Case,
    CaseCap,
    Cases,
    FaceFrame,
    Graduated,
    Groove,
    Joint,
    Lip,
    Offset,
    Plinth,
    Ratio,
    Shelves,
    Tongue,
)
from sheets.grammar.hearth import (
    ApplianceFrame,
    Arch,
    Chimney,
    Corbels,
    Curve,
    Fascia,
    Fireplace,
    Hearth,
    Hung,
    Kerfs,
    Layers,
    Lining,
    Mantel,
    MantelCap,
    MasonryWork,
    Opening,
    Posts,
    SawCuts,
    Surround,
)
from sheets.grammar.listing import (
    FacingClearance,
    FramingOpening,
    HeightClearance,
    ListedHearth,
    Listing,
    MantelClearance,
    ServiceSpace,
    SideClearance,
)
from sheets.grammar.overmantel import FramePanel, Overmantel
from sheets.grammar.room import (
    Baseboard,
    Ceiling,
    Doorway,
    Masonry,
    Material,
    OtherMaterial,
    Panel,
    Project,
    Room,
    Sheet,
    SolidWood,
    Vault,
)
from sheets.grammar.shop import (
    Checks,
    Fasteners,
    Labels,
    Notes,
    Patterns,
    Revision,
    Revisions,
    Stock,
    Void,
    Waiver,
)
from sheets.grammar.values import CodesWord, Size, Words, defaults, either


class Spec(Words):
    """A built-in wall as written, with defaults filled in. All lengths are exact millimetres (`Fraction`).

    units: what a bare number means. precision: the grid that derived sizes land on. materials: by role name.
    codes: what judges the fireplace: none, manual, IRC, IRC with an edition, or the path of a table beside
    the spec; left out, inches are judged by the IRC and millimetres by the strictest figures known, as
    warnings. A Spec comes from `reader.read_spec` or `reader.read_spec_text`; both fill in inherited
    materials first.
    """

    project: Project
    units: Literal["inch", "mm"] = "inch"
    precision: Size = either("1/16", "1")
    dimensions: Literal["feet-inches", "inches", "mm"]
    codes: CodesWord | None = None
    sheet: Sheet
    materials: dict[str, Material]
    room: Room
    fireplace: Fireplace | None = None
    surround: Surround | None = None
    mantel: Mantel | None = None
    overmantel: Overmantel | None = None
    cases: Cases = ()
    notes: Notes = ()
    checks: Checks = defaults()
    stock: Stock = defaults()
    fasteners: Fasteners = defaults()
    labels: Labels = defaults()
    patterns: Patterns = defaults()
    revisions: Revisions = ()

    @property
    def builds(self) -> bool:
        """Return whether there is anything in it that can be the whole of a spec."""
        said = [getattr(self, name) for name in type(self).model_fields]
        flat = [one for value in said for one in (value if isinstance(value, tuple) else (value,))]
        return any(isinstance(one, Words) and one.asked_for for one in flat)

    @classmethod
    def sections(cls) -> dict[str, tuple[type[Words], ...]]:
        """Return the types of words that each section may hold, by its name."""
        return {name: tuple(_words_in(info.annotation)) for name, info in cls.model_fields.items()}


def _words_in(annotation: object) -> Iterator[type[Words]]:
    if isinstance(annotation, type) and issubclass(annotation, Words):
        yield annotation
    for inner in get_args(annotation):
        yield from _words_in(inner)


__all__ = [
    "ApplianceFrame",
    "Arch",
    "Backer",
    "Baseboard",
    "Case",
    "CaseCap",
    "Ceiling",
    "Checks",
    "Chimney",
    "Corbels",
    "Curve",
    "Doorway",
    "FaceFrame",
    "FacingClearance",
    "Fascia",
    "Fasteners",
    "Fireplace",
    "FramePanel",
    "FramingOpening",
    "Graduated",
    "Groove",
    "Hearth",
    "HeightClearance",
    "Hung",
    "Joint",
    "Kerfs",
    "Labels",
    "Layers",
    "Lining",
    "Lip",
    "ListedHearth",
    "Listing",
    "Mantel",
    "MantelCap",
    "MantelClearance",
    "Masonry",
    "MasonryWork",
    "Material",
    "Offset",
    "Opening",
    "OtherMaterial",
    "Overmantel",
    "Panel",
    "Patterns",
    "Plinth",
    "Posts",
    "Project",
    "Ratio",
    "Revision",
    "Room",
    "SawCuts",
    "ServiceSpace",
    "Sheet",
    "Shelves",
    "SideClearance",
    "SolidWood",
    "Spec",
    "Stock",
    "Surround",
    "Tongue",
    "Vault",
    "Void",
    "Waiver",
]
