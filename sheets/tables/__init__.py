"""Published data as files with a source column, and their readers. Values only; no rule is applied here."""
