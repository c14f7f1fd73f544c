"""Abbreviations and signs that a set may use, and which of them it does. The trade's common ones."""

from __future__ import annotations

import re

# Common on US and metric woodwork drawings (common practice).
MEANINGS: dict[str, str] = {
    "A.F.F.": "above finished floor",
    "CL": "centre line",
    "CLR": "clear",
    "DIA": "diameter",
    "EA": "each",
    "EQ": "equal",
    "FIN": "finish, finished",
    "GYP": "gypsum board",
    "HDWD": "hardwood",
    "HORIZ": "horizontal",
    "L.H.": "left hand",
    "MAX": "maximum",
    "MIN": "minimum",
    "N.I.C.": "not in contract",
    "O.C.": "on centre",
    "PLY": "plywood",
    "QTY": "quantity",
    "R": "radius",
    "R.H.": "right hand",
    "REV": "revision",
    "S4S": "surfaced four sides",
    "T&G": "tongue and groove",
    "TYP": "typical",
    "V.I.F.": "verify in field",
    "VERT": "vertical",
    "\u00b1": "verify in field before cutting",
    "@": "each; what they come to follows",
    "\u2248": "about; the exact size follows from the geometry",
}


def used(said: str) -> tuple[tuple[str, str], ...]:
    """Return those that occur in the words of a set, in order of the alphabet, signs last."""
    spoken = set(re.findall(r"[A-Z0-9&.]+|@|\u00b1|\u2248", said.upper()))
    spoken |= {word.rstrip(".") for word in spoken}
    return tuple((short, MEANINGS[short]) for short in sorted(MEANINGS) if short in spoken)
