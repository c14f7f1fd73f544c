"""The finished drawing: a closed set of items on sheets, in paper millimetres, style resolved.

Compose makes it, the audit measures it, writers copy it out. Nothing here knows the model.
"""
