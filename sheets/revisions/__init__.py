"""Two walls in, what changed out: by key, never by text. Kept marks, clouds and the record of issues."""
