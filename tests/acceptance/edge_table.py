"""For each rule of the checks, two specs a step apart: one that just passes and one that just fails.

A row changes one value of a wall in `edges/`. Where the value is a length the step is 1/16 in, the grid, or
less; where it is none, `step` says what the nearest step is.
"""

from __future__ import annotations

from dataclasses import dataclass, field


@dataclass(frozen=True)
class Edge:
    """One pair. path: of the value that is changed, dotted. at: where the finding points, the same path
    unless it is told. says: words of the finding meant, where a rule has several of one severity.
    """

    rule: str
    severity: str
    wall: str
    path: str
    passes: str
    fails: str
    at: str = ""
    says: str = ""
    step: str = ""
    given: dict[str, str] = field(default_factory=dict)  # changed in both

    @property
    def name(self) -> str:
        return f"{self.rule}, {self.severity}, {self.path} {self.passes} or {self.fails}"


CASE, SHELVES, BACKER = "cases.0", "cases.0.shelves", "cases.0.backer"
CUTS = "mantel.layers.fascia.saw_cuts"
TOP = f"{SHELVES}.spacing"

# The opening is 36 by 24 (6.00 sq ft), its top at 33 1/4. The arched rail of the mantel is 13 1/2 above it
# and, like the posts 15 beside it, stands 5 in front of the facing.
CLEARANCE = (
    # IRC R1001.11, exception 4: 1 1/2 at 12 in, no limit beyond.
    Edge("masonry-clearance", "error", "masonry", "mantel.arch.rail", "7-7/16", "7-1/2"),
    Edge("masonry-clearance", "error", "masonry", "mantel.posts.width", "9-15/16", "10"),
    # From 2021 beside: 6 in and the projection, 5: 11 in. The post's inner face is 40 - 11 - 18 = 11 away.
    Edge(
        "masonry-clearance",
        "error",
        "masonry",
        "mantel.posts.width",
        "11",
        "11-1/16",
        given={"codes": "IRC 2021"},
    ),
    # To 2018 beside as above: 8 x 5 = 40 in within 12, so no nearer than 12: 40 - 10 - 18 = 12.
    Edge(
        "masonry-clearance",
        "error",
        "masonry",
        "mantel.posts.width",
        "9-15/16",
        "10",
        given={"codes": "IRC 2018"},
    ),
    Edge("masonry-clearance", "warning", "masonry", "codes", "IRC", "none", step="a body of rules or none"),
    # IRC R1001.11, exceptions 2 and 3: the wall's gypsum board ends at the masonry, 12 in from the lining.
    Edge(
        "masonry-air",
        "error",
        "masonry",
        "fireplace.masonry.beside",
        "12",
        "11-15/16",
        at="fireplace.masonry",
    ),
    Edge(
        "masonry-air", "error", "masonry", "fireplace.masonry.above", "12", "11-15/16", at="fireplace.masonry"
    ),
    Edge(
        "masonry-air", "warning", "masonry", "fireplace.masonry", "", "-", at="fireplace", step="said or not"
    ),
    # IRC R1003.18: 2 in inside the house, and the gypsum board is 1/2 in thick; 1 in outside.
    Edge(
        "chimney-air",
        "error",
        "masonry",
        "fireplace.masonry.chimney.behind",
        "2-1/2",
        "2-7/16",
        at="fireplace.masonry.chimney",
    ),
    Edge(
        "chimney-air",
        "warning",
        "masonry",
        "fireplace.masonry.chimney",
        "",
        "-",
        at="fireplace.masonry",
        step="said or not",
    ),
    Edge(
        "fire-materials",
        "warning",
        "masonry",
        "materials.slate.masonry",
        "slate",
        "slate effect",
        at="materials.slate",
        step="a known stone or its imitation",
    ),
    # IRC R1001.10: from 6 sq ft up 20 in in front and 12 beside. R1001.9.2: 2 in thick under a low opening.
    Edge("hearth-extension", "error", "masonry", "surround.hearth.projection", "20", "19-15/16"),
    Edge("hearth-extension", "error", "masonry", "surround.hearth.width", "60", "59-15/16"),
    Edge(
        "hearth-extension",
        "warning",
        "masonry",
        "surround.hearth.thickness",
        "2",
        "1-15/16",
        given={"fireplace.sill": "9"},
    ),
    # The manual's pairs are 6 at 6 and 9 at 20 in.
    Edge(
        "listed-clearance",
        "error",
        "listed",
        "mantel.arch.rail",
        "6",
        "6-1/16",
        given={"fireplace.listing.mantel.0.above": "13-1/2"},
    ),
    Edge(
        "listed-clearance",
        "error",
        "listed",
        "mantel.layers.cap.overhang",
        "1-1/2",
        "1-9/16",
        says="pairs end before",
        given={"fireplace.listing.mantel.1.projection": "6-1/2"},
    ),
    Edge(
        "listed-clearance", "error", "listed", "fireplace.listing", "", "-", at="fireplace", step="no pairs"
    ),
    # The posts stand 40 - 7 - 18 = 15 in beside the opening.
    Edge("listed-clearance", "error", "listed", "mantel.posts.width", "7", "7-1/16"),
    Edge(
        "listed-clearance",
        "warning",
        "listed",
        "fireplace.listing.legs",
        "",
        "-",
        at="fireplace.listing",
        step="copied or not",
    ),
    # The ceiling is 110 - 33 1/4 = 76 3/4 above the opening, the side walls 120 - 18 = 102 beside it.
    Edge(
        "listed-clearance",
        "error",
        "listed",
        "fireplace.listing.ceiling.above",
        "76-3/4",
        "76-13/16",
        at="room.ceiling",
    ),
    Edge(
        "listed-clearance",
        "error",
        "listed",
        "fireplace.listing.side_walls",
        "102",
        "102-1/16",
        at="room.width",
    ),
    Edge("hearth-extension", "error", "listed", "surround.hearth.projection", "20", "19-15/16"),
    Edge(
        "hearth-extension",
        "warning",
        "listed",
        "fireplace.listing.hearth",
        "",
        "-",
        at="fireplace.listing",
        step="copied or not",
    ),
    # It hangs 66 1/4 - 33 1/4 = 33 above the opening.
    Edge(
        "heat-above",
        "error",
        "listed",
        "fireplace.hung.bottom",
        "66-1/4",
        "66-3/16",
        given={"fireplace.listing.television.above": "33"},
    ),
    Edge(
        "heat-above",
        "warning",
        "listed",
        "fireplace.listing.television",
        "",
        "-",
        at="fireplace.hung",
        step="copied or not",
    ),
    # The arched rail starts 13 1/2 above the opening; with a rail of 8 it is 11 1/2, within 12 in.
    Edge(
        "service-space",
        "error",
        "listed",
        "fireplace.listing.service.above",
        "13-1/2",
        "13-9/16",
        at="mantel.arch.rail",
    ),
    Edge(
        "service-space",
        "warning",
        "listed",
        "fireplace.listing.service",
        "",
        "-",
        at="fireplace.listing",
        step="copied or not",
        given={"mantel.arch.rail": "8"},
    ),
    # What the manual wants here is faced 22 beside, and 13 1/2 above.
    Edge(
        "facing-extent",
        "error",
        "listed",
        "surround.width",
        "80",
        "79-15/16",
        says="reaches",
        given={"fireplace.listing.facing.beside": "22"},
    ),
    Edge(
        "facing-extent",
        "error",
        "listed",
        "mantel.arch.rail",
        "6",
        "6-1/16",
        says="lies within",
        given={"fireplace.listing.facing.above": "13-1/2"},
    ),
    Edge(
        "facing-extent",
        "warning",
        "listed",
        "fireplace.listing.facing",
        "",
        "-",
        at="fireplace.listing",
        step="no facing",
    ),
)

