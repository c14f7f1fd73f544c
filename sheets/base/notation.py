"""Writing a length as a drafter does, and reading it back.

Feet and inches from a foot up, inches below; or inches only; or millimetres without a unit. What is written
is the length: a size off the grid is shown with the finer fraction that says it exactly, up to 1/64 in or 0.1
mm, and one that no such fraction says carries the mark of an approximation.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from sheets.base.length import MM_PER_INCH, Unit, snap

NotationKind = Literal["feet-inches", "inches", "mm"]


@dataclass(frozen=True, slots=True)
class Run:
    """A piece of a line of text: words, or a fraction that is set stacked where the medium can."""

    text: str = ""
    numerator: int = 0
    denominator: int = 0  # 0: the run is `text`


def plain_text(runs: Iterable[Run]) -> str:
    """Return runs on one line: joined, a space between a whole number and its fraction."""
    said = ""
    for run in runs:
        if run.denominator:
            said += f"{' ' if said[-1:].isdigit() else ''}{run.numerator}/{run.denominator}"
        else:
            said += run.text
    return said


APPROXIMATELY = "\u2248"
FINEST_DENOMINATOR = 64
"""The finest division on a joiner's rule (common practice)."""


@dataclass(frozen=True, slots=True)
class Notation:
    """How lengths are shown. grid: the drawing's precision, in millimetres (1/16 in is 127/80)."""

    kind: NotationKind
    grid: Fraction

    @property
    def unit(self) -> Unit:
        """What a bare number means in text written so."""
        return "mm" if self.kind == "mm" else "inch"


@dataclass(frozen=True, slots=True)
class LengthText:
    """A length made ready to be set: whole feet, whole inches and a fraction, or millimetres as digits.

    feet and inches are None where they are not shown. numerator/denominator is 0/1 when there is no fraction,
    else reduced. whole and decimal are the digits of a length in millimetres, None for inches.
    exact is False when the length was rounded to be shown.
    """

    negative: bool
    feet: int | None
    inches: int | None
    numerator: int
    denominator: int
    whole: int | None
    decimal: str
    exact: bool

    @property
    def plain(self) -> str:
        """The length on one line: 5'-2 1/2", 6 1/2", 1588, 18.5."""
        return plain_text(self.runs)

    @property
    def runs(self) -> tuple[Run, ...]:
        """The runs to set in order, so that a fraction can be stacked: it needs no space before it."""
        before = ("" if self.exact else APPROXIMATELY) + ("-" if self.negative else "")
        if self.whole is not None:
            return (Run(before + str(self.whole) + ("." + self.decimal if self.decimal else "")),)
        if self.feet is not None:
            before += f"{self.feet}'-"
        if self.inches is not None:
            before += str(self.inches)
        if not self.numerator:
            return (Run(before + '"'),)
        first = (Run(before),) if before else ()
        return (*first, Run("", self.numerator, self.denominator), Run('"'))


def format_length(value: Fraction, notation: Notation, *, rounded: bool = False) -> LengthText:
    """Return the length, in millimetres, as text in this notation.

    rounded: land on the notation's grid first and say so (`exact` is False when that changed the value); for
    a length that is known to be approximate, such as the radius of an arc given by chord and rise.
    """
    shown = snap(value, notation.grid) if rounded else value
    if notation.kind == "mm":
        return _millimetres(value, shown, notation.grid)
    return _inches(value, shown, notation)


def size_words(length: Fraction, notation: Notation) -> str:
    """Return a length, exact mm, as it stands in a sentence: 5'-2 1/2", 140 mm."""
    text = format_length(length, notation).plain
    return f"{text} mm" if notation.unit == "mm" else text


def _inches(value: Fraction, shown: Fraction, notation: Notation) -> LengthText:
    grid = notation.grid / MM_PER_INCH
    inches = abs(shown) / MM_PER_INCH
    if not _has_fraction(inches.denominator, grid.denominator):
        inches = snap(inches, Fraction(1, max(FINEST_DENOMINATOR, grid.denominator)))
    exact = inches * MM_PER_INCH == abs(value)
    whole, rest = divmod(inches, 1)
    feet: int | None = None
    if notation.kind == "feet-inches" and whole >= 12:
        feet, whole = divmod(whole, 12)
    shows_inches = feet is not None or whole > 0 or rest == 0
    return LengthText(
        negative=value < 0 and inches > 0,
        feet=feet,
        inches=int(whole) if shows_inches else None,
        numerator=rest.numerator,
        denominator=rest.denominator,
        whole=None,
        decimal="",
        exact=exact,
    )


def _has_fraction(denominator: int, grid_denominator: int) -> bool:
    power_of_two = denominator & (denominator - 1) == 0
    return (power_of_two and denominator <= FINEST_DENOMINATOR) or grid_denominator % denominator == 0


def _millimetres(value: Fraction, shown: Fraction, grid: Fraction) -> LengthText:
    places = 1
    while places < 3 and (grid * 10**places).denominator != 1:
        places += 1
    tenths = snap(abs(shown), Fraction(1, 10**places))
    digits = f"{int(tenths * 10**places):0{places + 1}d}"
    return LengthText(
        negative=value < 0 and tenths > 0,
        feet=None,
        inches=None,
        numerator=0,
        denominator=1,
        whole=int(digits[:-places]),
        decimal=digits[-places:].rstrip("0"),
        exact=tenths == abs(value),
    )


def exact_length(value: Fraction, unit: Unit, grid: Fraction) -> str:
    """Return a length, mm, as it is written in a spec of that unit, so that it reads back to the very value.

    In inches as the fractions that a rule has, else as a decimal, else as millimetres, else as a plain
    fraction. grid: the drawing's precision, mm.
    """
    if unit == "mm":
        return exact_number(value)
    text = format_length(value, Notation("inches", grid))
    if text.exact:
        return text.plain.rstrip('"').replace(" ", "-")
    inches = value / MM_PER_INCH
    in_mm = _decimal(value)
    return _decimal(inches) or (f"{in_mm} mm" if in_mm else f"{inches.numerator}/{inches.denominator}")


def exact_number(value: Fraction) -> str:
    """Return a number as a decimal of at most six places when one is exact, else as a fraction."""
    return _decimal(value) or f"{value.numerator}/{value.denominator}"


def _decimal(value: Fraction) -> str | None:
    for places in range(7):
        scaled = value * 10**places
        if scaled.denominator == 1:
            digits = f"{abs(scaled.numerator):0{places + 1}d}"
            cut = len(digits) - places
            return ("-" if value < 0 else "") + digits[:cut] + ("." + digits[cut:] if places else "")
    return None
