"""From the text of a spec to a Spec: what the user wrote, typed and checked, every value with its line and
column.

In: a YAML file. Out: Spec, Source (places) and diagnostics. Never solves, rounds or draws.
"""