SAG = (
    # 1 x 10 13/16 red oak under 25 lb per ft, 1.6 times the first sag (EN 1995-1-1 table 3.2) at L/384:
    # 384 E I / (5 w 614.4) = span^3 gives 46.17 in between 23/32 sides; 46 1/8 passes.
    Edge("shelf-sag", "warning", "masonry", f"{CASE}.width", "47-9/16", "47-5/8", at=f"{SHELVES}.thickness"),
    Edge(
        "shelf-sag",
        "warning",
        "masonry",
        f"{SHELVES}.thickness",
        "1",
        "15/16",
        given={f"{CASE}.width": "47-9/16"},
    ),
    # 3/4 red oak at 50 lb per sq ft, L/144: 46.15 in (Architectural Woodwork Standards 2009, printed 46).
    Edge(
        "shelf-sag", "error", "masonry", f"{SHELVES}.thickness", "13/16", "3/4", given={f"{CASE}.width": "48"}
    ),
    Edge("shelf-sag", "warning", "masonry", f"{SHELVES}.material", "oak", "odd", step="a wood no table has"),
)

OVERHANGS = (
    # 200 lb over 4 in and twice the overhang, on 3/4 red oak across its grain, a twentieth of 14300 psi:
    # 1200 L = 0.5625 x 715 / 1 1/2 x (4 + 2 L) at 1.616 in; at what breaks it, 4.066 in.
    Edge(
        "overhangs",
        "warning",
        "masonry",
        f"{CASE}.cap.overhang",
        "1-9/16",
        "1-5/8",
        given={f"{CASE}.cap.material": "oak\n      thickness: 3/4"},
    ),
    Edge(
        "overhangs",
        "error",
        "masonry",
        f"{CASE}.cap.overhang",
        "4-1/16",
        "4-1/8",
        given={f"{CASE}.cap.material": "oak\n      thickness: 3/4"},
    ),
    Edge("overhangs", "warning", "masonry", f"{CASE}.cap.material", "oak", "odd", step="a wood no table has"),
    # 5/32 in and 1/8 in, and nothing but glue.
    Edge("bearings", "warning", "masonry", f"{SHELVES}.joint.dado", "5/32", "9/64"),
    Edge("bearings", "error", "masonry", f"{SHELVES}.joint.dado", "1/8", "7/64"),
)

