"""Two walls in, what changed between them out, by key, and the words for it."""
