"""Print how long the cutting plans of hard walls take: nothing but boards, or panels, no two alike."""

from __future__ import annotations

from fractions import Fraction
from time import process_time

from sheets.schedules.cutting_boards import cut_boards
from sheets.schedules.cutting_panels import cut_panels
from tests.schedules.conftest import FIR, OAK, PLY, block, make_wall

_COUNT = 300


def main() -> None:
    """Print seconds of this process for each wall; other work on the machine does not count."""
    boards = make_wall(
        *(
            block(
                f"cases/flanking/left/part-{n}",
                size=("3/4", Fraction(24 + (n * 13) % 40, 16), Fraction(160 + (n * 67) % 1100, 16)),
                material=(OAK, OAK, FIR)[n % 3],
                mark=f"P{n}",
            )
            for n in range(_COUNT)
        )
    )
    panels = make_wall(
        *(
            block(
                f"cases/flanking/left/part-{n}",
                size=("23/32", Fraction(100 + (n * 7) % 500, 16), Fraction(160 + (n * 37) % 1100, 16)),
                material=PLY,
                mark=f"P{n}",
            )
            for n in range(_COUNT)
        )
    )
    for name, plan, wall in (("boards", cut_boards, boards), ("panels", cut_panels, panels)):
        start = process_time()
        cutting = plan(wall)
        print(f"{_COUNT} {name}, no two alike: {process_time() - start:.1f} s")
        for each in cutting.plans:
            print(f"  {each.material.name}: {each.statement}")


if __name__ == "__main__":
    main()
