"""What was issued, and when: the record of each issue, its row in the spec, what the files carry."""
