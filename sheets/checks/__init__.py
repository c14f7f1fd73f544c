"""Wall in, findings out. One file a rule; it reads, computes and reports, and changes nothing."""
