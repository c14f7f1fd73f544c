"""Spec in, Wall out: every size known, on the grid, every piece a solid part. One file a component; draws nothing."""
