"""From a Spec to a Wall: every size known, every piece a solid in its place on an exact grid.

In: Spec and Source. Out: Wall (or None) and diagnostics that only solving can find. Never draws, never
judges what the checks judge.
"""
