"""Views in, intentions out: what is measured and what is said about each view, without a position on paper."""
