"""The components of a wall in the order that they rest on each other: a new one is one line here."""

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from sheets.grammar.schema import Spec
from sheets.resolve.built import Built, Origin
from sheets.resolve.case import resolve_cases
from sheets.resolve.fireplace import enclosure_half, resolve_fireplace
from sheets.resolve.layout import Layout
from sheets.resolve.mantel import covered_sides, resolve_mantel
from sheets.resolve.materials import Materials
from sheets.resolve.middle import Middle
from sheets.resolve.overmantel import resolve_overmantel
from sheets.resolve.surround import resolve_surround


@dataclass(frozen=True, slots=True)
class Site:
    """What a component is built from: the spec and its file, where cases stand, what is at the middle, the
    materials."""

    spec: Spec
    origin: Origin
    layout: Layout
    middle: Middle
    materials: Materials


Build = Callable[[Site], Built]


def _fireplace(site: Site) -> Built:
    mantel, materials = site.spec.mantel, site.materials
    side = materials.thickness(mantel.material) if mantel else Fraction(0)
    covered = covered_sides(site.middle)
    return resolve_fireplace(site.spec, site.origin, site.middle, materials.sizes, covered, side)


def _surround(site: Site) -> Built:
    return resolve_surround(site.spec, site.origin, site.middle, site.materials)


def _mantel(site: Site) -> Built:
    half = enclosure_half(site.middle)
    return resolve_mantel(site.spec, site.origin, site.layout, site.middle, site.materials, half)


def _overmantel(site: Site) -> Built:
    return resolve_overmantel(site.spec, site.origin, site.layout, site.middle, site.materials)


def _cases(site: Site) -> Built:
    return resolve_cases(site.spec, site.origin, site.layout, site.materials, site.middle.top)


COMPONENTS: tuple[Build, ...] = (_fireplace, _surround, _mantel, _overmantel, _cases)
