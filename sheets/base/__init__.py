"""Exact lengths and their reading and writing, diagnostics, keys, tolerances.

In: text and exact numbers. Out: plain values. Never sees a file, a clock or another folder of ours.
"""
