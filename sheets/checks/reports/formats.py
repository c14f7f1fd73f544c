"""What was found, in the form that was asked for: words for people, or a file for other programs."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from sheets.checks.finding import Checked
from sheets.checks.reports.document import as_json
from sheets.checks.reports.junit import as_junit
from sheets.checks.reports.sarif import as_sarif
from sheets.checks.reports.text import as_text

Format = Literal["text", "json", "junit", "sarif"]


def formatted(specs: Sequence[Checked], kind: Format, *, version: str, numbers: bool = False) -> str:
    """Return the findings of some specs as text, JSON, JUnit XML or SARIF 2.1.0.

    version: of this program. numbers: in text, what each rule measured as well; the other forms hold what
    they have a place for.
    """
    if kind == "json":
        return as_json(specs)
    if kind == "junit":
        return as_junit(specs)
    if kind == "sarif":
        return as_sarif(specs, version=version)
    return "".join(as_text(spec, numbers=numbers) for spec in specs)
