"""The computing a careful designer does: one file a rule, run over the resolved wall.

In: a Wall. Out: a RuleReport a rule (findings with cure, source and place; the numbers; small pictures).
Nothing here
changes the wall or draws a sheet, and nothing certifies: safety stays with listing, local code and licensed
trades.
"""
