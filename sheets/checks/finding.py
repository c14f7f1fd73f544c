"""What a rule says: findings, the numbers behind them, small pictures; and what a rule is."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal, get_args

from sheets.base.diagnostics import Severity
from sheets.checks.mechanics.decided_at import under
from sheets.model.part import Part, Provenance
from sheets.model.wall import Component, Wall
from sheets.tables.read import Cited

Verdict = Literal["within limit", "beyond limit", "to judge", "for information"]
Family = Literal["clearance", "sag", "movement", "stock", "fit", "order", "use", "stability", "curves"]
FAMILIES: tuple[Family, ...] = get_args(Family)
"""What rules are about, in the order of the checks sheet."""
PictureLine = Literal["outline", "edge", "hidden", "centre", "dimension"]


@dataclass(frozen=True, slots=True)
class Waived:
    """A finding that someone has judged and answers for; printed on the sheet."""

    reason: str
    by: str = ""
    relied_on: str = ""

    @property
    def text(self) -> str:
        """Reason, name and document, as they are printed."""
        said = f"{self.reason}, {self.by}" if self.by else self.reason
        return f"{said}; relied on: {self.relied_on}" if self.relied_on else said


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing to change or to know. The message has the number and the limit; the cure says what would
    pass.
    """

    rule: str
    severity: Severity
    message: str
    cure: str
    cited: Cited
    made_from: Provenance  # where in the spec it is changed
    subjects: tuple[str, ...] = ()  # keys of parts and components
    waived: Waived | None = None


@dataclass(frozen=True, slots=True)
class Measure:
    """One number of the checks sheet: of what, the number, the limit it is held against, and the outcome."""

    subject: str
    value: str
    limit: str
    verdict: Verdict
    cited: Cited


@dataclass(frozen=True, slots=True)
class PictureStroke:
    """An open line through points, mm on paper."""

    points: tuple[tuple[float, float], ...]
    pen: PictureLine


@dataclass(frozen=True, slots=True)
class PictureText:
    """Words on a picture; `at` is the middle of the foot of the text, mm on paper."""

    at: tuple[float, float]
    text: str


@dataclass(frozen=True, slots=True)
class Figure:
    """A small picture: x to the right, y up from the lower left corner, mm on paper at its nominal size."""

    title: str
    width: float
    height: float
    lines: tuple[PictureStroke, ...]
    texts: tuple[PictureText, ...]


@dataclass(frozen=True, slots=True)
class RuleReport:
    """What one rule found. `looked_at` counts the things it judged: 0 says that the wall has none."""

    rule: str
    title: str
    looked_at: int
    findings: tuple[Finding, ...] = ()
    measures: tuple[Measure, ...] = ()
    figures: tuple[Figure, ...] = ()
    cautions: tuple[str, ...] = ()
    about_fire: bool = False  # a waiver of its errors wants grounds


@dataclass(frozen=True, slots=True)
class Checked:
    """What was found in one spec. file: its name as the user gave it, with forward slashes; lines: its text,
    for whoever says where a place ends."""

    file: str
    reports: tuple[RuleReport, ...]
    lines: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Outcome:
    """What a rule's own function returns; the runner adds the rule's name, title and cautions."""

    looked_at: int
    findings: tuple[Finding, ...] = ()
    measures: tuple[Measure, ...] = ()
    figures: tuple[Figure, ...] = ()


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule: its name in the trade's words, what it does, why, and where the figures come from."""

    name: str
    title: str
    family: Family
    rank: int  # where in its family it stands on the checks sheet: the lower, the earlier
    judge: Callable[[Wall], Outcome]
    explain: str  # reasoning, formula, limits and source, for whoever asks
    cautions: tuple[str, ...] = ()  # printed whenever the rule looked at anything

    def check(self, wall: Wall) -> RuleReport:
        """Return what the rule finds in a wall."""
        found = self.judge(wall)
        return RuleReport(
            self.name,
            self.title,
            found.looked_at,
            found.findings,
            tuple(dict.fromkeys(found.measures)),
            found.figures,
            self.cautions if found.looked_at else (),
            self.family == "clearance",
        )


def about(
    rule: str,
    severity: Severity,
    message: str,
    *subjects: Part | Component,
    cure: str,
    cited: Cited,
    made_from: Provenance | None = None,
    word: tuple[str, ...] = (),
) -> Finding:
    """Return a finding about parts and components; its place is the first one's unless another is given.

    word: what would be changed, under that place in the spec.
    """
    place = made_from if made_from is not None else subjects[0].made_from if subjects else Provenance()
    return Finding(
        rule, severity, message, cure, cited, under(place, *word), tuple(each.key for each in subjects)
    )
