"""The room, the units and the precision; names and numbers that have to differ."""

from fractions import Fraction

from sheets.base.keys import slug
from sheets.base.length import MM_PER_INCH
from sheets.base.source import Source
from sheets.grammar.measure import written
from sheets.grammar.rules.fault import Findings, error
from sheets.grammar.schema import Spec


def check(spec: Spec, source: Source) -> Findings:
    """Yield what is wrong with the wall as a whole."""
    yield from _units(spec, source)
    yield from _vault(spec, source)
    yield from _names(spec, source)
    if not spec.builds:
        asked = [words.asked_for for kinds in spec.sections().values() for words in kinds if words.asked_for]
        *others, last = reversed(asked)
        yield error(
            source,
            (),
            "nothing-to-build",
            "this spec builds nothing",
            f"Write {', '.join(others)} or {last}.",
        )


def _units(spec: Spec, source: Source) -> Findings:
    if (spec.units == "mm") != (spec.dimensions == "mm"):
        allowed = "mm" if spec.units == "mm" else "feet-inches or inches"
        yield error(
            source,
            ("dimensions",),
            "dimensions",
            f"a spec in {spec.units} is not dimensioned in {spec.dimensions}",
            f"Allowed: {allowed}.",
        )
        return
    if spec.units == "inch":
        parts = spec.precision / MM_PER_INCH
        if parts.numerator != 1 or parts.denominator not in (1, 2, 4, 8, 16, 32, 64):
            yield error(
                source,
                ("precision",),
                "precision",
                "this precision is not on a joiner's rule",
                "Allowed: 1, 1/2, 1/4, 1/8, 1/16, 1/32, 1/64 of an inch.",
            )
    elif spec.precision not in (Fraction(1, 10), Fraction(1, 5), Fraction(1, 2), 1, 2, 5, 10):
        yield error(
            source,
            ("precision",),
            "precision",
            "this precision is not on a joiner's rule",
            "Allowed: 0.1, 0.2, 0.5, 1, 2, 5, 10 mm.",
        )


def _vault(spec: Spec, source: Source) -> Findings:
    ceiling = spec.room.ceiling
    if ceiling.vault is None:
        return
    path = ("room", "ceiling", "vault", "spring")
    rise = ceiling.height - ceiling.vault.spring
    if rise <= 0:
        yield error(
            source,
            path,
            "vault",
            f"the vault springs at {written(ceiling.vault.spring, spec)}, which is not below the ceiling's "
            f"{written(ceiling.height, spec)}",
            "Leave the vault out for a flat ceiling.",
        )
    elif rise > spec.room.width / 2:
        yield error(
            source,
            path,
            "arc-rise",
            f"the vault rises {written(rise, spec)}, more than half the "
            f"room's {written(spec.room.width, spec)}",
            "A circle rises at most half its chord.",
        )


def _names(spec: Spec, source: Source) -> Findings:
    seen: dict[str, int] = {}
    for number, case in enumerate(spec.cases):
        path = ("cases", number, "name")
        try:
            step = slug(case.name)
        except ValueError:
            yield error(source, path, "bad-name", f"'{case.name}' has no letter or digit to make a key of")
            continue
        if step in seen:
            line = source.place_of(("cases", seen[step], "name")).line
            yield error(
                source, path, "same-name", f"two cases are called '{step}'; the first is in line {line}"
            )
        seen.setdefault(step, number)
    numbers: dict[str, int] = {}
    for number, revision in enumerate(spec.revisions):
        if revision.number in numbers:
            yield error(
                source,
                ("revisions", number, "number"),
                "same-name",
                f"there are two revisions {revision.number}",
            )
        numbers.setdefault(revision.number, number)
