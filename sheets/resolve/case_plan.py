"""The planes of one case: every coordinate that its pieces are built between. World frame, exact mm."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from sheets.base.diagnostics import Diagnostic
from sheets.base.length import snap
from sheets.grammar.inherit import SECONDARY
from sheets.grammar.measure import clear_height, crosses_plinth, written
from sheets.grammar.schema import Case, Lip, Spec
from sheets.model.part import Material, Provenance
from sheets.resolve.boards import lay_boards
from sheets.resolve.built import Built, Origin, left_over
from sheets.resolve.case_openings import Span, lay_openings
from sheets.resolve.layout import Standing
from sheets.resolve.materials import Materials, Sizes
from sheets.resolve.shelving import Bays, lay_bays

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
    board: Fraction  # thickness of sides, bottom, top and dividers
    hidden: Material  # of what is not seen
    rail: Fraction  # thickness of the rails at the wall
    plinth_seen: bool  # no baseboard covers it
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
    seen: tuple[Span, ...]  # x of what is seen of each, between stiles and mullions
    bays: Bays
    shelf: Fraction
    lip: Fraction  # of solid wood before a shelf of a panel, 0 without
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
        if backer is None or backer.kind == "plain" or backer.direction == "horizontal":
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


def plan_case(
    spec: Spec, origin: Origin, standing: Standing, materials: Materials
) -> tuple[CasePlan | None, Built]:
    """Return the planes, and what the grid left over; None with the reasons why the case cannot be built."""
    case, path, grid = standing.case, standing.path, spec.precision
    board = materials.thickness(case.material)
    top = standing.cap_bottom - board
    bottom = top - clear_height(case, spec)
    dado = case.shelves.joint.dado if case.shelves else snap(board / 3, grid, "down") or board / 3
    openings = lay_openings(standing, board, grid)
    bays = _bays(case, top - bottom, grid)
    shelf = case.shelves.thickness if case.shelves else Fraction(0)
    edge = case.shelves.edge if case.shelves else None
    rail = materials.thickness(SECONDARY) if case.backer else board
    standing = openings.standing
    plan = CasePlan(
        standing=standing,
        key=standing.key,
        case=case,
        sizes=materials.sizes,
        path=path,
        made_from=origin.made_from(path),
        sections={name: origin.made_from((*path, name)) for name in _SECTIONS},
        carcass=materials[case.material],
        board=board,
        hidden=materials.secondary,
        rail=rail,
        plinth_seen=not _covered_plinth(case, spec),
        dado=dado,
        # A divider is housed from both faces: half of it at least is left between them.
        divider_dado=min(dado, snap(board / 4, grid, "down") or board / 4),
        front=case.depth,
        carcass_front=case.depth - (case.frame.thickness if case.frame else 0),
        backer=_backer(case, rail, grid),
        plinth_top=case.plinth.height if case.plinth else Fraction(0),
        bottom=bottom,
        top=top,
        carcass_top=standing.cap_bottom,
        openings=openings.clear,
        seen=openings.seen,
        bays=bays,
        shelf=shelf,
        lip=edge.thickness if isinstance(edge, Lip) else Fraction(0),
        shelf_levels=_shelf_levels(bottom, bays, shelf),
    )
    found = (*_refused(spec, origin, plan, materials), *_refused_bays(spec, origin, plan))
    # Between stiles and mullions there is something to measure only where all else can be built.
    found = found or tuple(_refused_frame(spec, origin, plan))
    if found:
        return None, Built(found=found)
    spared = bays.leftover if plan.shelf_levels else Fraction(0)
    over = left_over(plan.key, "clear height of the bays", spared, bays.placed)
    over += left_over(plan.key, "width of the openings", openings.leftover, openings.placed)
    return plan, Built(leftovers=over)


def _backer(case: Case, rail: Fraction, grid: Fraction) -> Span:
    """From the wall out, where the backer lies: its face is on the grid, so that what stands before it is cut
    on the grid; what that leaves over is behind a panel of odd thickness, before the rail.
    """
    if case.backer is None:
        return Fraction(0), Fraction(0)
    face = snap(rail + case.backer.thickness, grid, "up")
    return face - case.backer.thickness, face


def _covered_plinth(case: Case, spec: Spec) -> bool:
    board = spec.room.baseboard
    return bool(board and case.plinth and crosses_plinth(board, case) and case.plinth.height == board.height)


def _bays(case: Case, clear: Fraction, grid: Fraction) -> Bays:
    shelves = case.shelves
    if shelves is None:
        return lay_bays(clear, 0, "even", grid)
    return lay_bays(clear - shelves.count * shelves.thickness, shelves.count, shelves.spacing, grid)


def _shelf_levels(bottom: Fraction, bays: Bays, shelf: Fraction) -> tuple[Fraction, ...]:
    levels = []
    z = bottom
    for height in bays.heights[:-1]:
        levels.append(z + height)
        z += height + shelf
    return tuple(levels)


def _refused(spec: Spec, origin: Origin, plan: CasePlan, materials: Materials) -> Iterator[Diagnostic]:
    """Yield what the boards of the carcass, its frame and its plinth leave no room for."""
    case, path, wide = plan.case, plan.path, plan.standing.width
    if not plan.openings:
        yield origin.fault(
            "case-width",
            (*path, "width"),
            f"sides and dividers leave nothing of a width of {written(wide, spec)}",
        )
    if case.frame and wide <= (case.bays + 1) * case.frame.stile:
        yield origin.fault(
            "case-width",
            (*path, "frame", "stile"),
            f"the stiles leave no opening in a width of {written(wide, spec)}",
        )
    if case.frame and 2 * case.frame.rail >= plan.carcass_top - plan.plinth_top:
        yield origin.fault("too-high", (*path, "frame", "rail"), "two rails leave no opening between them")
    if plan.top - plan.bottom <= 0:
        yield origin.fault(
            "too-low",
            (*path, "height"),
            f"plinth, cap and boards leave nothing of a height of {written(case.height, spec)}",
        )
    if plan.carcass_front - plan.lip - plan.back < plan.board:
        yield origin.fault(
            "too-deep",
            (*path, "depth"),
            f"nailing rail, backer and face frame leave less than a board's "
            f"thickness of a depth of {written(case.depth, spec)}",
        )
    if plan.dado >= plan.board:
        yield origin.fault("dado", (*path, "shelves", "joint", "dado"), "the dado goes through the side")
    plinth = case.plinth
    if plinth and case.depth - plinth.setback - materials.thickness(plinth.material) <= plan.rail:
        yield origin.fault(
            "too-deep", (*path, "plinth", "setback"), "the plinth is set back beyond the case's depth"
        )


def _refused_bays(spec: Spec, origin: Origin, plan: CasePlan) -> Iterator[Diagnostic]:
    if plan.bays.fault and plan.top > plan.bottom:
        count = plan.case.shelves.count if plan.case.shelves else 0
        yield origin.fault(
            "shelves",
            (*plan.path, "shelves", "spacing"),
            f"{plan.bays.fault}: {count} shelves of "
            f"{written(plan.shelf, spec)} in a clear height of {written(plan.top - plan.bottom, spec)}",
        )


def _refused_frame(spec: Spec, origin: Origin, plan: CasePlan) -> Iterator[Diagnostic]:
    frame = plan.case.frame
    if frame and not plan.seen:
        yield origin.fault(
            "case-width",
            (*plan.path, "bays"),
            f"stiles and mullions of {written(frame.stile, spec)} leave no opening between them",
        )


def ends_of(place: int, count: int) -> tuple[str, str]:
    """Return the steps of what a piece in this compartment of so many ends at, left and right."""
    left = "side-left" if place == 0 else f"divider-{place}"
    return left, "side-right" if place == count - 1 else f"divider-{place + 1}"


def shelf_step(bay: int, count: int, number: int) -> str:
    """Return the step of a shelf: its number from the bottom up in a bay, counted from 1, of so many."""
    return f"shelf-{number}" if count == 1 else f"bay-{bay}-shelf-{number}"
