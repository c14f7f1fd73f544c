"""What fills a sheet: views in rows, details, tables, notes, diagrams, patterns, labels."""
