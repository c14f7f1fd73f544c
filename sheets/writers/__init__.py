"""DrawingSet in, files out: one file a format, loaded when used. They decide nothing."""
