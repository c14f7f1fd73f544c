"""Lines, arcs, regions, solids; cutting, visibility and hatching of them.

In: millimetres as floats in the wall's frame. Out: exact curves and regions in the plane of a view.
It knows nothing of wood, paper or drawings, and reads no file.
"""
