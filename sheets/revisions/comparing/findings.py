"""Which findings came, went or say another thing: known by their rule and the pieces they are about, never by
a mark or by how many alike pieces were told in one."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence

from sheets.checks.finding import Finding
from sheets.checks.wording import called
from sheets.model.wall import Wall
from sheets.revisions.comparing.changes import FindingLine, Restated

_MORE = re.compile(r"; \d+ more alike$")
_RANK = {"error": 0, "warning": 1, "note": 2}

Found = tuple[tuple[FindingLine, ...], tuple[FindingLine, ...], tuple[Restated, ...]]
_Atom = tuple[str, str, str, str]


def finding_changes(
    before: Wall, after: Wall, findings_before: Iterable[Finding], findings_after: Iterable[Finding]
) -> Found:
    """Return the findings lost, those gained, and those that say another thing. Waived ones are left out."""
    old, new = (
        [FindingLine(f.rule, f.severity, f.message, f.subjects) for f in side if f.waived is None]
        for side in (findings_before, findings_after)
    )
    names = _names(before), _names(after)
    lost = _news(_in_order((Counter(old) - Counter(new)).elements()), names[0], new, names[1])
    gained = _news(_in_order((Counter(new) - Counter(old)).elements()), names[1], old, names[0])
    restated: list[Restated] = []
    for was in tuple(lost):
        now = next((one for one in gained if _topic(one) == _topic(was)), None)
        if now is not None:
            restated.append(Restated(was, now))
            lost.remove(was)
            gained.remove(now)
    restated += _of_other_pieces(lost, gained)
    return tuple(lost), tuple(gained), tuple(restated)


def _news(
    found: Sequence[FindingLine],
    names: Mapping[str, str],
    others: Sequence[FindingLine],
    other_names: Mapping[str, str],
) -> list[FindingLine]:
    # What the other side says of each of the same pieces, in one finding or in several, is no news.
    said = {one.message for one in others}
    atoms = {atom for one in others for atom in _atoms(one, other_names)}
    return [one for one in found if one.message in said or not set(_atoms(one, names)) <= atoms]


def _atoms(finding: FindingLine, names: Mapping[str, str]) -> list[_Atom]:
    message = _MORE.sub("", finding.message)
    for key in sorted(finding.subjects, key=lambda one: -len(names.get(one, ""))):
        if names.get(key):
            message = message.replace(names[key], "")
    return [(finding.rule, finding.severity, message, key) for key in finding.subjects or ("",)]


def _names(wall: Wall) -> dict[str, str]:
    names = {part.key: called(part) for part in wall.parts}
    return names | {component.key: component.name.lower() for component in wall.components}


def _of_other_pieces(lost: list[FindingLine], gained: list[FindingLine]) -> list[Restated]:
    # The same rule about some of the same pieces; the most in common first.
    pairs = sorted(
        (
            (-len(shared), sorted((was.message, now.message)), was, now)
            for was in lost
            for now in gained
            if (was.rule, was.severity) == (now.rule, now.severity)
            and (shared := set(was.subjects) & set(now.subjects))
        ),
        key=lambda one: one[:2],
    )
    found: list[Restated] = []
    for _, _, was, now in pairs:
        if was in lost and now in gained:
            found.append(Restated(was, now))
            lost.remove(was)
            gained.remove(now)
    return found


def _topic(finding: FindingLine) -> tuple[object, ...]:
    return (finding.rule, finding.severity, finding.subjects)


def _in_order(lines: Iterable[FindingLine]) -> list[FindingLine]:
    return sorted(lines, key=lambda one: (_RANK.get(one.severity, 3), one.rule, one.subjects, one.message))