MOVEMENT = (
    # Air by equation 4-5 of the Wood Handbook: fixed at 8 %, 10.83 at the dampest, 4.45 at the driest beside
    # a fire. 5 in less the gap x 0.00369 x 2.83 points = 0.0517; 4/64 holds it, 3/64 does not.
    Edge("board-movement", "error", "masonry", f"{BACKER}.gap", "1/16", "3/64"),
    # Gap 1/16 + 4 15/16 x 0.00369 x 3.55 = 0.0647 + 1/16 that stays engaged = 0.190 in.
    Edge("board-movement", "warning", "masonry", f"{BACKER}.tongue.length", "13/64", "3/16"),
    # Without a fire 6.19 at the driest. A panel of 23 1/16 in (22 5/16 shows, 3/8 let in at each side) grows
    # 0.241 in; with L let in it shrinks (22 5/16 + 2 L) x 0.00369 x 1.81, which is L at 0.151 in.
    Edge("board-movement", "error", "panelled", "overmantel.panel.gap", "1/4", "15/64"),
    Edge(
        "board-movement",
        "error",
        "panelled",
        "overmantel.panel.let_in",
        "5/32",
        "9/64",
        given={"overmantel.panel.gap": "1/4"},
    ),
    Edge("board-movement", "note", "masonry", f"{BACKER}.material", "oak", "odd", step="a wood no table has"),
    # 1/8 in at 6.38 points and 0.00369: 5.31 in, and none that is no wider than 6 in; 1/2 of it the scribe.
    Edge("wide-pieces", "warning", "masonry", f"{CASE}.frame.stile", "5-1/2", "5-9/16", says="stile"),
    Edge("wide-pieces", "error", "masonry", f"{CASE}.cap.fixed", "in slots", "glued", step="slots or glue"),
    Edge(
        "wide-pieces", "note", "masonry", f"{CASE}.frame.material", "oak", "odd", step="a wood no table has"
    ),
    # 8 - 6.19 = 1.81 points x 0.00369 x root 2 x width = 1/32 at 3.305 in; the edge of a cap is its overhang
    # and 2 in.
    Edge("mitres", "warning", "apart", f"{CASE}.cap.overhang", "1-1/4", "1-5/16", says="(left)"),
)

