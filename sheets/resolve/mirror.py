"""The exact mirror of what stands on one side of the wall's axis."""

from collections.abc import Iterable
from dataclasses import replace

from sheets.geometry.solid import mirrored_x
from sheets.model.marks import shape
from sheets.model.part import Extent, Hand, Part
from sheets.model.wall import Component, Feature, Station
from sheets.resolve.built import Built

_SIDES = {"left": "right", "right": "left"}
_HANDS: dict[Hand, Hand] = {"left": "right", "right": "left", "": ""}


def mirrored_key(key: str, old: str, new: str) -> str:
    """Return the key of the twin: the assembly `old` becomes `new`; in the steps below it left and right
    change places. Keys of other assemblies stay."""
    if key == old:
        return new
    if not key.startswith(old + "/"):
        return key
    below = key[len(old) + 1 :]
    return (
        new + "/" + "/".join("-".join(_SIDES.get(w, w) for w in step.split("-")) for step in below.split("/"))
    )


def mirrored_extent(e: Extent) -> Extent:
    """Return the box on the other side: x negated exactly."""
    return Extent(-e.x1, -e.x0, e.y0, e.y1, e.z0, e.z1)


def mirrored_part(part: Part, old: str, new: str, *, twin: bool = True) -> Part:
    """Return the part on the other side, of the other hand. twin: whether it names the original as its
    twin."""
    return replace(
        part,
        key=mirrored_key(part.key, old, new),
        assembly=mirrored_key(part.assembly, old, new),
        extent=mirrored_extent(part.extent),
        solid=mirrored_x(part.solid),
        joints=tuple(replace(j, mate=mirrored_key(j.mate, old, new)) for j in part.joints),
        shows=tuple(_SIDES.get(face, face) for face in part.shows),
        edged=tuple(_SIDES.get(face, face) for face in part.edged),
        hand=_HANDS[part.hand],
        does=part.does.renamed(lambda key: mirrored_key(key, old, new)),
        twin=part.key if twin else "",
    )


def with_twins(parts: Iterable[Part]) -> list[Part]:
    """Return the parts with every one on the right that is the mirror of one on the left named its twin."""
    made = list(parts)
    for k, part in enumerate(made):
        if part.extent.x0 < 0 or part.twin:
            continue
        for n, other in enumerate(made):
            if other.extent == mirrored_extent(part.extent) and _is_mirror(other, part):
                made[k] = replace(part, twin=other.key, hand="right")
                made[n] = replace(other, hand="left")
    return made


def _is_mirror(one: Part, other: Part) -> bool:
    joints = [[replace(joint, mate="") for joint in part.joints] for part in (one, other)]
    if (one.name, one.material) != (other.name, other.material) or joints[0] != joints[1]:
        return False
    return one.key != other.key and shape(mirrored_x(one.solid)) == shape(other.solid)


def mirrored(made: Built, old: str, new: str) -> Built:
    """Return the twin of the assembly `old`. What is said of the original, its cuts, leftovers and faults,
    is not said again."""
    return Built(
        parts=tuple(mirrored_part(part, old, new) for part in made.parts),
        components=tuple(_component(one, new) for one in made.components),
        stations=tuple(_station(one, new) for one in made.stations),
        features=tuple(mirrored_feature(one, old, new) for one in made.features),
    )


def reflected(made: Built, key: str) -> Built:
    """Return an assembly that was built as it looks in the mirror as it stands on the other side: no twin of
    another, so all that is said of it is said. Sections are looked at as all are."""
    return replace(
        made,
        parts=tuple(mirrored_part(part, key, key, twin=False) for part in made.parts),
        components=tuple(replace(_component(one, key), twin="") for one in made.components),
        stations=tuple(_station(one, key) for one in made.stations),
        features=tuple(mirrored_feature(one, key, key) for one in made.features),
        cuts=tuple(replace(cut, at=-cut.at) if cut.axis == "x" else cut for cut in made.cuts),
    )


def _component(component: Component, new: str) -> Component:
    side = component.hand.upper()
    return replace(
        component,
        key=new,
        name=component.name.removesuffix(side) + _SIDES[component.hand].upper(),
        extent=mirrored_extent(component.extent),
        hand=_HANDS[component.hand],
        twin=component.key,
    )


def _station(station: Station, new: str) -> Station:
    # Heights and depths are repeated for the twin.
    return replace(station, at=-station.at if station.axis == "x" else station.at, owner=new)


def mirrored_feature(feature: Feature, old: str, new: str) -> Feature:
    """Return the feature on the other side; its signature is the same, so it is detailed once."""
    across = feature.axis == "x"
    return replace(
        feature,
        owner=mirrored_key(feature.owner, old, new),
        at=-feature.at if across else feature.at,
        window=mirrored_extent(feature.window),
        subjects=tuple(mirrored_key(key, old, new) for key in feature.subjects),
        toward=-feature.toward if across else feature.toward,
    )
