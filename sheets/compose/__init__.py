"""Annotated views and tables in, a DrawingSet out: scale, places, sheets, marks. Knows paper, not the
spec."""
