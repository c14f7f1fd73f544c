"""Finding a row by the name a joiner writes: case, hyphens and the order 'oak, white' do not matter."""

from __future__ import annotations

import re


def plain_name(name: str) -> str:
    """Return the name in small letters with single spaces: 'Yellow-Poplar ' is 'yellow poplar'."""
    words = [" ".join(re.split(r"[\s_\-]+", part.strip().lower())) for part in name.split(",")]
    return " ".join(word for word in reversed(words) if word)


def names_of(name: str, aliases: str) -> frozenset[str]:
    """Return every name a row answers to; aliases are parted by |."""
    return frozenset(plain_name(each) for each in (name, *aliases.split("|")) if each.strip())
