"""Exact lengths and their reading and writing, diagnostics, keys, tolerances; text files, YAML with places.

In: text, files and exact numbers. Out: plain values. Never sees a clock or another folder of ours.
"""