STOCK = (
    Edge(
        "known-materials",
        "warning",
        "masonry",
        "materials.oak.species",
        "red oak",
        "oak",
        step="one wood or several",
    ),
    Edge(
        "known-materials",
        "warning",
        "masonry",
        "materials.ply.panel",
        "veneer-core plywood",
        "bending plywood",
        step="a panel of the tables or none",
    ),
    # A sheet of 96 in less 1/16 (PS 1) and 1/8 trimmed off each end: 95 11/16; the sides are 1 1/4 lower than
    # the cap.
    Edge("stock-sizes", "error", "masonry", f"{CASE}.height", "96-15/16", "97", says="is larger than the"),
    # HP-1: 3/4 hardwood plywood is 23/32, and up to 3/4.
    Edge("stock-sizes", "warning", "masonry", "materials.ply.thickness", "3/4", "49/64"),
    # NHLA: 8/4 surfaces to 1 3/4. Boards of 8 in are the widest that the shop buys unless the spec says more,
    # less 1/4 for jointing their edges.
    Edge(
        "stock-sizes",
        "note",
        "masonry",
        "mantel.layers.sub_fascia.thickness",
        "1-3/4",
        "1-13/16",
        says="a single board dresses",
    ),
    Edge(
        "stock-sizes", "note", "masonry", "mantel.layers.fascia.height", "7-3/4", "7-13/16", says="M9 fascia"
    ),
    # In 3/4: half is 3/8, and 1/8 is left behind 5/8.
    Edge("saw-cuts", "warning", "masonry", f"{CUTS}.depth", "3/8", "7/16"),
    Edge("saw-cuts", "error", "masonry", f"{CUTS}.depth", "5/8", "11/16"),
    Edge("saw-cuts", "warning", "masonry", f"{CUTS}.width", "1/8", "1/16"),
    # 4 in with 10 cuts of 1/8 in leaves 11 bands of 1/4 in.
    Edge(
        "saw-cuts",
        "warning",
        "masonry",
        f"{CUTS}.count",
        "10",
        "11",
        step="one cut",
        given={"mantel.layers.fascia.height": "4"},
    ),
    Edge("dadoes", "error", "masonry", f"{SHELVES}.joint.dado", "5/16", "3/8"),  # in 23/32
    Edge("dadoes", "warning", "pair", f"{CASE}.plinth.height", "3/8", "5/16"),
)

FRAMING = {
    "fireplace.listing.facing": "{above: 3, beside: 3}\n"
    "    framing: {width: 40, height: 30, depth: 14, below: 2}"
}

