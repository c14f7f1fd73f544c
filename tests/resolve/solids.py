"""Do parts share space; does every part hang together with the room."""

from itertools import combinations

from sheets.base.tolerance import SAME_POINT
from sheets.geometry.contact import intersection_volume, touching
from sheets.geometry.solid import bounds
from sheets.model.part import Part

ARITHMETIC_MM3 = 1.0  # less than this is rounding, not wood


def overlapping(parts: tuple[Part, ...]) -> list[tuple[str, str]]:
    """Return the pairs of keys whose solids share volume."""
    return [
        (a.key, b.key)
        for a, b in combinations(parts, 2)
        if intersection_volume(a.solid, b.solid) > ARITHMETIC_MM3
    ]


def loose(parts: tuple[Part, ...]) -> list[str]:
    """Return the keys of parts that no chain of touching parts joins to the room."""
    boxes = {p.key: bounds(p.solid) for p in parts}
    by_key = {p.key: p for p in parts}
    reached = [p.key for p in parts if p.maker == "room"]
    seen = set(reached)
    while reached:
        key = reached.pop()
        for other, box in boxes.items():
            near = all(
                boxes[key][2 * k] <= box[2 * k + 1] + 0.1 and box[2 * k] <= boxes[key][2 * k + 1] + 0.1
                for k in range(3)
            )
            if other not in seen and near and touching(by_key[key].solid, by_key[other].solid):
                seen.add(other)
                reached.append(other)
    return sorted(set(boxes) - seen)


def disagreeing(parts: tuple[Part, ...]) -> list[str]:
    """Return the keys of parts whose solid does not just fill their extent."""
    made = []
    for part in parts:
        e, box = part.extent, bounds(part.solid)
        ends = (e.x0, e.x1, e.y0, e.y1, e.z0, e.z1)
        if any(abs(end - side) > SAME_POINT for end, side in zip(ends, box, strict=True)):
            made.append(part.key)
    return made
