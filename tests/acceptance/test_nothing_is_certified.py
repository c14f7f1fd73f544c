"""The sheets warn and defer; no word on them says that something is safe, approved or as the code wants.

House rule, and the standards digest 6.13: a generator never prints a word of approval as if given.
"""

from __future__ import annotations

import re
from pathlib import Path

import pdfplumber
import pytest

# "do not certify that it is safe" is the one sentence that may say the word.
CLAIMS = re.compile(
    r"\b(PASSES|PASSED|WOULD PASS|FAILS|COMPLIES|COMPLIANT|APPROVED|CERTIFIED|MEETS? CODE|TO CODE)\b"
    r"|(?<!DO NOT CERTIFY THAT IT )\b(IS|ARE) SAFE\b"
    r"|\bNO COMBUSTIBLE PART STANDS\b"
)


def words(pdf: Path) -> str:
    with pdfplumber.open(pdf) as pages:
        return " ".join(" ".join((page.extract_text() or "").split()) for page in pages.pages).upper()


def test_no_sheet_claims_what_it_may_not(drawn: Path, spec: Path) -> None:
    said = words(drawn / spec.stem / f"{spec.stem}.pdf")
    assert len(said) > 5000
    assert [said[max(0, m.start() - 40) : m.end() + 20] for m in CLAIMS.finditer(said)] == []


@pytest.mark.parametrize(
    "claim", ["RESULT PASSES", "AS APPROVED", "THE MANTEL IS SAFE", "NO COMBUSTIBLE PART STANDS WITHIN"]
)
def test_a_claim_would_be_seen(claim: str) -> None:
    assert CLAIMS.search(claim)


def test_fire_clearances_defer_to_listing_code_and_site(drawn: Path) -> None:
    stem = "mantel-alone"
    said = words(drawn / stem / f"{stem}.pdf")
    for caution in ("LISTING", "LOCAL CODE", "LICENSED TRADES", "CHECK", "CERTIFY NOTHING"):
        assert caution in said