FIT = (
    Edge("collisions", "error", "apart", "cases.1.at.offset", "6", "6-1/16", at=f"{CASE}.cap"),
    # A vault of 20 in over 100: at 46 1/2 from the axis (the cap's corner) it is 53.09 in high.
    Edge("case-fit", "error", "vault", "mantel.top", "53-1/16", "53-1/8"),
    Edge("scribes", "warning", "masonry", f"{CASE}.scribe", "1/4", "3/16"),
    Edge("scribes", "warning", "masonry", f"{CASE}.scribe", "1-1/2", "1-9/16"),
    # A hearth wider than the facing: the baseboard ends beside it and meets nothing.
    Edge("baseboards", "warning", "masonry", "surround.hearth.width", "80", "80-1/16", at="room.baseboard"),
    # The posts leave 39 in; the appliance's trim is 36 and twice 1 1/2.
    Edge("opening-free", "error", "listed", "mantel.posts.width", "20-1/2", "20-9/16"),
    # The framing opening is 40 by 30: a case leaves it 1 1/2 in for a stud, and the opening lies within it.
    Edge(
        "appliance-framing",
        "error",
        "listed",
        "fireplace.listing.framing.width",
        "77",
        "77-1/16",
        at=f"{CASE}.width",
        says="a stud takes",
        given={f"{CASE}.width": "fill", **FRAMING},
    ),
    Edge(
        "appliance-framing",
        "error",
        "listed",
        "fireplace.listing.framing.height",
        "26",
        "25-15/16",
        says="within the fireplace opening",
        given=FRAMING,
    ),
    # It starts at 7 1/4; the box behind the mantel's layers at 52 3/4.
    Edge(
        "appliance-framing",
        "error",
        "listed",
        "fireplace.listing.framing.height",
        "45-1/2",
        "45-9/16",
        at="mantel.top",
        says="stands in the framing",
        given=FRAMING,
    ),
    # Without its cap 82 3/4 high and 24 deep: 86.16 on the diagonal.
    Edge(
        "moving-in",
        "warning",
        "masonry",
        f"{CASE}.height",
        "84",
        "84-1/16",
        given={f"{CASE}.depth": "24", "room.ceiling.height": "86-3/16"},
    ),
    Edge(
        "moving-in", "error", "masonry", f"{CASE}.depth", "13", "13-1/16", given={"room.doorway.width": "13"}
    ),
)

ORDER = (
    Edge("symmetry", "warning", "pair", f"{SHELVES}.thickness", "1", "1-1/16", at=SHELVES, says="shelf"),
    Edge("symmetry", "note", "apart", f"{CASE}.at.offset", "-30", "-30-1/16", at=CASE),
    # The baseboard is 5 1/2 high: level with it, or more than 1/2 in off.
    Edge("alignment", "warning", "masonry", f"{CASE}.plinth.height", "5-1/2", "5-9/16"),
    Edge("alignment", "warning", "masonry", f"{CASE}.plinth.height", "6-1/16", "6"),
    # 55 1/4 less a cap of 1 1/4 is 54, the mantel's top: lower than that the case's own cap runs into the
    # mantel's, which then has no overhang there.
    Edge("equal-margins", "warning", "lopsided", f"{CASE}.height", "55-1/4", "55-3/16", at="mantel"),
    Edge("depth-order", "warning", "masonry", "mantel.layers.sub_fascia.setback", "1/8", "1/16"),
    Edge("depth-order", "warning", "masonry", f"{CASE}.cap.overhang", "1/8", "1/16"),
    # The baseboard's top is an edge; its face alone would show no plies.
    Edge("seen-faces", "warning", "masonry", "room.baseboard.material", "oak", "ply", step="plies"),
    # The ceiling rises 20 in 240, so 3 in 36; a quarter more is 3 3/4.
    Edge(
        "arch-ratio",
        "note",
        "masonry",
        "mantel.arch.rise",
        "3-3/4",
        "3-13/16",
        given={"room.ceiling.height": "110\n    vault:\n      spring: 90"},
    ),
)

