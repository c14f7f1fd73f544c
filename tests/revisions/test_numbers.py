"""Numbers of revisions: safe as folders everywhere, and each after those before it."""

from __future__ import annotations

import pytest

from sheets.revisions.keeping.numbers import why_not


@pytest.mark.parametrize(
    "number",
    ["A", "1", "B", "10", "2a", "P1", "C01", "REV-3", "2.1", "0", "2026-04", "Z", "AA", "console", "com"],
)
def test_what_a_trade_counts_by_is_a_number(number: str) -> None:
    assert why_not(number, ()) == ""


@pytest.mark.parametrize(
    "number",
    [
        "../x", "a b", "A/B", "A\\B", "x.", ".x", "-a", "a-", "\u00e9", "\u0410", "", "A:", "A*", "x" * 21,
        "CON", "nul", "Aux", "com1", "LPT9", "con.txt", "NUL.1",
    ],
)  # fmt: skip
def test_what_some_system_has_no_folder_for_is_not(number: str) -> None:
    """Reserved names as Microsoft publishes them (Naming Files, Paths, and Namespaces)."""
    assert why_not(number, ()) != ""


@pytest.mark.parametrize(
    ("earlier", "number"),
    [
        (("A",), "B"), (("Z",), "AA"), (("9",), "10"), (("6",), "6a"), (("2", "2a"), "2b"), (("2a",), "3"),
        (("A", "B"), "0"), (("A", "B", "0"), "1"), (("P1", "P2"), "C1"), (("P01",), "P02"),
        (("REV-9",), "REV-10"),
        (("first issue",), "1"), (("2.9",), "2.10"),
    ],
)  # fmt: skip
def test_the_next_of_a_series_and_the_first_of_another_follow(
    earlier: tuple[str, ...], number: str
) -> None:
    assert why_not(number, earlier) == ""


@pytest.mark.parametrize(
    ("earlier", "number", "words"),
    [
        (("H",), "h", "capitals alone"),
        (("B",), "A", "not come after revision B"),
        (("6",), "2a", "not come after revision 6"),
        (("10",), "9", "not come after revision 10"),
        (("A", "B", "0", "1"), "B", "not come after revision B"),
        (("P2", "C1"), "P2", "not come after revision P2"),
        (("02",), "2", "not come after revision 02"),
    ],
)
def test_what_does_not_follow_is_told(earlier: tuple[str, ...], number: str, words: str) -> None:
    assert words in why_not(number, earlier)
