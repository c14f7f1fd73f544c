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
    "same_angle": Tolerance(
        1e-9, "rad", "Turns a 1 m edge by 1e-6 mm: the same_point tolerance at that length."
    ),
    "same_area": Tolerance(
        1e-3, "mm2", "same_point along a 1 m edge: smaller regions are slivers of arithmetic."
    ),
    "same_volume": Tolerance(
        1.0, "mm3", "same_area through a 1 m board: a smaller overlap of two parts is arithmetic, not wood."
    ),
    "chord_height": Tolerance(
        0.01,
        "mm",
        "An arc handed to shapely as chords leaves the true curve by less than a pencil line at full size.",
    ),
    "paper": Tolerance(
        0.005,
        "mm",
        "A printer of 2400 dots an inch places a dot 0.011 mm from the next: less cannot be seen.",
    ),
}

SAME_POINT_MM = TABLE["same_point"].value
SAME_ANGLE_RAD = TABLE["same_angle"].value
SAME_AREA_MM2 = TABLE["same_area"].value
SAME_VOLUME_MM3 = TABLE["same_volume"].value
CHORD_HEIGHT_MM = TABLE["chord_height"].value
PAPER_MM = TABLE["paper"].value


def settled(value: float, digits: int) -> float:
    """Return a float of geometry rounded, the same for results that are the same but for arithmetic.

    Sizes in inches end in 5 at some digit. There the last bits of a float would choose the side, so what is
    within a same_point is settled first. Never -0.0.
    """
    return round(round(value, 6), digits) + 0.0
