from fractions import Fraction
from pathlib import Path

import pytest

from sheets.base.diagnostics import Diagnostic, Place
from sheets.base.length import inch
from sheets.grammar.defaults import canonical, filled
from sheets.grammar.reader import read_spec, read_spec_text
from sheets.grammar.schema import Masonry, Panel, SolidWood
from sheets.grammar.starter import starter_spec

EXAMPLES = sorted((Path(__file__).parents[2] / "specs").glob("*.yaml"))
SMALL = "project: {title: x}\nroom: {width: 120}\n"


def test_there_are_examples() -> None:
    assert len(EXAMPLES) >= 4


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.stem)
def test_an_example_reads_without_a_finding_and_opens_with_what_it_shows(path: Path) -> None:
    spec, _, found = read_spec(path)
    assert spec is not None
    assert found == ()
    assert path.read_text(encoding="utf-8").startswith("# Shows: ")


@pytest.mark.parametrize("text", [*(p.read_text(encoding="utf-8") for p in EXAMPLES), starter_spec()])
def test_the_filled_spec_reads_back_equal_and_is_its_own_filled_spec(text: str) -> None:
    spec, source, _ = read_spec_text(text, "wall.yaml")
    assert spec is not None
    full = filled(spec, source)
    again, source_again, found = read_spec_text(full, "wall.yaml")
    assert found == ()
    assert again == spec
    assert filled(again, source_again) == full
    assert canonical(again) == canonical(spec)


def test_the_starter_reads_without_a_finding_and_is_commented() -> None:
    spec, _, found = read_spec_text(starter_spec())
    assert spec is not None
    assert found == ()
    assert starter_spec().count("#") > 15


def test_defaults_follow_the_units() -> None:
    case = "cases: [{name: a, height: 80, shelves: {}}]\n"
    spec, _, _ = read_spec_text(SMALL + case)
    assert spec is not None
    assert spec.cases[0].depth == inch(12)
    assert (spec.precision, spec.dimensions, spec.sheet.size) == (inch("1/16"), "feet-inches", "arch-c")
    spec, _, _ = read_spec_text("units: mm\n" + SMALL.replace("120", "3000") + case.replace("80", "2000"))
    assert spec is not None
    assert spec.cases[0].depth == 300
    assert (spec.precision, spec.dimensions, spec.sheet.size) == (1, "mm", "iso-a2")


def test_materials_are_inherited_and_found_by_kind() -> None:
    spec, _, _ = read_spec_text(
        "project: {title: x}\nroom: {width: 200}\n"
        "materials: {tile: {masonry: tile}, elm: {species: elm}, mdf: {panel: MDF}, ash: {species: ash}}\n"
        "surround: {width: 60}\nmantel: {top: 50, material: ash, posts: {}}\n"
        "cases: [{name: a, mirrored: true, height: 80, frame: {material: ash}, shelves: {}, "
        "plinth: {material: elm}}]\n"
    )
    assert spec is not None
    assert spec.surround is not None
    assert spec.mantel is not None
    assert spec.mantel.posts is not None
    assert spec.mantel.layers.cap is not None
    assert spec.cases[0].shelves is not None
    assert spec.cases[0].plinth is not None
    assert spec.surround.material == "tile"
    assert (spec.mantel.posts.material, spec.mantel.layers.cap.material) == ("ash", "ash")
    assert (spec.cases[0].material, spec.cases[0].shelves.material, spec.cases[0].plinth.material) == (
        "mdf",
        "ash",
        "elm",
    )
    kinds = [type(material) for material in spec.materials.values()]
    assert kinds == [Masonry, SolidWood, Panel, SolidWood, SolidWood], "the last is for what is hidden"


def test_a_vault_may_be_given_by_spring_and_rise() -> None:
    by_rise, _, _ = read_spec_text(
        "project: {title: x}\nroom: {width: 120, ceiling: {vault: {spring: 84, rise: 1'-2 1/2\"}}}\n"
        "cases: [{name: a, height: 80}]\n"
    )
    assert by_rise is not None
    assert by_rise.room.ceiling.height == inch("98.5")


