"""One view in, its ink and words at their places on paper out: strings, leaders, marks, side notes."""
