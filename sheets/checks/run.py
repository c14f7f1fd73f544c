"""All rules in order, and the run of them over a wall."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from importlib import import_module
from pkgutil import iter_modules

from sheets.base.diagnostics import Place, SpecPath, nearest
from sheets.checks import rules
from sheets.checks.finding import FAMILIES, Finding, Rule, RuleReport
from sheets.checks.merging import merged
from sheets.checks.reports.text import wrapped
from sheets.checks.waivers import waived, waivers_report
from sheets.model.part import Provenance
from sheets.model.wall import Wall

PlaceOf = Callable[[SpecPath], Place | None]


def _listed() -> tuple[Rule, ...]:
    found: list[Rule] = [
        import_module(f"{rules.__name__}.{module.name}").RULE for module in iter_modules(rules.__path__)
    ]
    return tuple(sorted(found, key=lambda rule: (FAMILIES.index(rule.family), rule.rank, rule.name)))


RULES = _listed()
"""What `rules/` holds, in the order of the checks sheet: by family, and by rank within one."""


def run_checks(wall: Wall, place_of: PlaceOf | None = None) -> tuple[RuleReport, ...]:
    """Return what every rule finds, in order; last, a report on waivers that answer no finding, when there
    are any.

    place_of: where in its file a path of the spec stands. With it each finding points at the very value to
    change;
    without it, at the piece's own place.
    """
    waivers = wall.settings.checks.waivers
    reports = tuple(merged(waived(rule.check(wall), waivers), wall) for rule in RULES)
    unused = waivers_report(reports, waivers)
    found = (*reports, unused) if unused is not None else reports
    return found if place_of is None else tuple(_placed(report, place_of) for report in found)


def _placed(report: RuleReport, place_of: PlaceOf) -> RuleReport:
    return replace(report, findings=tuple(_pointed(finding, place_of) for finding in report.findings))


def _pointed(finding: Finding, place_of: PlaceOf) -> Finding:
    place = place_of(finding.made_from.path)
    if place is None or not finding.made_from.path:
        return finding
    return replace(finding, made_from=Provenance(finding.made_from.path, place.line, place.column))


def rule_named(name: str) -> Rule | None:
    """Return a rule by its name, or None."""
    return next((rule for rule in RULES if rule.name == name), None)


def nearest_rule(name: str) -> str | None:
    """Return the name of the rule that a word was most likely meant to be, or None."""
    return nearest(name, (rule.name for rule in RULES))


def has_errors(reports: tuple[RuleReport, ...]) -> bool:
    """Return whether any finding is an error that nobody has waived."""
    return any(
        found.severity == "error" and found.waived is None for report in reports for found in report.findings
    )


def explain(name: str) -> str | None:
    """Return the reasoning and the source of a rule, or None when there is no such rule."""
    rule = rule_named(name)
    if rule is None:
        return None
    cautions = "".join(wrapped(f"Caution: {caution}", "") for caution in rule.cautions)
    return f"{rule.name}: {rule.title}\n\n{rule.explain}\n{cautions}"
