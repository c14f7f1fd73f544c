"""The mantel: its layers, posts, corbels and arch around the opening and under the ceiling."""

from fractions import Fraction

from sheets.base.diagnostics import SpecPath
from sheets.base.source import Source
from sheets.grammar.measure import (
    arc_radius,
    arch_chord,
    highest_here,
    is_under_ceiling,
    layers_height,
    mantel_width,
    opening_top,
    written,
)
from sheets.grammar.rules.fault import Findings, error
from sheets.grammar.schema import Arch, Mantel, SawCuts, SolidWood, Spec


def check(spec: Spec, source: Source) -> Findings:
    """Yield what does not fit about the mantel."""
    mantel = spec.mantel
    if mantel is None:
        return
    outline = (*_width(spec, mantel, source), *_layers(spec, mantel, source))
    yield from outline
    if not outline:
        # What hangs under layers that do not fit would only be told to hang too low.
        yield from _corbels(spec, mantel, source)
        if mantel.arch:
            yield from _arch(spec, mantel, mantel.arch, source)
    for name, layer in (("fascia", mantel.layers.fascia), ("sub_fascia", mantel.layers.sub_fascia)):
        if layer:
            path = ("mantel", "layers", name)
            yield from saw_cuts(
                spec, source, (*path, "saw_cuts"), layer.saw_cuts, layer.height, layer.thickness
            )
            if layer.setback >= mantel.breast:
                yield error(
                    source, (*path, "setback"), "setback", "this setback is not less than the breast is proud"
                )
    cap = mantel.layers.cap
    if cap:
        cuts = ("mantel", "layers", "cap", "saw_cuts")
        yield from saw_cuts(spec, source, cuts, cap.saw_cuts, cap.thickness, mantel.breast)


def saw_cuts(
    spec: Spec, source: Source, path: SpecPath, cuts: SawCuts | None, face: Fraction, thickness: Fraction
) -> Findings:
    """Yield what is wrong with saw cuts in a face of this height on a piece of this thickness, both mm."""
    if cuts is None:
        return
    if cuts.count * cuts.width >= face:
        yield error(
            source,
            (*path, "width"),
            "saw-cuts",
            f"{cuts.count} saw cuts of {written(cuts.width, spec)} leave nothing of a face of "
            f"{written(face, spec)}",
        )
    if cuts.depth >= thickness:
        yield error(
            source,
            (*path, "depth"),
            "saw-cuts",
            f"a saw cut {written(cuts.depth, spec)} deep goes through {written(thickness, spec)}",
        )


def _width(spec: Spec, mantel: Mantel, source: Source) -> Findings:
    width = mantel_width(spec)
    if width is None:
        yield error(
            source,
            ("mantel",),
            "missing-key",
            "the mantel's width is missing: there is no surround to take it from",
            "Write `width: ...` here.",
        )
        return
    if width > spec.room.width:
        yield error(
            source,
            ("mantel", "width"),
            "too-wide",
            f"the mantel is {written(width, spec)} wide, the wall {written(spec.room.width, spec)}",
        )
    fireplace = spec.fireplace
    opening = fireplace.opening.width if fireplace else Fraction(0)
    for name, piece in (("posts", mantel.posts), ("corbels", mantel.corbels)):
        if piece is None:
            continue
        between = width - 2 * piece.width
        path = ("mantel", name, "width")
        if between <= 0:
            yield error(
                source,
                path,
                "too-wide",
                f"two {name} of {written(piece.width, spec)} leave nothing between "
                f"them in a mantel of {written(width, spec)}",
            )
        elif fireplace and between < opening and (name == "posts" or _reaches_opening(spec, mantel)):
            yield error(
                source,
                path,
                "opening-collides",
                f"between the {name} {written(between, spec)} is free; "
                f"the opening is {written(opening, spec)} "
                "wide",
            )
            return
    if not mantel.posts and width < opening:
        yield error(
            source, ("mantel", "width"), "opening-collides", "the mantel is narrower than the opening"
        )


def _reaches_opening(spec: Spec, mantel: Mantel) -> bool:
    if not (mantel.corbels and spec.fireplace):
        return False
    return mantel.top - layers_height(mantel) - mantel.corbels.height < opening_top(spec.fireplace)


def _layers(spec: Spec, mantel: Mantel, source: Source) -> Findings:
    layers = mantel.layers
    if not (layers.cap or layers.fascia or layers.sub_fascia):
        yield error(
            source,
            ("mantel", "layers"),
            "no-layers",
            "this mantel has no layer",
            "Write cap, fascia or sub_fascia here.",
        )
    room = spec.room
    if not is_under_ceiling(room.ceiling, room.width, (mantel_width(spec) or Fraction(0)) / 2, mantel.top):
        yield error(
            source,
            ("mantel", "top"),
            "too-high",
            f"the mantel's top at {written(mantel.top, spec)} is not under the ceiling",
            highest_here(spec, (mantel_width(spec) or Fraction(0)) / 2),
        )
    height = layers_height(mantel)
    floor = opening_top(spec.fireplace) if spec.fireplace else Fraction(0)
    if floor >= mantel.top:
        # No mantel could be above this opening, so it is the opening that is wrong.
        at_sill = source.is_written(("fireplace", "sill"))
        yield error(
            source,
            ("fireplace", "sill") if at_sill else ("fireplace", "opening", "height"),
            "opening-collides",
            f"the top of the opening, {written(floor, spec)} above the floor, collides with the mantel, "
            f"whose own top is at {written(mantel.top, spec)}",
        )
    elif height > mantel.top - floor:
        space = "between the mantel's top and the opening" if spec.fireplace else "under the mantel's top"
        highest = "fascia" if layers.fascia else "sub_fascia" if layers.sub_fascia else "cap"
        yield error(
            source,
            ("mantel", "layers", highest),
            "opening-collides" if spec.fireplace else "too-high",
            f"the layers are {written(height, spec)} high together; {space} there are "
            f"{written(mantel.top - floor, spec)}",
        )