USE = (
    # Eyes at up to 44 in from a lounge seat; the middle of the opening is 12 above its sill.
    Edge("opening-height", "note", "masonry", "fireplace.sill", "32", "32-1/16", given={"mantel.top": "80"}),
    Edge("mantel-height", "note", "masonry", "mantel.top", "60", "60-1/16", says="is usual"),
    # A small woman grips what lies at 1790 mm (Pheasant, from memory): 70.47 in.
    Edge("mantel-height", "note", "masonry", "mantel.top", "70-7/16", "70-1/2", says="is reached"),
    # 72 1/4 in clear from the case's floor at 8 in to its top. Paperbacks want 8 in: 7 shelves leave eight
    # bays of (72 1/4 - 7) / 8 = 8.16 in, 8 leave nine of 7.14.
    Edge("book-bays", "note", "masonry", f"{SHELVES}.count", "7", "8", step="one shelf"),
    # With a fifth bay of 11 in the upper face of the shelf is at 72: 9 7/16 for 1790 mm, 70.47 in, and
    # 18 1/2 for the 2020 mm, 79.53 in, of a tall woman.
    Edge(
        "shelf-reach",
        "note",
        "masonry",
        f"{TOP}.4",
        "9-7/16",
        "9-1/2",
        at=TOP,
        given={TOP: "[12, 12, 12, 12, 9, fill]"},
    ),
    Edge(
        "shelf-reach",
        "warning",
        "masonry",
        f"{TOP}.4",
        "18-1/2",
        "18-9/16",
        at=TOP,
        given={TOP: "[12, 12, 12, 12, 18, fill]", f"{CASE}.height": "96"},
    ),
)

STABILITY = (
    # Two studs 16 in on centre behind the rail between the sides, 23/32 each, into which it goes 1/4, 3/4 at
    # each end left free: 32 + 1 7/16 - 1/2 + 1 1/2. And a rail to screw through that a top bay of 3 in has no
    # room for.
    Edge("anchorage", "warning", "masonry", f"{CASE}.width", "34-7/16", "34-3/8"),
    # Through 11/16 of board, 3/4 of rail and 1/2 of lining, six times 1/4 into the stud: 3 7/16 in.
    Edge("anchorage", "error", "masonry", "fasteners.wall_length", "3-7/16", "3-3/8"),
    # A cleat of 47 in at 16 on centre is sure of two studs. Books for 52 in (108 lb), 31 lb of mantel and a
    # person, 339 lb, are 57 lb to each of six screws, which through poplar and across 1/2 in of lining hold
    # 58 lb and no pull beside (NDS); 42 to each of eight.
    Edge("hanging", "error", "shelf", "mantel.layers.fascia", "", "-", at="mantel.layers", step="no fascia"),
    Edge(
        "hanging",
        "warning",
        "shelf",
        "fasteners.screws_per_stud",
        "4",
        "3",
        step="one screw to a stud",
    ),
    Edge("anchorage", "warning", "pair", f"{TOP}.4", "3-1/16", "3", at=TOP),
    Edge("tipping", "warning", "pair", f"{TOP}.4", "3-1/16", "3", at=TOP),
    Edge(
        "tipping",
        "warning",
        "lopsided",
        "mantel.layers.fascia",
        "",
        "-",
        at="mantel.layers",
        step="no fascia",
    ),
    # 12 deep and alike front and back but for the rail at the wall, 0.87 lb of 92.4 and 5.64 behind the
    # middle: its centre of gravity is 5.95 from the wall. The plinth's face is the toe, at 6, or 5 15/16.
    Edge(
        "tipping",
        "error",
        "pair",
        f"{CASE}.plinth.setback",
        "6",
        "6-1/16",
        given={f"{TOP}.4": "3"},
    ),
    # 150 lb. Red oak (44.05 lb per cu ft: 0.63 x 1.12 x 62.43): five shelves 35 3/4 x 10 13/16 x 1, stiles 2
    # and 1 1/2 x 3/4 x 77 1/4, rails 2 x 33 11/16 x 3/4 x 2 1/2, eight boards of 36 15/16 in all x 11/16 x
    # 74 1/32 less their grooves: 4043 in3, 103.1 lb. Plywood at 36: sides, bottom and top less their dadoes
    # and rabbets: 1993 in3, 41.5 lb. Poplar at 29.4: two rails 35 3/4 x 3 x 3/4 and the plinth behind the
    # baseboard, 37 3/16 x 3/4 x 5 1/2: 314 in3, 5.3 lb. 149.9 in all; a 16th wider is 0.2 lb more.
    Edge("weights", "warning", "masonry", f"{CASE}.width", "36-11/16", "36-3/4", says="books"),
    Edge("weights", "note", "masonry", f"{SHELVES}.material", "oak", "odd", step="a wood no table has"),
)

