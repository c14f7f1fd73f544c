from sheets.base.diagnostics import (
    Diagnostic,
    Place,
    has_errors,
    in_order,
    nearest,
    print_text,
    spec_path,
    to_json,
)

PLACE = Place("wall.yaml", 12, 5, "    heigth: 76")
ERROR = Diagnostic(
    "unknown-key", "error", "'heigth' is not a key of cases 1", PLACE, "Did you mean height?", ("cases", 0)
)


def test_text_shows_place_line_caret_and_help() -> None:
    assert print_text([ERROR]).splitlines() == [
        "wall.yaml:12:5: error (unknown-key): 'heigth' is not a key of cases 1",
        "        heigth: 76",
        "        ^",
        "  Did you mean height?",
    ]


def test_the_caret_stays_in_a_window_of_a_long_line() -> None:
    line = "x" * 5000 + "HERE" + "y" * 5000
    text = print_text([Diagnostic("c", "error", "m", Place("f", 1, 5001, line))]).splitlines()
    assert all(len(shown) < 130 for shown in text)
    assert text[1][text[2].index("^") :].startswith("HERE")


def test_without_a_place_there_is_only_the_message() -> None:
    assert print_text([Diagnostic("c", "note", "m")]) == "note (c): m\n"


def test_json_has_plain_values() -> None:
    assert to_json(ERROR)["line"] == 12
    assert to_json(ERROR)["path"] == ["cases", 0]
    assert to_json(Diagnostic("c", "note", "m"))["file"] is None


def test_order_is_by_place_with_the_placeless_last() -> None:
    later = Diagnostic("a", "error", "m", Place("wall.yaml", 20, 1, ""))
    none = Diagnostic("a", "error", "m")
    assert in_order([none, later, ERROR]) == (ERROR, later, none)


def test_only_an_error_is_an_error() -> None:
    assert has_errors([ERROR])
    assert not has_errors([Diagnostic("c", "warning", "m")])


def test_nearest() -> None:
    allowed = ("height", "width", "depth", "saw_cuts", "centre")
    assert nearest("heigth", allowed) == "height"
    assert nearest("widht", allowed) == "width"
    assert nearest("saw-cut", allowed) == "saw_cuts"
    assert nearest("center", allowed) == "centre"
    assert nearest("colour", allowed) is None
    assert nearest("A4", ("iso-a3", "iso-a4", "arch-a")) == "iso-a4"
    assert nearest("a", ("ansi-a", "arch-a")) is None
    assert nearest("x", ()) is None
    assert nearest("q", ("a",)) is None


def test_a_path_counts_from_one() -> None:
    assert spec_path(("cases", 0, "shelves", "spacing", 2)) == "cases 1, shelves, spacing 3"
    assert spec_path(()) == ""
