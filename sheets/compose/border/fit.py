"""Lettering fitted in a box: full size first, then broken in lines, squeezed, and made smaller; never
over the line."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf

from sheets.compose.ink import LEAST_TEXT, width, words, wrapped
from sheets.compose.page_sizes import BLOCK
from sheets.drawing import lettering
from sheets.drawing.items import Text, Weight
from sheets.geometry.box import Box


@dataclass(frozen=True, slots=True)
class Fitted:
    """Lines of one height and squeeze that fit a box."""

    lines: tuple[str, ...]
    height: float
    squeeze: float

    @property
    def tall(self) -> float:
        """From the top of the first line's capitals to the last baseline, mm."""
        return self.height * (1 + BLOCK.leading * (len(self.lines) - 1))


def fitted(
    text: str,
    room: float,
    tall: float,
    *,
    height: float,
    least: float = LEAST_TEXT,
    lines: int = 1,
    weight: Weight = "regular",
    under: float = inf,
) -> Fitted | None:
    """Return the text as it fits in `room` by `tall` mm, or None if it does not even at its least height.

    under: how far letters may reach below the box they are centred in.
    """
    sizes = [h for h in (height, *BLOCK.heights, LEAST_TEXT) if least <= h <= height]
    for size in sorted(set(sizes), reverse=True):
        for squeeze in BLOCK.squeezes:
            broken = wrapped(text, room / squeeze, size, weight) if lines > 1 else (text,)
            result = Fitted(broken, size, squeeze)
            widest = max(width(part, size, weight) for part in broken) * squeeze
            below = max(0.0, _below(broken[-1], size) - under)
            if len(broken) <= lines and widest <= room and result.tall + 2 * below <= tall:
                return result
    return None


def _below(line: str, height: float) -> float:
    # How far letters as Q and , reach below their baseline.
    return -lettering.box(words(line, (0.0, 0.0), height))[1] if line else 0.0


def set_lines(
    result: Fitted, box: Box, *, align: str = "left", weight: Weight = "regular"
) -> tuple[Text, ...]:
    """Return the lines placed in a box, centred in its height."""
    x0, y0, x1, y1 = box
    x = {"left": x0, "centre": (x0 + x1) / 2, "right": x1}[align]
    top = (y0 + y1) / 2 + result.tall / 2
    return tuple(
        words(
            part,
            (x, top - result.height - k * BLOCK.leading * result.height),
            result.height,
            h=align,
            weight=weight,
            squeeze=result.squeeze,
        )
        for k, part in enumerate(result.lines)
        if part
    )
