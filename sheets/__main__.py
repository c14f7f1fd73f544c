"""`python -m sheets`: the same as `shopset`."""

from sheets.cli import main

main()
