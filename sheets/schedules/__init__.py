"""Wall in, tables out: parts, lumber, panels, cutting plan, patterns, hardware, labels. No positions on paper."""