def _corbels(spec: Spec, mantel: Mantel, source: Source) -> Findings:
    corbels = mantel.corbels
    if corbels is None:
        return
    path = ("mantel", "corbels")
    if corbels.height > mantel.top - layers_height(mantel):
        yield error(source, (*path, "height"), "too-high", "the corbels reach below the floor")
    rise = corbels.curve.rise
    if rise > corbels.height / 2:
        yield error(
            source,
            (*path, "curve", "rise"),
            "arc-rise",
            f"a curve that rises {written(rise, spec)} on a chord of {written(corbels.height, spec)} is "
            "no arc "
            "of a circle",
            "An arc rises at most half its chord.",
        )
    elif rise >= corbels.projection:
        yield error(
            source, (*path, "curve", "rise"), "arc-rise", "the curve goes deeper than the corbel stands out"
        )
    if mantel.posts and corbels.width > mantel.posts.width:
        yield error(
            source,
            (*path, "width"),
            "too-wide",
            f"the corbels are wider than their posts of {written(mantel.posts.width, spec)}",
        )


def _arch(spec: Spec, mantel: Mantel, arch: Arch, source: Source) -> Findings:
    path = ("mantel", "arch")
    chord = arch_chord(arch, spec.fireplace)
    if chord is None:
        yield error(
            source,
            path,
            "missing-key",
            "the arch's chord is missing: there is no opening to take it from",
            "Write `chord: ...` here.",
        )
        return
    if arch.rise > chord / 2:
        yield error(
            source,
            (*path, "rise"),
            "arc-rise",
            f"the arch rises {written(arch.rise, spec)}, more than half its chord of {written(chord, spec)}",
            "An arc rises at most half its chord.",
        )
        return
    if arch.rise >= arch.rail:
        yield error(
            source,
            (*path, "rise"),
            "arc-rise",
            f"the arch cuts through its rail of {written(arch.rail, spec)}",
        )
        return
    yield from _lining(spec, mantel, arch, source)
    width = mantel_width(spec)
    clear = width - 2 * (mantel.posts.width if mantel.posts else 0) if width else None
    if clear is not None and chord > clear:
        yield error(
            source,
            (*path, "chord"),
            "too-wide",
            f"the arch's chord of {written(chord, spec)} is longer than its rail of {written(clear, spec)}",
        )
    rail_bottom = mantel.top - layers_height(mantel) - arch.rail
    if rail_bottom < 0:
        yield error(source, (*path, "rail"), "too-high", "the arched rail reaches below the floor")
    elif spec.fireplace and _hangs_into_opening(spec, arch, chord, rail_bottom):
        yield error(
            source,
            (*path, "rail"),
            "opening-collides",
            f"the arched rail ends {written(rail_bottom, spec)} above the floor and hangs into the opening, "
            f"whose top is at {written(opening_top(spec.fireplace), spec)}",
        )


def _lining(spec: Spec, mantel: Mantel, arch: Arch, source: Source) -> Findings:
    lining = arch.lining
    if lining is None:
        return
    path = ("mantel", "arch", "lining")
    if mantel.posts is None:
        yield error(
            source,
            path,
            "lining",
            "without posts the arched rail is on the facing: there is nothing behind it to line",
        )
    if arch.rise + lining.thickness > arch.rail:
        yield error(
            source,
            (*path, "thickness"),
            "lining",
            f"over the crown the rail has {written(arch.rail - arch.rise, spec)}; "
            f"the lining is {written(lining.thickness, spec)} thick",
        )
    if lining.kerfs and lining.laminations > 1:
        yield error(
            source,
            (*path, "kerfs"),
            "lining",
            "a lining is bent of laminations or kerfed, not both",
            "Leave out one of the two.",
        )
    if lining.kerfs and lining.kerfs.web >= lining.thickness:
        yield error(
            source, (*path, "kerfs", "web"), "lining", "the wood left behind the kerfs is the whole thickness"
        )
    if lining.grain == "across" and isinstance(spec.materials[lining.material], SolidWood):
        yield error(
            source,
            (*path, "grain"),
            "lining",
            "solid wood that is bent across its grain breaks along it",
            "Write `grain: along`, or a panel as its material.",
        )


def _hangs_into_opening(spec: Spec, arch: Arch, chord: Fraction, rail_bottom: Fraction) -> bool:
    assert spec.fireplace is not None
    top, half = opening_top(spec.fireplace), spec.fireplace.opening.width / 2
    if half >= chord / 2:
        return rail_bottom < top
    # The corner of the opening has to be inside the circle of the arch.
    radius = arc_radius(chord, arch.rise)
    above_centre = top - (rail_bottom + arch.rise - radius)
    return above_centre > 0 and above_centre**2 + half**2 > radius**2
