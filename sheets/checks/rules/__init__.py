"""One file a rule. What is in this folder is what is judged."""
