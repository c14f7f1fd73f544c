"""Finding a row by the whole name that a joiner writes. Case, hyphens and the order 'oak, white' do not
matter; nothing is guessed from a part of a name.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

from sheets.base.diagnostics import nearest

_MOST_NAMES = 4


def plain_name(name: str) -> str:
    """Return the name in small letters with single spaces: 'Yellow-Poplar ' is 'yellow poplar'."""
    words = [" ".join(re.split(r"[\s_\-]+", part.strip().lower())) for part in name.split(",")]
    return " ".join(word for word in reversed(words) if word)


def names_of(name: str, synonyms: str) -> frozenset[str]:
    """Return every name a row answers to; synonyms are parted by |."""
    return frozenset(plain_name(each) for each in (name, *synonyms.split("|")) if each.strip())


def nearest_of(name: str, rows: Mapping[str, frozenset[str]]) -> tuple[str, ...]:
    """Return the rows that a name may have meant, the likeliest first: a slip of the pen of one of their
    names, then those that share most words with it. rows: by what each is called, all of its names.

    One word of several is none to go by: Tasmanian oak is a eucalypt, bending plywood bears nothing.
    """
    wanted = plain_name(name)
    slip = nearest(wanted, sorted({each for names in rows.values() for each in names}))
    if slip and not all(nearest(word, slip.split()) for word in wanted.split()):
        slip = None  # alike by the word that they share
    words = set(wanted.split())
    shared = {
        row: (slip in names, max(len(words & set(each.split())) for each in names))
        for row, names in rows.items()
    }
    likely = [row for row, (slipped, count) in shared.items() if slipped or count >= min(2, len(words))]
    return tuple(sorted(likely, key=lambda row: shared[row], reverse=True))[:_MOST_NAMES]
