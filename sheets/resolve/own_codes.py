"""A user's own table of clearances, read beside the spec that names it and put into the wall's settings."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from sheets.base.diagnostics import Diagnostic, Place
from sheets.base.text_file import decoded, lines_of, read_text, shown_name
from sheets.model.wall import Wall
from sheets.tables.clearances import COLUMNS, own_clearances

TextOf = Callable[[str], tuple[str | None, Diagnostic | None]]
"""From the path that the spec names: the table's text, or what is wrong with it."""
_PATH = ("codes",)
_KIND = "a table of clearances"
_HELP = "Its columns: where, projects_over, distance, per_projection, no_limit_beyond, source."


def in_folder(folder: Path) -> TextOf:
    """Return a reader of tables beside a spec."""

    def text_of(name: str) -> tuple[str | None, Diagnostic | None]:
        return read_text(folder / name, shown_name(name), _KIND)

    return text_of


def as_given(bytes_of: Callable[[str], bytes | None]) -> TextOf:
    """Return a reader of tables that come with a drawn set, or from where its spec was taken."""

    def text_of(name: str) -> tuple[str | None, Diagnostic | None]:
        data = bytes_of(name)
        if data is not None:
            return decoded(data, shown_name(name), _KIND)
        return None, Diagnostic("no-file", "error", f"the table {shown_name(name)} is not with the spec")

    return text_of


def with_own_codes(wall: Wall, text_of: TextOf) -> tuple[Wall | None, tuple[Diagnostic, ...]]:
    """Return the wall with the table that its spec names; None, and one error, where it cannot be read."""
    codes = wall.settings.codes
    if codes.body != "own":
        return wall, ()
    text, complaint = text_of(codes.table)
    if text is None:
        assert complaint is not None
        return None, (replace(complaint, path=_PATH, place=None, help=_HELP),)
    try:
        own_clearances(text)
    except ValueError as error:
        return None, (_unreadable(codes.table, text, str(error)),)
    settings = replace(wall.settings, codes=replace(codes, text=text))
    return replace(wall, settings=settings), ()


def _unreadable(table: str, text: str, message: str) -> Diagnostic:
    # The message begins with its line: "line 3: ...".
    head, _, what = message.partition(": ")
    number = int(head.removeprefix("line "))
    lines = lines_of(text)
    ours = lines[0].startswith(COLUMNS[0])  # else it is any file that a spec's author may point at
    there = lines[number - 1] if ours and number <= len(lines) else ""
    place = Place(shown_name(table), number, 1, there)
    return Diagnostic("codes-table", "error", what, place, _HELP, _PATH)
