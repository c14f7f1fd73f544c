"""Exact lengths and their reading and writing, diagnostics, keys, tolerances; text files and what YAML says in
them, with the place of every value.

In: text, files and exact numbers. Out: plain values. Never sees a clock or another folder of ours.
"""
