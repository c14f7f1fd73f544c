"""Wall in, views out: full-size 2D lines and cut faces, each tagged with its part and its pen's meaning.

Nothing is drawn that is not a part or a cut of one. No text, no scale, no paper.
"""
