"""What the types cannot refuse: values that are each right and do not go together. One rule, one function."""

from sheets.base.diagnostics import Diagnostic, has_errors
from sheets.base.source import Source
from sheets.grammar.rules import cases, fireplace, mantel, materials, overmantel, shop
from sheets.grammar.rules import room as wall
from sheets.grammar.schema import Spec


def broken_rules(spec: Spec, source: Source) -> tuple[Diagnostic, ...]:
    """Return every rule that the spec breaks, each with its place."""
    found = (*materials.check(spec, source), *wall.check(spec, source), *shop.check(spec, source))
    if has_errors(found):
        # Sizes are taken from the materials, so what follows would stumble over one that is missing.
        return found
    # An opening that is wrong would be told again by the mantel around it.
    hearth = tuple(fireplace.check(spec, source))
    around = () if has_errors(hearth) else tuple(mantel.check(spec, source))
    above = () if has_errors(around) else tuple(overmantel.check(spec, source))
    return (*found, *hearth, *around, *above, *cases.check(spec, source))
