"""The changes as one line, for the row of a revision: short enough for the field that it stands in."""

from __future__ import annotations

from collections import Counter

from sheets.model.wall import Wall
from sheets.revisions.comparing.change_words import ChangeGroup, ChangeLine, groups, size_line
from sheets.revisions.comparing.changes import Changes, SizeChange
from sheets.revisions.comparing.sizes import CONTENT, NOTE

_MOST = 2
"""So many changes are told; the report lists the others."""
_LONGEST = 100
"""Letters: what three lines of the narrowest column for revisions hold (our own title blocks, measured)."""
_FINISH = "finish "
_FIRST = ("added", "removed", "other material", "other finish")


def summary(changes: Changes, before: Wall, after: Wall) -> str:
    """Return the first changes by assembly and how many more there are: sizes that the spec gives, else what
    was done to the pieces that the shop makes. What others make follows from these."""
    shop = {change.key for change in changes.parts if change.part.maker == "shop"}
    # What was measured anew first: what only followed it comes after.
    ordered = sorted(groups(changes, before, after), key=lambda group: not group.sizes)
    told = _once([(group.heading, says) for group in ordered for says in _says(group, shop)])
    told = told or [("", _word(word, before, after)) for word in changes.words]
    told = told or [("", "What others build") for _ in changes.parts[:1]]
    if not told:
        return "No change to what is built"
    for count in range(min(_MOST, len(told)), 0, -1):
        whole = _joined(told[:count], len(told) - count)
        if len(whole) <= _LONGEST:
            return whole
    heading, says = told[0]
    more = _joined([("", "")], len(told) - 1)
    return _cut(_joined([(heading, says)], 0), _LONGEST - len(more)) + more


def _once(told: list[tuple[str, str]]) -> list[tuple[str, str]]:
    # Another finish of several assemblies is said once and of none of them.
    count = Counter(says for _, says in told if says.startswith(_FINISH))
    return list(dict.fromkeys(("", says) if count[says] > 1 else (heading, says) for heading, says in told))


def _joined(told: list[tuple[str, str]], more: int) -> str:
    says, last = "", ""
    for heading, one in told:
        if heading and heading != last:
            says += f"{'; ' if says else ''}{heading[:1].upper()}{heading[1:].lower()}: {one}"
        else:
            says += f"{', ' if says else ''}{one}"
        last = heading
    return says[:1].upper() + says[1:] + (f", and {more} more" if more else "")


def _cut(says: str, most: int) -> str:
    return says if len(says) <= most else says[: most - 4].rsplit(" ", 1)[0].rstrip(",;:") + " ..."


def _says(group: ChangeGroup, shop: set[str]) -> list[str]:
    lines = [line for line in group.lines if shop & set(line.keys)]
    first = [line for line in lines if line.verb in _FIRST]
    chosen = first if group.sizes else first or lines
    return [*group.sizes, *dict.fromkeys(_line(line) for line in chosen)]


def _line(line: ChangeLine) -> str:
    if line.verb == "other finish":
        return line.how
    count = f" ({line.count})" if line.count > 1 else ""
    return f"{line.mark} {line.name.lower()}{count} {line.verb}".strip()


def _word(word: SizeChange, before: Wall, after: Wall) -> str:
    if word.name == NOTE:
        return "note " + (
            "added" if word.before is None else "removed" if word.after is None else "corrected"
        )
    if word.name.startswith(CONTENT):
        return "title block changed"
    return size_line(word, before, after)
