"""What the spec sets for schedules and checks, copied field by field: the language has the defaults."""

from sheets.grammar import shop
from sheets.grammar.schema import Spec
from sheets.model import settings as model


def settings_of(spec: Spec) -> model.Settings:
    """Return the settings of the wall that a spec describes."""
    return model.Settings(
        codes=_codes(spec.codes),
        checks=_checks(spec.checks),
        stock=_stock(spec.stock),
        fasteners=_fasteners(spec.fasteners),
        labels=_labels(spec.labels),
        patterns=model.Patterns(spec.patterns.paper, spec.patterns.station, spec.patterns.overlap),
    )


def _codes(said: str | None) -> model.Codes:
    # The text of a user's own table is put in where the spec's folder is known (tables_beside.py).
    if said is None:
        return model.Codes("")
    if said.endswith(".csv"):
        return model.Codes("own", table=said)
    body, _, edition = said.partition(" ")
    return model.Codes(body, edition)  # type: ignore[arg-type]


def _checks(said: shop.Checks) -> model.Checks:
    load, air = said.given_load, said.air
    return model.Checks(
        load=said.load,
        given_load=model.GivenLoad(load.weight, load.per) if load else None,
        sag=model.Sag(said.sag.aim, said.sag.years, said.sag.most),
        region=said.region,
        air=model.Air(_season(air.driest), _season(air.dampest)) if air else None,
        stud_spacing=said.stud_spacing,
        blocking=said.blocking,
        waivers=tuple(
            model.Waiver(each.rule, each.reason, each.by, each.part, each.relied_on) for each in said.waivers
        ),
    )


def _season(said: shop.Season) -> model.Season:
    return model.Season(said.humidity, said.temperature, said.degrees)


def _stock(said: shop.Stock) -> model.Stock:
    return model.Stock(
        board_lengths=said.board_lengths,
        board_widths=said.board_widths,
        thickest=said.thickest,
        panel_length=said.panel_length,
        panel_width=said.panel_width,
        edge_trim=said.edge_trim,
        sheet_tolerance=said.sheet_tolerance,
        kerf=said.kerf,
        end_trim=said.end_trim,
        rough_allowance=said.rough_allowance,
        waste=said.waste,
        keep_offcut=said.keep_offcut,
        search=model.Search(said.search.steps, said.search.seconds),
    )


def _fasteners(said: shop.Fasteners) -> model.Fasteners:
    return model.Fasteners(
        case=said.case,
        nail=said.nail,
        wall=said.wall,
        spacing=said.spacing,
        nail_spacing=said.nail_spacing,
        wall_diameter=said.wall_diameter,
        wall_length=said.wall_length,
        screws_per_stud=said.screws_per_stud,
    )


def _labels(said: shop.Labels) -> model.Labels:
    grid = said.grid
    return model.Labels(
        paper=said.paper,
        grid=model.LabelGrid(grid.width, grid.height, grid.columns, grid.rows),
        gap=said.gap,
        row_gap=said.row_gap,
        side_margin=said.side_margin,
        top_margin=said.top_margin,
    )
