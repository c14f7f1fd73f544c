"""Stable part keys: a part's place in the spec, never a counter over the whole drawing.

A key is steps joined by '/': `cases/flanking/left/shelf-3`. A step is lower-case letters, digits and hyphens.
"""

import re
import unicodedata

_STEP = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")


def slug(text: str) -> str:
    """Return a name as a step of a key: `Reading nook` gives reading-nook. Raises ValueError if nothing is
    left.
    """
    plain = unicodedata.normalize("NFKD", text).encode("ascii", "ignore").decode("ascii")
    step = re.sub(r"[^a-z0-9]+", "-", plain.lower()).strip("-")
    if not step:
        raise ValueError(f"'{text}' has no letter or digit to make a key of")
    return step


def join_key(*steps: str | int) -> str:
    """Return the key of these steps, outermost first. Raises ValueError for a step that is not slug text."""
    texts = [str(step) for step in steps]
    for text in texts:
        if not all(_STEP.fullmatch(part) for part in text.split("/")):
            raise ValueError(f"'{text}' is not a step of a key")
    return "/".join(texts)


def numbered(name: str, number: int) -> str:
    """Return the step of one of several alike: numbered('shelf', 3) is shelf-3. Numbers start at 1."""
    if number < 1:
        raise ValueError("numbers of parts start at 1")
    return f"{name}-{number}"


def key_order(key: str) -> tuple[tuple[tuple[int, int | str], ...], ...]:
    """Return what to sort keys by, so that shelf-10 comes after shelf-9."""
    return tuple(
        tuple((0, int(word)) if word.isdigit() else (1, word) for word in step.split("-"))
        for step in key.split("/")
    )
