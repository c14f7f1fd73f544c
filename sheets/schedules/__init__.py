"""Wall in, tables out: parts, lumber, panels, cutting plan, patterns, hardware, labels. No place on paper."""
