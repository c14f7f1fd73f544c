"""A letter that the font lacks is told at its place, and the set is drawn all the same."""

from __future__ import annotations

from dataclasses import replace

from sheets.compose.compose import unlettered


def test_each_text_with_letters_that_the_font_lacks_is_told_at_its_place(wall):
    assert unlettered(wall) == ()
    project = replace(wall.project, title="Wall \u5c0f\u5c4b", client="\u00c9mile \u0160, \u0394")
    found = unlettered(replace(wall, project=project, notes=("oil finish", "\U0001f600")))
    assert [d.path for d in found] == [("project", "title"), ("notes", 1)]
    assert "'\u5c0f', '\u5c4b'" in found[0].message
    assert all(d.severity == "warning" for d in found)
