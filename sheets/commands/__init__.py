"""Commands that go beyond drawing one set: comparing, revising, the record of issues, keeping drawn sets
true.

In: what the user names on the command line. Out: a status and what is said. The command line itself is in
`cli.py`.
"""
