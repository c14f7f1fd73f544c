"""Exact lengths: reading them from text, landing them on a grid, dividing them evenly.

A length is a `fractions.Fraction` of millimetres. One inch is 127/5 mm exactly.
Source: NIST SP 811 (2008), appendix B: 1 in = 25.4 mm exactly, 1 ft = 0.3048 m exactly.
"""

import re
from fractions import Fraction
from math import ceil, floor
from typing import Literal

MM_PER_INCH = Fraction(127, 5)
MM_PER_FOOT = 12 * MM_PER_INCH

Unit = Literal["inch", "mm"]
SnapMode = Literal["nearest", "down", "up"]

LONGEST_TEXT = 48
"""A longer text is no length; refusing it keeps huge numbers out of exact arithmetic."""

_MARKS = str.maketrans(
    {
        "\u2032": "'",
        "\u2019": "'",
        "\u2018": "'",
        "\u02b9": "'",
        "\u00b4": "'",
        "\u2033": '"',
        "\u201d": '"',
        "\u201c": '"',
        "\u02ba": '"',
        "\u2044": "/",
        "\u2215": "/",
        "\u2212": "-",
        "\u2010": "-",
        "\u2011": "-",
        "\u2013": "-",
        "\u00a0": " ",
        "\u2009": " ",
        "\u202f": " ",
    }
)
_VULGAR = {
    "½": "1/2",
    "⅓": "1/3",
    "⅔": "2/3",
    "¼": "1/4",
    "¾": "3/4",
    "⅛": "1/8",
    "⅜": "3/8",
    "⅝": "5/8",
    "⅞": "7/8",
}
_NUMBER = r"(?:\d+\s*/\s*\d+|\d+(?:\s*-\s*|\s+)\d+\s*/\s*\d+|\d+\.\d+|\.\d+|\d+)"
_METRIC = re.compile(rf"(?P<sign>-?)\s*(?P<number>{_NUMBER})\s*(?P<unit>mm|cm|m)", re.ASCII)
_IMPERIAL = re.compile(
    rf"(?P<sign>-?)\s*(?:(?P<feet>{_NUMBER})\s*(?:'|ft\.?|feet|foot))?"
    rf"(?P<join>\s*-\s*|\s*)(?:(?P<inches>{_NUMBER})\s*(?P<mark>\"|in\.?|inch|inches)?)?",
    re.ASCII,
)
_BARE = re.compile(rf"(?P<sign>-?)\s*(?P<number>{_NUMBER})", re.ASCII)
_MILLIMETRES = {"mm": Fraction(1), "cm": Fraction(10), "m": Fraction(1000)}
_FORMS = "write it like 5'-2 1/2\", 62 1/2, 62-1/2, 62.5, 1588 mm, 158.8 cm or 1.588 m"


class LengthError(ValueError):
    """Text that is no length, or that could be read as two different ones. reason: why; help: what to
    write.
    """

    def __init__(self, reason: str, help_text: str = "") -> None:
        super().__init__(reason + ("; " + help_text if help_text else ""))
        self.reason = reason
        self.help = help_text[:1].upper() + help_text[1:] + "." if help_text else ""


def inch(x: int | str | Fraction) -> Fraction:
    """Return x inches in millimetres, exactly. A str is any text that `Fraction` reads ("5/16", "2.5")."""
    return Fraction(x) * MM_PER_INCH


def read_length(text: str, *, unit: Unit) -> Fraction:
    """Return the length that the text says, in millimetres, exactly.

    unit: what a bare number means. Raises LengthError when the text is no length, or when it could
    mean another number elsewhere (`010`, `1_000`, `12:30`, `1e3`, `1,5`).
    """
    plain = _plain(text)
    _refuse_traps(text, plain)
    match = _METRIC.fullmatch(plain)
    if match:
        return _signed(match) * _number(match["number"], text) * _MILLIMETRES[match["unit"]]
    match = _BARE.fullmatch(plain)
    if match:
        scale = MM_PER_INCH if unit == "inch" else Fraction(1)
        return _signed(match) * _number(match["number"], text) * scale
    match = _IMPERIAL.fullmatch(plain)
    if match and (match["feet"] or match["inches"]):
        return _signed(match) * _feet_and_inches(match, text)
    raise LengthError(f"'{_short(text)}' is not a length", _FORMS)


def snap(value: Fraction, grid: Fraction, mode: SnapMode = "nearest") -> Fraction:
    """Return the multiple of the grid nearest to the value (a half goes away from zero), or the next down
    or up.
    """
    if grid <= 0:
        raise ValueError("a grid is above zero")
    steps = value / grid
    if mode == "down":
        return floor(steps) * grid
    if mode == "up":
        return ceil(steps) * grid
    whole = floor(abs(steps) + Fraction(1, 2))
    return (whole if steps >= 0 else -whole) * grid


