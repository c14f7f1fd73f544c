"""The planes of one case: every coordinate that its pieces are built between. World frame, exact mm."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from sheets.base.length import snap, split_even
from sheets.grammar.measure import clear_height, written
from sheets.grammar.schema import Case, Spec
from sheets.model.part import Material, Provenance
from sheets.resolve.boards import lay_boards
from sheets.resolve.gather import Gathered
from sheets.resolve.layout import Standing
from sheets.resolve.materials import Materials, Sizes
from sheets.resolve.shelving import Bays, lay_bays

Span = tuple[Fraction, Fraction]
_SECTIONS = ("frame", "plinth", "shelves", "cap", "backer")


@dataclass(frozen=True, slots=True)
class CasePlan:
    """What the pieces of a case are built between."""

    standing: Standing
    key: str
    case: Case
    sizes: Sizes
    path: tuple[str | int, ...]
    made_from: Provenance
    sections: Mapping[str, Provenance]
    carcass: Material
    board: Fraction  # thickness of sides, bottom, top, dividers and nailing rails
    dado: Fraction  # depth in the sides
    divider_dado: Fraction  # depth in each face of a divider
    front: Fraction  # y of the case front
    carcass_front: Fraction  # y of the carcass behind the frame
    backer: Span  # y of the backer boards; empty span at the wall without
    plinth_top: Fraction
    bottom: Fraction  # z of the bottom's top
    top: Fraction  # z of the top's underside
    carcass_top: Fraction
    openings: tuple[Span, ...]  # x of the compartments, clear between sides and dividers
    bays: Bays
    shelf: Fraction
    shelf_levels: tuple[Fraction, ...]  # undersides

    def said_in(self, section: str) -> Provenance:
        """Where the spec says a section of the case: "shelves", "frame"."""
        return self.sections.get(section, self.made_from)

    @property
    def x0(self) -> Fraction:
        return self.standing.x0

    @property
    def x1(self) -> Fraction:
        return self.standing.x1

    @property
    def clear(self) -> Span:
        """The width between the sides."""
        return (self.x0 + self.board, self.x1 - self.board)

    @property
    def back(self) -> Fraction:
        """y of the face that shelves and dividers meet at the back."""
        return self.backer[1]

    @property
    def section_at(self) -> Fraction:
        """x near the middle of the first compartment where a section runs along no joint of two backer
        boards."""
        left, right = self.openings[0]
        middle = (left + right) / 2
        backer = self.case.backer
        if backer is None or backer.direction == "horizontal":
            return middle
        at = self.clear[0]
        for face in lay_boards(self.clear[1] - self.clear[0], backer.face, self.sizes.grid).faces:
            if at <= middle < at + face:
                return at + face / 2
            at += face
        return middle

    @property
    def title(self) -> str:
        """The case's name as it is printed: FLANKING CASE."""
        name = self.case.name.strip().upper()
        return name if name.endswith(("CASE", "BOOKCASE")) else f"{name} CASE"


