"""Finished sheets in, their defects out: overlaps, crowding, what falls outside, odd scales.

Changes nothing.
"""
