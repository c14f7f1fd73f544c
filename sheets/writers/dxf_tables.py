"""What a DXF keeps in tables: layers, linetypes, the text styles and a dimension style for each scale.

Lengths in a DXF are drawing units, inches or millimetres; `unit` is the millimetres in one.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from math import fsum
from typing import Any, Literal

from sheets.drawing.items import Dimension, DrawingSet, Pen, Viewport, Weight
from sheets.drawing.lettering import FAMILY, font_path
from sheets.drawing.pens import Style, Where, linetypes, style, viewport_layer
from sheets.drawing.walk import dimensions

Units = Literal["inch", "mm"]

TEXT_STYLES: dict[Weight, str] = {"regular": "LETTERING", "bold": "LETTERING-BOLD"}
# A DXF names its faces and does not carry them: it names those that the PDF embeds. The family stands beside
# the file's name, marked as any face without serifs, so that a machine without it takes a plain one.
_FAMILIES: dict[Weight, str] = {"regular": FAMILY, "bold": f"{FAMILY} Semibold"}

_DARK, _LIGHT = 8, 9  # indexed colours for grey lines; 7 is black on paper
_BLACK = 7


@dataclass(slots=True)
class Tables:
    """The document with its tables as they fill; layers are made when first drawn on."""

    doc: Any
    units: Units
    unit: float
    notation: Literal["feet-inches", "inches", "mm"]
    _layers: dict[str, tuple[int, str, int]] = field(default_factory=dict)
    _known: dict[tuple[Pen, Where], dict[str, Any]] = field(default_factory=dict)

    def attributes(self, pen: Pen, kind: Where) -> dict[str, Any]:
        """Return the layer of a pen, made if new, and what it draws otherwise than its layer."""
        if (pen, kind) not in self._known:
            self._known[pen, kind] = self._new_attributes(pen, kind)
        return dict(self._known[pen, kind])

    def _new_attributes(self, pen: Pen, kind: Where) -> dict[str, Any]:
        look = style(pen, kind, self.units)
        own = (_hundredths(look), look.linetype, _colour(look.grey))
        if look.layer not in self._layers:
            self._layers[look.layer] = own
            self.doc.layers.add(look.layer, color=own[2], linetype=own[1], lineweight=own[0])
        usual = self._layers[look.layer]
        attributes: dict[str, Any] = {"layer": look.layer}
        for name, mine, layers in zip(("lineweight", "linetype", "color"), own, usual, strict=True):
            if mine != layers:
                attributes[name] = mine
        return attributes


def new_tables(doc: Any, drawing: DrawingSet) -> Tables:
    """Fill the tables of a new document for a set and return them."""
    units = drawing.units
    unit = 25.4 if units == "inch" else 1.0
    for name, dash in linetypes(units).items():
        lengths = [(d if k % 2 == 0 else -d) / unit for k, d in enumerate(dash)]
        says = name.replace("-", " ").capitalize()
        doc.linetypes.add(name, [fsum(map(abs, lengths)), *lengths], description=says)
    for weight, name in TEXT_STYLES.items():
        face = doc.styles.add(name, font=font_path(weight).name)
        face.set_extended_font_data(_FAMILIES[weight], bold=weight == "bold")
    border = doc.layers.add(viewport_layer(units), color=_LIGHT)
    border.dxf.plot = 0
    return Tables(doc, units, unit, _notation(drawing))


def dimension_style(tables: Tables, view: Viewport) -> str:
    """Return the name of the dimension style of a view's scale, made if new.

    Its values let a program that draws a dimension anew come near what is drawn; they do not change what it
    measures.
    """
    name = f"SCALE-{view.scale.numerator}-{view.scale.denominator}"
    if name in tables.doc.dimstyles:
        return name
    height = next((d.text.height for d in dimensions(view.items)), 2.5)
    unit = tables.unit
    look = tables.doc.dimstyles.add(name)
    values: dict[str, Any] = {
        "dimscale": float(1 / view.scale), "dimtxt": height / unit, "dimtxsty": TEXT_STYLES["regular"],
        "dimexo": 1.5 / unit, "dimexe": 1.5 / unit, "dimasz": 2.5 / unit, "dimgap": 0.8 / unit, "dimcen": 0.0,
        "dimtad": 1, "dimtih": 0, "dimtoh": 0, "dimtix": 1, "dimtofl": 1, "dimlfac": 1.0, "dimtmove": 2,
    }
    if tables.units == "inch":
        # 4: feet and inches; 5: inches and fractions. Fractions are stacked over a level bar, to 1/64 in.
        values |= {
            "dimtsz": 1.3 / unit, "dimlunit": 4 if tables.notation == "feet-inches" else 5, "dimdec": 6,
            "dimfrac": 0, "dimzin": 3, "dimtfac": 0.7,
        }
        if tables.notation == "inches":
            values["dimpost"] = '<>"'
    else:
        values |= {"dimtsz": 0.0, "dimlunit": 2, "dimdec": 1, "dimzin": 8, "dimdsep": ord(".")}
    for key, value in values.items():
        look.dxf.set(key, value)
    return name


def _notation(drawing: DrawingSet) -> Literal["feet-inches", "inches", "mm"]:
    if drawing.units == "mm":
        return "mm"
    sizes: list[Dimension] = [d for sheet in drawing.sheets for d in dimensions(sheet.items)]
    long = [d for d in sizes if isinstance(d.value, Fraction) and d.value >= Fraction(127, 5) * 12]
    return "inches" if long and not any("'" in d.value_text for d in long) else "feet-inches"


def _hundredths(look: Style) -> int:
    return round(look.width * 100)


def _colour(grey: float) -> int:
    if grey < 0.25:
        return _BLACK
    return _DARK if grey < 0.55 else _LIGHT

