"""Words of earlier specs are answered with the word that is written now, at their own place."""

from __future__ import annotations

from typing import Literal, get_args, get_origin

import pytest
from pydantic import BaseModel

from sheets.base.diagnostics import Diagnostic
from sheets.grammar.reader import read_spec_text
from sheets.grammar.retired import _KEYS, _VALUES
from sheets.grammar.schema import Spec
from tests.grammar.test_bad_values import WALL, changed, where

OLD = (
    (
        "checks.waivers.*.code",
        WALL + "checks: {waivers: [{code: mitres, reason: splined, by: RV}]}\n",
        "code",
        "it is 'rule' now",
        "Write `rule: ...` here.",
    ),
    (
        "cases.*.shelves.kind",
        changed("thickness: 1, spacing", "kind: fixed, thickness: 1, spacing"),
        "kind",
        "'kind' is not a key of cases 1, shelves any more",
        "Shelves are fixed: leave it out.",
    ),
    (
        "cases.*.backer.pattern",
        WALL + "    backer: {pattern: v-groove}\n",
        "pattern",
        "'pattern' is not a key of cases 1, backer any more",
        "A backer is of V-jointed boards: leave it out.",
    ),
    (
        "fasteners.wall_spacing",
        WALL + "fasteners: {wall_spacing: 24}\n",
        "wall_spacing",
        "'wall_spacing' is not a key of fasteners any more",
        "Studs have one spacing for checks, schedules and notes: write `checks: {stud_spacing: 16}`.",
    ),
    *(
        (
            f"labels.{key}",
            WALL + f"labels: {{{key}: 3}}\n",
            key,
            f"'{key}' is not a key of labels any more",
            "Write the label's size and how many there are, as `grid: 70x37-3x8`.",
        )
        for key in ("columns", "rows")
    ),
    *(
        (
            f"project.status={old.lower()}",
            changed("{title: Test wall}", f"{{title: Test wall, status: {old}}}"),
            old,
            f"'{old}' is written 'released' now",
            "Write `status: released`.",
        )
        for old in ("for shop", "for the shop", "For Construction", "for fabrication")
    ),
)


def errors_of(text: str) -> list[Diagnostic]:
    spec, _, found = read_spec_text(text, "wall.yaml")
    assert spec is None
    return [d for d in found if d.severity == "error"]


@pytest.mark.parametrize(("row", "text", "word", "message", "help_text"), OLD, ids=[row[0] for row in OLD])
def test_an_old_word_is_answered_with_the_new_one_at_its_line(
    row: str, text: str, word: str, message: str, help_text: str
) -> None:
    (fault,) = errors_of(text)
    assert fault.code == "retired-word"
    assert message in fault.message
    assert fault.help == help_text
    assert fault.place is not None
    assert (fault.place.line, fault.place.column) == where(text, word)


def test_every_retired_word_has_its_case_above() -> None:
    known = {".".join(key.at) for key in _KEYS} | {f"{'.'.join(v.at)}={v.old}" for v in _VALUES}
    assert known == {row[0] for row in OLD}


def test_what_else_is_wrong_is_told_as_well_and_the_new_word_alone_reads() -> None:
    text = WALL + "checks: {waivers: [{code: mitres, reason: splined, by: RV}], stud_spacing: x}\n"
    assert sorted(d.code for d in errors_of(text)) == ["not-a-length", "retired-word"]
    spec, _, _ = read_spec_text(text.replace("code:", "rule:").replace("stud_spacing: x", "stud_spacing: 16"))
    assert spec is not None
    assert spec.checks.waivers[0].rule == "mitres"


def test_an_old_word_beside_the_new_one_is_still_told() -> None:
    text = WALL + "checks: {waivers: [{code: bends, rule: mitres, reason: splined, by: RV}]}\n"
    assert [d.code for d in errors_of(text)] == ["retired-word"]


def _models(model: type[BaseModel], known: set[type[BaseModel]]) -> set[type[BaseModel]]:
    if model not in known:
        known.add(model)
        for info in model.model_fields.values():
            for part in _parts(info.annotation):
                if isinstance(part, type) and issubclass(part, BaseModel):
                    _models(part, known)
    return known


def _parts(kind: object) -> list[object]:
    return [kind, *(inner for part in get_args(kind) for inner in _parts(part))]


def test_no_key_allows_one_value_only() -> None:
    models = _models(Spec, set())
    assert len(models) > 40
    alone = [
        (model.__name__, name)
        for model in models
        for name, info in model.model_fields.items()
        if get_origin(info.annotation) is Literal and len(get_args(info.annotation)) < 2
    ]
    assert alone == []
