"""The commented spec that a user starts from."""

STARTER = """\
# A built-in wall. Everything that is drawn comes from this file.
#
# Lengths: 5'-2 1/2"  5' 2-1/2  62.5  62 1/2  62-1/2"  1588 mm  158.8 cm  1.588 m
# A bare number is in `units`. A section that is left out is not built; a key that is left out has a default.
# `shopset defaults FILE` prints this spec with every default filled in.

project:
  title: New wall
  number: "1"
  drawn:                   # initials, as the title block shows them
  date:                    # such as 2026-03-02; the date on the sheets comes from here alone
  status: for review

units: inch                # or mm
precision: 1/16            # what derived sizes land on; what is left over is placed evenly
dimensions: feet-inches    # or inches
sheet: {size: arch-c, titleblock: architect-strip}

materials:                 # the names are yours; each says what it is by species, panel, masonry or other
  oak:   {species: white oak, cut: quarter sawn, finish: clear}
  ply:   {panel: veneer-core plywood, face: white oak, thickness: 23/32}
  slate: {masonry: slate, thickness: 3/4}
  # secondary: {species: yellow-poplar}    what everything hidden is made of: rails, blocking, packing

room:
  width: 12'-2"            # side wall to side wall
  ceiling: {height: 8'-6"} # for a barrel vault: {height: 8'-6", vault: {spring: 7'-6"}}
  baseboard: {height: 5-1/2, thickness: 5/8, material: oak, stops_at: surround}

fireplace:
  opening: {width: 32, height: 26}
  sill: 6                  # finished floor to the bottom of the opening
  appliance: masonry       # masonry, listed gas or listed electric; for a listed one copy its manual:
  # listing: {mantel: [{projection: 6, above: 8}], legs: [{projection: 6, beside: 12}], side_walls: 12,
  #           facing: {above: 6, beside: 3}, hearth: {front: 0, beside: 0}, service: {depth: 12},
  #           ceiling: {above: 36}, framing: {width: 52, height: 20, depth: 14}}
  masonry:                 # from the inside of the firebox lining to the masonry's own face
    {beside: 12, above: 18, behind: 8, chimney: {width: 30, depth: 20, behind: 3}}

surround:
  material: slate
  width: 74                # wide enough to keep the posts 12 from a masonry opening
  to_floor: true           # no baseboard crosses it
  hearth: {projection: 16, thickness: 2}

mantel:
  top: 54                  # floor to the top of the cap
  breast: 6-1/2            # how far it stands proud of the case fronts
  layers:                  # from the top down
    cap:    {thickness: 1-1/2, overhang: 1}
    fascia: {height: 5, thickness: 3/4}
  posts: {width: 6-1/2}
  # arch: {rise: 3, rail: 7-1/4, lining: {thickness: 1/4}}    a rail under the layers, a board bent under it
  material: oak

# overmantel: {height: 36, panels: 3}                     frame and panels on the wall above the mantel

cases:
  - name: flanking
    mirrored: true         # written once, built on both sides
    width: fill            # from the side wall, less the scribe, to the surround
    height: 78             # floor to the top of the cap
    depth: 12              # wall to the case front
    scribe: 1/2
    frame: {stile: 1-1/2, rail: 2-1/2}
    plinth: {height: 5-1/2, setback: 0}
    # spacing: even, [12, 12, fill, fill, fill] from the bottom up, {graduated: 1/2} or {ratio: 1.08}
    # material: ply makes them of the panel with a solid edge; edge: veneer or {thickness: 1/4} is another
    shelves: {count: 4, thickness: 1, spacing: even}
    cap: {thickness: 1-1/4, overhang: 1-1/4}
    backer: {face: 5-1/8, thickness: 11/16}    # tongue and groove; {kind: plain} is a panel
    material: ply

notes:
  - Field verify all openings before cutting.
"""
"""A fireplace wall in inches that draws as it stands."""


def starter_spec() -> str:
    """Return the text of a commented spec, in inches, that reads without a finding and draws."""
    return STARTER
