"""Which body of rules judges the fireplace, and how heavily: as the spec chooses, or by its units."""

from __future__ import annotations

from dataclasses import dataclass

from sheets.base.diagnostics import Severity
from sheets.checks.finding import Finding, about
from sheets.model.part import Provenance
from sheets.model.wall import Wall
from sheets.tables.clearances import Clearance, clearances, own_clearances
from sheets.tables.read import Cited

CODES = Provenance(("codes",))
CHOSEN = Cited("`codes:` of the spec", "computed")


@dataclass(frozen=True, slots=True)
class Judge:
    """A body of rules. severity: of what breaks it; None where nothing of it judges. says: its name, after
    "by".
    """

    rows: tuple[Clearance, ...]
    severity: Severity | None
    says: str
    us: bool  # the IRC's own rules of hearths are judged with it

    def line(self, message: str) -> str:
        """Return a message with the name of what judged."""
        return f"{message} (by {self.says})"


def judge_of(wall: Wall) -> Judge:
    """Return what judges a masonry fireplace of this wall.

    Without a choice a spec in inches is judged by the IRC, the worst of its editions; another by the
    strictest figures known, as warnings.
    """
    codes = wall.settings.codes
    if codes.body == "none":
        return Judge((), None, "no body of rules: the spec says `codes: none`", False)
    if codes.body == "manual":
        return Judge((), None, "the manual alone: the spec says `codes: manual`", False)
    if codes.body == "own":
        return Judge(own_clearances(codes.text), "error", f"the table {codes.table}", False)
    if codes.body == "IRC" or wall.units == "inch":
        named = f"the IRC {codes.edition}" if codes.edition else "the IRC, the worst of its editions"
        return Judge(clearances("IRC", codes.edition), "error", named, True)
    return Judge(clearances(""), "warning", "the strictest figures known, as no codes are chosen", True)


def unjudged(wall: Wall, rule: str, what: str, judge: Judge) -> Finding:
    """Return the warning that a fireplace is judged by no code. what: what was not held against anything."""
    return about(
        rule,
        "warning",
        f"{what}: judged by {judge.says}",
        made_from=CODES,
        cure="hold it against the local code, or write `codes: IRC`, an edition of it, or your own table",
        cited=CHOSEN,
    )


def asked_for(wall: Wall, rule: str) -> tuple[Finding, ...]:
    """Return the question which codes judge, where the spec does not choose and its units choose none."""
    if wall.settings.codes.body or wall.units == "inch":
        return ()
    return (
        about(
            rule,
            "warning",
            "no codes are chosen: the fireplace is held against the strictest figures known of any code, "
            "as warnings",
            made_from=CODES,
            cure="write `codes:` with the IRC, an edition of it, none, manual, or the path of your own table",
            cited=CHOSEN,
        ),
    )
