"""The tolerances of floating geometry: those of the one table in `base`, and those that only a view needs.

Millimetres unless said.
"""

from sheets.base.tolerance import CHORD_HEIGHT_MM, SAME_POINT_MM

SAME_POINT = SAME_POINT_MM
SAGITTA = CHORD_HEIGHT_MM
"""How far a chord may stand off its arc where an arc is computed on as chords."""

SLIVER = 1e-5
"""A region whose mean width (twice its area over its perimeter) is below this is rounding noise."""

TANGENT = 1e-6
"""Radians: two paths that meet with a smaller turn are smooth, so no edge is drawn between them."""

ABREAST = 1e-4
"""In a view: an edge as near as this to the border of a face, and parallel to it, lies on it."""

NEARER = 0.05
"""In a view: a face hides an edge only if it is nearer by more than this, so touching parts do not, nor
does a curved face taken as strips hide an edge on it. Thinner than any veneer."""

STEP_PROBE = 0.05
"""How far to either side of a seen edge the depth is probed; finer than any gap that is built."""
