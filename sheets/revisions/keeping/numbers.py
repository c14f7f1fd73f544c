"""Numbers of revisions: what one may be, and that each follows those before it.

A number names a folder on every system that a repository is checked out on, and is read out at a bench.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

_PLAIN = re.compile(r"[A-Za-z0-9]([A-Za-z0-9._-]*[A-Za-z0-9])?")
_LONGEST = 20
_DEVICES = frozenset(
    ("con", "prn", "aux", "nul", *(f"{port}{k}" for port in ("com", "lpt") for k in range(1, 10)))
)
"""Names that Windows keeps for devices, with any ending. Source: Microsoft, Naming Files, Paths, and
Namespaces."""


def why_not(number: str, earlier: Sequence[str]) -> str:
    """Return why a number cannot be that of the next revision; empty if it can. earlier: the first first."""
    if not _PLAIN.fullmatch(number) or len(number) > _LONGEST:
        return (
            f"'{number}' is no number of a revision: letters a to z and digits, between them . - or _, "
            f"{_LONGEST} at most"
        )
    if number.split(".")[0].lower() in _DEVICES:
        return f"'{number}' names a device on Windows, where no folder can be called so"
    same = next((one for one in earlier if one.lower() == number.lower()), None)
    if same is not None and same != number:
        return f"'{number}' and revision {same} differ by capitals alone; on many disks they are one folder"
    series, place = _series(number)
    latest = max(
        (one for one in earlier if _series(one)[0] == series), key=lambda one: _series(one)[1], default=None
    )
    if latest is not None and _series(latest)[1] >= place:
        return f"'{number}' does not come after revision {latest}"
    return ""


def _series(number: str) -> tuple[str, tuple[tuple[int, int, str], ...]]:
    # A, B .. Z, AA are one series; 1, 2, 2a, 10 another; P1, P2 and C1 each their own: letters lead digits.
    words = [word for word in re.findall(r"\d+|[a-z]+", number.lower()) if word]
    if words and words[0].isdigit():
        return "0", tuple(map(_place, words))
    if len(words) == 1:
        return "A", (_place(words[0]),)
    return " ".join(words[:1]), tuple(map(_place, words[1:]))


def _place(word: str) -> tuple[int, int, str]:
    return (0, int(word), "") if word.isdigit() else (1, len(word), word)
