"""One file a rule. Every module of this folder is found by listing it, and holds a RULE."""
