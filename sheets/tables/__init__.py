"""Published data: CSV files with a source and a confidence in each row, and the typed readers of them.

In: the data files in this folder. Out: frozen rows, lengths in exact mm. Never sees a wall, and never
guesses: what
was not seen in a source says so.
"""
