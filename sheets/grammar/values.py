"""The kinds of value that the spec language is made of: lengths, counts, flags, text, dates.

Every scalar of the YAML reaches these readers as text, so none of YAML's own readings (12:30 as 750, no as
false, 010 as 8) can turn into a length. A length comes out as exact millimetres. The validation context says
what a bare number means: {"unit": "inch"} or {"unit": "mm"}.
"""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from typing import Annotated, Any, ClassVar, Literal
from unicodedata import category

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, PlainValidator, ValidationInfo
from pydantic_core import PydanticCustomError

from sheets.base.length import LengthError, Unit, read_length

LONGEST_MM = Fraction(100_000)
"""No wall of a room is longer than 100 m; a longer length is a slip of the unit."""
LEAST_MM = Fraction(1, 1000)
"""What is smaller, and not 0, is a slip too: it is beyond any gauge of a shop, and near to where the floats
of geometry stop telling points apart (`base/tolerance.py: same_point`)."""
LONGEST_TEXT = 2000


class Words(BaseModel):
    """A mapping of the spec: frozen, with no key that is not named here."""

    model_config = ConfigDict(frozen=True, extra="forbid", validate_default=True, defer_build=True)

    asked_for: ClassVar[str] = ""
    """Of what can be the whole of a spec: how it is asked for, "a mantel"."""
    made_of: ClassVar[Literal["", "wood", "masonry"]] = ""
    """Of a section of a spec: what the first material of is its own where it names none."""


@dataclass(frozen=True, slots=True)
class UnitDefault:
    """A default length as each of the two traditions has it: inches for `units: inch`, millimetres for
    `units: mm`.
    """

    inch: str
    mm: str


def either(inch: str, mm: str) -> Any:
    """Return the default for a length field, chosen by the spec's units when the field is left out."""
    return UnitDefault(inch, mm)


def defaults() -> Any:
    """Return the default for a section that is always there: each of its keys at its own default."""
    return Field(default_factory=dict)


def unit_of(info: ValidationInfo) -> Unit:
    """Return what a bare number means in the spec being read (inches if nothing says so)."""
    context = info.context
    return "mm" if isinstance(context, Mapping) and context.get("unit") == "mm" else "inch"


def _length(value: object, info: ValidationInfo) -> Fraction:
    if isinstance(value, Fraction):
        return value
    if isinstance(value, UnitDefault):
        value = value.mm if unit_of(info) == "mm" else value.inch
    if not isinstance(value, str):
        raise wrong_kind("a length", value)
    try:
        length = read_length(value, unit=unit_of(info))
    except LengthError as error:
        raise PydanticCustomError(
            "not-a-length", "{reason}", {"reason": error.reason, "help": error.help}
        ) from None
    if abs(length) > LONGEST_MM:
        raise PydanticCustomError("too-long", "{found} is longer than 100 m", {"found": value})
    if 0 < abs(length) < LEAST_MM:
        raise PydanticCustomError("too-small", "{found} is less than 0.001 mm", {"found": value})
    return length


def _above_zero(value: object, info: ValidationInfo) -> Fraction:
    length = _length(value, info)
    if length <= 0:
        raise PydanticCustomError(
            "not-positive", "{found} is not a size: it must be above 0", {"found": _shown(value)}
        )
    return length


def _zero_or_more(value: object, info: ValidationInfo) -> Fraction:
    length = _length(value, info)
    if length < 0:
        raise PydanticCustomError(
            "not-positive", "{found} is below 0: it must be 0 or more", {"found": _shown(value)}
        )
    return length


def _size_or(word: str) -> Callable[[object, ValidationInfo], Fraction | str]:
    def read(value: object, info: ValidationInfo) -> Fraction | str:
        if value == word:
            return word
        try:
            return _above_zero(value, info)
        except PydanticCustomError as error:
            if error.type != "not-a-length":
                raise
            raise PydanticCustomError(
                "not-a-length",
                "{reason}",
                {
                    "reason": error.message(),
                    "help": f"Or write {word}. " + str((error.context or {}).get("help", "")),
                    "words": (word,),
                },
            ) from None

    return read


def _ratio(value: object) -> Fraction:
    if isinstance(value, Fraction):
        return value
    if not isinstance(value, str):
        raise wrong_kind("a number", value)
    if not re.fullmatch(r"[0-9]{1,4}(\.[0-9]{1,6})?|[0-9]{1,4}/[1-9][0-9]{0,3}", value):
        raise PydanticCustomError(
            "not-a-number", "'{found}' is not a number like 1.08 or 13/12", {"found": value[:40]}
        )
    return Fraction(value)


