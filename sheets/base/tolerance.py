"""One table of tolerances, each with its reason. Nothing else in the program invents its own.

Exact lengths need none: these are for floats, which begin in geometry.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Tolerance:
    """A size below which two float results are the same, its unit, and why it is what it is."""

    value: float
    unit: str
    reason: str


TABLE: dict[str, Tolerance] = {
    "same_point": Tolerance(
        1e-6,
        "mm",
        "Floats of a 10 m wall carry about 2e-12 mm; some thousand operations stay far below this, and "
        "the finest real step (1/64 in = 0.397 mm) is far above it.",
    ),
    "same_volume": Tolerance(
        1.0,
        "mm3",
        "A same_point over a square metre: a smaller overlap of two parts is arithmetic, not wood.",
    ),
    "chord_height": Tolerance(
        0.01,
        "mm",
        "An arc handed to shapely as chords leaves the true curve by less than a pencil line at full size.",
    ),
    "sliver": Tolerance(
        1e-5, "mm", "A region of a smaller mean width, twice its area over its perimeter, is rounding noise."
    ),
    "tangent": Tolerance(
        1e-6, "rad", "Paths that meet with a smaller turn are smooth: no edge is drawn between them."
    ),
    "abreast": Tolerance(
        1e-4, "mm", "An edge seen as near as this to the border of a face, parallel to it, lies on it."
    ),
    "nearer": Tolerance(
        0.05,
        "mm",
        "A face hides an edge only if it is nearer by more: touching parts do not, nor does a curved face "
        "taken as strips hide an edge on it. Thinner than any veneer.",
    ),
    "step_probe": Tolerance(
        0.05,
        "mm",
        "Depth is probed this far to either side of a seen edge: finer than any gap that is built.",
    ),
}

SAME_POINT = TABLE["same_point"].value
SAME_VOLUME = TABLE["same_volume"].value
CHORD_HEIGHT = TABLE["chord_height"].value
SLIVER = TABLE["sliver"].value
TANGENT = TABLE["tangent"].value
ABREAST = TABLE["abreast"].value
NEARER = TABLE["nearer"].value
STEP_PROBE = TABLE["step_probe"].value


def settled(value: float, digits: int) -> float:
    """Return a float of geometry rounded, the same for results that are the same but for arithmetic.

    Sizes in inches end in 5 at some digit. There the last bits of a float would choose the side, so what is
    within a same_point is settled first. Never -0.0.
    """
    return round(round(value, 6), digits) + 0.0