def split_even(total: Fraction, n: int, grid: Fraction) -> tuple[tuple[Fraction, ...], Fraction]:
    """Return n sizes that add up to the total exactly, equal but for what the grid leaves over, and that
    leftover.

    All inner sizes are one multiple of the grid. What is left over (total minus n equal sizes) goes where a
    joiner puts it, so that the row stays symmetric: half to each end; an odd step of the grid to the middle
    size when there is one. Every size is on the grid when the total is, save that an even n with an odd step
    left over gives each end half a step. A total that is off the grid leaves its remainder on the two ends
    (on the size itself when n is 1).
    """
    if n < 1:
        raise ValueError("there is nothing to split into")
    if total <= 0:
        raise ValueError("there is nothing to split")
    each = snap(total / n, grid, "down")
    leftover = total - n * each
    sizes = [each] * n
    if n == 1:
        return (total,), leftover
    steps = floor(leftover / grid)
    middle = grid if n % 2 == 1 and steps % 2 == 1 else Fraction(0)
    sizes[n // 2] += middle
    sizes[0] += (leftover - middle) / 2
    sizes[-1] += (leftover - middle) / 2
    return tuple(sizes), leftover


def _plain(text: str) -> str:
    plain = text.strip().translate(_MARKS)
    for sign, written in _VULGAR.items():
        plain = plain.replace(sign, " " + written)
    return re.sub(r"\s+", " ", plain.replace("''", '"')).strip()


def _refuse_traps(text: str, plain: str) -> None:
    if not plain:
        raise LengthError("a length is missing", _FORMS)
    if len(plain) > LONGEST_TEXT:
        raise LengthError(f"'{_short(text)}' is too long to be a length", _FORMS)
    if re.search(r"\d:\d", plain):
        raise LengthError(f"'{_short(text)}' is not a length: a colon belongs to a time of day", _FORMS)
    if "_" in plain:
        raise LengthError(f"'{_short(text)}' is not a length: leave out the underscore", _FORMS)
    if re.search(r"\d,\s*\d", plain):
        raise LengthError(f"'{_short(text)}' has a comma, which may be a decimal or a thousands mark", _FORMS)
    if re.fullmatch(r"[-+]?\d+(\.\d+)?[eE][-+]?\d+", plain):
        raise LengthError(f"'{_short(text)}' is not a length: write the number out", _FORMS)
    if re.match(r"-?\s*0\d", plain):
        raise LengthError(
            f"'{_short(text)}' starts with a needless 0 and could be read in two ways", "leave the 0 out"
        )


def _short(text: str) -> str:
    shown = "".join(c if c.isprintable() else "?" for c in text)
    return shown if len(shown) <= LONGEST_TEXT else shown[: LONGEST_TEXT - 3] + "..."


def _signed(match: "re.Match[str]") -> int:
    return -1 if match["sign"] else 1


def _number(written: str, text: str) -> Fraction:
    parts = re.split(r"\s*-\s*|\s+(?!/)(?<!/)", re.sub(r"\s*/\s*", "/", written.strip()))
    if len(parts) == 1 and "/" not in parts[0]:
        return Fraction(parts[0])
    numerator, denominator = (int(part) for part in parts[-1].split("/"))
    if denominator == 0:
        raise LengthError(f"'{_short(text)}' divides by zero")
    if len(parts) == 1:
        return Fraction(numerator, denominator)
    if numerator >= denominator:
        raise LengthError(f"'{_short(text)}': the fraction after a whole number is below 1")
    return int(parts[0]) + Fraction(numerator, denominator)


def _feet_and_inches(match: "re.Match[str]", text: str) -> Fraction:
    if not match["feet"] and match["join"].strip():
        raise LengthError(f"'{_short(text)}' is not a length", _FORMS)
    inches = _number(match["inches"], text) if match["inches"] else Fraction(0)
    if not match["feet"]:
        return inches * MM_PER_INCH
    if match["join"].strip() and not match["inches"]:
        raise LengthError(f"'{_short(text)}' ends where inches were expected", _FORMS)
    feet = _number(match["feet"], text)
    if match["inches"] and feet.denominator != 1:
        raise LengthError(f"'{_short(text)}': feet before inches are a whole number")
    if inches >= 12:
        raise LengthError(f"'{_short(text)}': inches after feet are below 12")
    return feet * MM_PER_FOOT + inches * MM_PER_INCH