def test_a_list_of_spacings_gives_the_count() -> None:
    spec, _, _ = read_spec_text(
        SMALL + "cases: [{name: a, height: 80, shelves: {spacing: [12, fill, fill]}}]\n"
    )
    assert spec is not None
    assert spec.cases[0].shelves is not None
    assert spec.cases[0].shelves.count == 2
    assert spec.cases[0].shelves.spacing == (inch(12), "fill", "fill")


def test_yaml_traps_in_text_stay_text() -> None:
    text = "project: {title: 0123, drawn: NO, number: 2_608, date: 2026-03-02, status: 1e3}\n"
    text += "room: {width: 120}\n"
    spec, _, _ = read_spec_text(text + "cases: [{name: 010, height: 80}]\n")
    assert spec is not None
    project = spec.project
    assert (project.title, project.drawn, project.number, project.status) == ("0123", "NO", "2_608", "1e3")
    assert project.date == "2026-03-02"


def test_every_default_in_a_filled_spec_survives_odd_values() -> None:
    text = (
        'project: {title: "a: b # c \\" \\\\ \'d\' \\n e"}\n'
        "room: {width: 10000/3 mm}\nnotes: ['- x', 'null', 'caf\u00e9']\n"
        "cases: [{name: a, height: 2000.001 mm, depth: 11.3, at: {offset: -10 mm}, width: 18 mm}]\n"
        "materials: {thin: {panel: skin, thickness: 3 mm}}\n"
    )
    spec, source, found = read_spec_text(text)
    assert spec is not None, found
    assert spec.room.width == Fraction(10000, 3)
    again, _, found = read_spec_text(filled(spec, source))
    assert again == spec, found


def test_places_of_what_is_written_and_of_defaults() -> None:
    text = SMALL + "cases:\n  - name: a\n    height: 80\n    shelves: {count: 2}\n"
    _, source, _ = read_spec_text(text, "w.yaml")

    def at(*path: str | int) -> tuple[int, int]:
        place = source.place_of(path)
        return place.line, place.column

    assert at("cases", 0, "height") == (5, 13)
    assert at("cases", 0, "shelves") == (6, 5)
    assert at("cases", 0, "shelves", "thickness") == (6, 5)
    assert at("cases", 0, "shelves", "joint", "dado") == (6, 5)
    assert at("cases", 0) == (4, 5)
    assert at("mantel", "top") == (1, 1)
    assert source.is_written(("cases", 0, "height"))
    assert not source.is_written(("cases", 0, "depth"))
    assert source.key_place(("cases", 0, "height")).column == 5


def test_a_scribe_that_does_not_take_the_lean_is_a_warning_and_the_spec_is_read() -> None:
    spec, _, found = read_spec_text(SMALL + "cases: [{name: a, height: 80, scribe: 1/8}]\n")
    assert spec is not None
    assert [(d.code, d.severity) for d in found] == [("scribe", "warning")]


def test_findings_of_a_later_stage_get_the_place_of_their_path() -> None:
    _, source, _ = read_spec_text(SMALL + "cases: [{name: a, height: 80}]\n", "w.yaml")
    kept = Diagnostic("b", "note", "m", Place("other", 1, 1, ""), path=("room",))
    placed = source.placed(
        [Diagnostic("a", "error", "m", path=("cases", 0, "height")), kept, Diagnostic("c", "note", "m")]
    )
    assert placed[0].place is not None
    assert (placed[0].place.line, placed[0].place.column) == (3, 27)
    assert placed[1:] == (kept, Diagnostic("c", "note", "m"))


def test_a_spec_is_frozen() -> None:
    spec, _, _ = read_spec_text(SMALL + "cases: [{name: a, height: 80}]\n")
    assert spec is not None
    with pytest.raises(ValueError, match="frozen"):
        spec.room.width = Fraction(1)  # type: ignore[misc]
