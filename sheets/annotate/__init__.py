"""Views in, intentions out: what is measured and said about each view.

No positions on paper, no scale: those are found in compose.
"""