LINING = "mantel.arch.lining"


def lining(*words: str) -> dict[str, str]:
    """An arch of 36 in with a bent lining under it; 8 in of rise is a radius of 24 1/4 in."""
    return {
        "mantel.arch.rise": "\n    ".join(("8", "lining:", *(f"  {word}" for word in words))),
        "mantel.arch.rail": "12",
    }


CURVES = (
    # Solid wood: 60 thicknesses with care, 40 at best (from memory); of three layers each by itself.
    Edge(
        "bends",
        "warning",
        "masonry",
        f"{LINING}.thickness",
        "3/8",
        "7/16",
        at=f"{LINING}.laminations",
        given=lining("thickness: 3/8", "laminations: 1"),
    ),
    Edge(
        "bends",
        "error",
        "masonry",
        f"{LINING}.thickness",
        "9/16",
        "5/8",
        at=f"{LINING}.laminations",
        given=lining("thickness: 3/8", "laminations: 1"),
    ),
    Edge(
        "bends",
        "warning",
        "masonry",
        f"{LINING}.laminations",
        "2",
        "1",
        step="one layer",
        given=lining("thickness: 9/16", "laminations: 2"),
    ),
    # APA TT-003: 1/4 in across its grain 2 ft, along it 5 ft. A rise of 8 1/8 in is a radius of 24.001.
    Edge(
        "bends",
        "error",
        "masonry",
        "mantel.arch.rise",
        "8-1/8",
        "8-3/16",
        at=f"{LINING}.laminations",
        given=lining("material: ply", "grain: across", "laminations: 1"),
    ),
    Edge(
        "bends",
        "error",
        "masonry",
        f"{LINING}.grain",
        "across",
        "along",
        at=f"{LINING}.laminations",
        step="grain along or across",
        given=lining("material: ply", "grain: across", "laminations: 1"),
    ),
    # 1/2 in, 1/8 kerfs, 1/16 left, an angle of 2 asin(18 / 24 1/4) = 95.85 degrees: 6.27 kerfs, so 7.
    Edge(
        "bends",
        "error",
        "masonry",
        f"{LINING}.kerfs.count",
        "7",
        "6",
        step="one kerf",
        given=lining("thickness: 1/2", "kerfs:", "  count: 7", "  web: 1/16"),
    ),
    Edge(
        "bends",
        "warning",
        "masonry",
        f"{LINING}.kerfs.web",
        "1/16",
        "3/64",
        given=lining("thickness: 1/2", "kerfs:", "  count: 7", "  web: 1/16"),
    ),
    Edge(
        "bends",
        "note",
        "masonry",
        f"{LINING}.material",
        "oak",
        "fibre",
        step="a board no table bends",
        given=lining("material: oak"),
    ),
    # tan of half the arc's angle 1/4 at a rise of 36/2 x (root 17 - 4) = 2.216 in; 1/2 at 18 x (root 5 - 2).
    Edge("short-grain", "warning", "masonry", "mantel.arch.rise", "2-3/16", "2-1/4"),
    Edge(
        "short-grain",
        "error",
        "masonry",
        "mantel.arch.rise",
        "4-3/16",
        "4-1/4",
        given={"mantel.arch.rail": "8"},
    ),
    # 1 1/2 thicknesses, so 1 1/8 in, over a rise of 2.
    Edge("short-grain", "warning", "masonry", "mantel.arch.rail", "3-1/8", "3-1/16"),
)

EDGES = (*CLEARANCE, *SAG, *OVERHANGS, *MOVEMENT, *STOCK, *FIT, *ORDER, *USE, *STABILITY, *CURVES)