def counted(least: int, most: int) -> Callable[[object], int]:
    """Return a reader of whole numbers from least to most."""

    def read(value: object) -> int:
        if isinstance(value, str):
            if not re.fullmatch(r"0|-?[1-9][0-9]{0,8}", value):
                raise PydanticCustomError(
                    "not-a-count",
                    "'{found}' is not a whole number from {least} to {most}",
                    {"found": value[:40], "least": least, "most": most},
                )
            value = int(value)
        if not isinstance(value, int) or isinstance(value, bool):
            raise wrong_kind("a whole number", value)
        if not least <= value <= most:
            raise PydanticCustomError(
                "out-of-range",
                "{found} is not from {least} to {most}",
                {"found": value, "least": least, "most": most},
            )
        return value

    return read


def _flag(value: object) -> bool:
    if isinstance(value, bool):
        return value
    if value == "true" or value == "false":
        return value == "true"
    if not isinstance(value, str):
        raise wrong_kind("true or false", value)
    raise PydanticCustomError(
        "not-true-or-false",
        "'{found}' is neither true nor false",
        {"found": value[:40], "help": "Write true or false."},
    )


def _text(value: object) -> str:
    if not isinstance(value, str):
        raise wrong_kind("text", value)
    if len(value) > LONGEST_TEXT:
        raise PydanticCustomError(
            "too-long", "this text is longer than {most} letters", {"most": LONGEST_TEXT}
        )
    odd = next((c for c in value if not c.isprintable() and c != "\n" and category(c) != "Zs"), None)
    if odd is not None:
        raise PydanticCustomError(
            "unprintable",
            "this text holds the character {code}, which cannot be printed",
            {"code": f"U+{ord(odd):04X}"},
        )
    return value


def _some_text(value: object) -> str:
    text = _text(value)
    if not text.strip():
        raise PydanticCustomError("empty-value", "nothing is written here", {})
    return text


CODE_BODIES = ("IRC",)
CODE_EDITIONS = ("2000", "2003", "2006", "2009", "2012", "2015", "2018", "2021", "2024")
CODE_WORDS = ("none", "manual", *CODE_BODIES)


def _codes(value: object) -> str:
    text = " ".join(_some_text(value).split())
    body, _, edition = text.partition(" ")
    if text in CODE_WORDS or text.endswith(".csv") or (body in CODE_BODIES and edition in CODE_EDITIONS):
        return text
    raise PydanticCustomError(
        "unknown-codes",
        "'{found}' names no body of rules",
        {
            "found": text[:60],
            "help": f"Write none, manual, IRC, IRC with an edition ({', '.join(CODE_EDITIONS)}), or the path "
            "of your own table, a .csv.",
            "words": CODE_WORDS,
        },
    )


def _iso_date(value: object) -> str:
    text = _text(value)
    if text:
        try:
            if not re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", text):
                raise ValueError
            date.fromisoformat(text)
        except ValueError:
            raise PydanticCustomError(
                "not-a-date", "'{found}' is not a date of the calendar like 2026-03-02", {"found": text[:40]}
            ) from None
    return text


def _a_list(value: object) -> object:
    if isinstance(value, (list, tuple)):
        return value
    raise wrong_kind("a list", value)


def wrong_kind(wanted: str, value: object) -> PydanticCustomError:
    """Return the error for a mapping or a list where another kind of value is wanted, and the reverse."""
    kinds: dict[type[object], str] = {
        dict: "a mapping of keys",
        list: "a list",
        tuple: "a list",
        str: "a single value",
    }
    found = kinds.get(type(value), f"a value of type {type(value).__name__}")
    return PydanticCustomError(
        "wrong-type", "{wanted} is wanted here, not {found}", {"wanted": wanted, "found": found}
    )


def _shown(value: object) -> str:
    return value if isinstance(value, str) else str(value)


Length = Annotated[Fraction, PlainValidator(_length)]
"""Any length in mm, below zero too."""
Size = Annotated[Fraction, PlainValidator(_above_zero)]
"""A length in mm above zero."""
SizeOrZero = Annotated[Fraction, PlainValidator(_zero_or_more)]
"""A length in mm, zero or more."""
SizeOrFill = Annotated[Fraction | Literal["fill"], PlainValidator(_size_or("fill"))]
SizeOrSurround = Annotated[Fraction | Literal["surround"], PlainValidator(_size_or("surround"))]
SizeOrMantel = Annotated[Fraction | Literal["mantel"], PlainValidator(_size_or("mantel"))]
SizeOrBreast = Annotated[Fraction | Literal["breast"], PlainValidator(_size_or("breast"))]
SizeOrOpening = Annotated[Fraction | Literal["opening"], PlainValidator(_size_or("opening"))]
Number = Annotated[Fraction, PlainValidator(_ratio)]
Flag = Annotated[bool, PlainValidator(_flag)]
Text = Annotated[str, PlainValidator(_text)]
SomeText = Annotated[str, PlainValidator(_some_text)]
CodesWord = Annotated[str, PlainValidator(_codes)]
"""What body of rules judges: none, manual, IRC, IRC 2018, or the path of a user's own table."""
IsoDate = Annotated[str, PlainValidator(_iso_date)]
MustBeList = BeforeValidator(_a_list)