def plan_case(spec: Spec, gathered: Gathered, standing: Standing, materials: Materials) -> CasePlan | None:
    """Return the planes, or None after saying why the case cannot be built."""
    case, path = standing.case, ("cases", standing.index)
    board = materials.thickness(case.material)
    frame = case.frame.thickness if case.frame else Fraction(0)
    carcass_front = case.depth - frame
    backer = (board, board + case.backer.thickness) if case.backer else (Fraction(0), Fraction(0))
    carcass_top = standing.cap_bottom
    plinth_top = case.plinth.height if case.plinth else Fraction(0)
    top = carcass_top - board
    bottom = top - clear_height(case, spec)
    dado = case.shelves.joint.dado if case.shelves else snap(board / 3, spec.precision, "down") or board / 3
    # A divider is housed from both faces: half of it at least is left between them.
    divider_dado = min(dado, snap(board / 4, spec.precision, "down") or board / 4)
    before = len(gathered.diagnostics)
    inner = standing.width - 2 * board
    dividers = case.bays - 1
    if inner - dividers * board < case.bays * spec.precision:
        gathered.say(
            "case-width",
            (*path, "width"),
            f"sides and dividers leave nothing of a width of {written(standing.width, spec)}",
        )
    if case.frame and standing.width <= 2 * case.frame.stile + dividers * case.frame.stile:
        gathered.say(
            "case-width",
            (*path, "frame", "stile"),
            f"the stiles leave no opening in a width of {written(standing.width, spec)}",
        )
    if case.frame and 2 * case.frame.rail >= carcass_top - plinth_top:
        gathered.say("too-high", (*path, "frame", "rail"), "two rails leave no opening between them")
    if top - bottom <= 0:
        gathered.say(
            "too-low",
            (*path, "height"),
            f"plinth, cap and boards leave nothing of a height of {written(case.height, spec)}",
        )
    if carcass_front - backer[1] < board:
        gathered.say(
            "too-deep",
            (*path, "depth"),
            f"nailing rail, backer and face frame leave less than a board's "
            f"thickness of a depth of {written(case.depth, spec)}",
        )
    if dado >= board:
        gathered.say("dado", (*path, "shelves", "joint", "dado"), "the dado goes through the side")
    if case.plinth and case.depth - case.plinth.setback - materials.thickness(case.plinth.material) <= board:
        gathered.say(
            "too-deep", (*path, "plinth", "setback"), "the plinth is set back beyond the case's depth"
        )
    shelf = case.shelves.thickness if case.shelves else Fraction(0)
    count = case.shelves.count if case.shelves else 0
    spacing = case.shelves.spacing if case.shelves else "even"
    bays = lay_bays(top - bottom - count * shelf, count, spacing, spec.precision)
    if bays.fault and top > bottom:
        gathered.say(
            "shelves",
            (*path, "shelves", "spacing"),
            f"{bays.fault}: {count} shelves of "
            f"{written(shelf, spec)} in a clear height of {written(top - bottom, spec)}",
        )
    if len(gathered.diagnostics) > before:
        return None
    if count:
        gathered.left_over(standing.key, "clear height of the bays", bays.leftover, bays.placed)
    widths, leftover = split_even(inner - dividers * board, case.bays, spec.precision)
    if case.bays > 1:
        gathered.left_over(standing.key, "clear width of the compartments", leftover, "half at each end")
    openings = []
    at = standing.x0 + board
    for width in widths:
        openings.append((at, at + width))
        at += width + board
    if case.frame and not _frame_has_room(standing, case.frame.stile, openings):
        gathered.say(
            "case-width",
            (*path, "bays"),
            f"stiles and mullions of {written(case.frame.stile, spec)} leave no opening between them",
        )
        return None
    levels = []
    z = bottom
    for height in bays.heights[:-1]:
        levels.append(z + height)
        z += height + shelf
    return CasePlan(
        standing=standing,
        key=standing.key,
        case=case,
        sizes=materials.sizes,
        path=path,
        made_from=gathered.made_from(path),
        sections={name: gathered.made_from((*path, name)) for name in _SECTIONS},
        carcass=materials[case.material],
        board=board,
        dado=dado,
        divider_dado=divider_dado,
        front=case.depth,
        carcass_front=carcass_front,
        backer=backer,
        plinth_top=plinth_top,
        bottom=bottom,
        top=top,
        carcass_top=carcass_top,
        openings=tuple(openings),
        bays=bays,
        shelf=shelf,
        shelf_levels=tuple(levels),
    )


def _frame_has_room(standing: Standing, stile: Fraction, openings: list[Span]) -> bool:
    """Whether every compartment shows between the stiles and the mullions on its dividers."""
    edges = [standing.x0 + stile]
    for (_, low), (high, _) in pairwise(openings):
        middle = (low + high) / 2
        edges += [middle - stile / 2, middle + stile / 2]
    edges.append(standing.x1 - stile)
    return all(a < b for a, b in zip(edges[::2], edges[1::2], strict=True))


def ends_of(place: int, count: int) -> tuple[str, str]:
    """Return the steps of what a piece in this compartment of so many ends at, left and right."""
    left = "side-left" if place == 0 else f"divider-{place}"
    return left, "side-right" if place == count - 1 else f"divider-{place + 1}"
