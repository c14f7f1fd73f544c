"""What stands round a sheet: paper sizes, frame, zones, title block, revision rows."""
