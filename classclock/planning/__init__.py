"""A plan meets these people: equipment shared, teams and heats, whether the cap fits, the weeks.

Comes in: plans, people, earlier results. Goes out: ways to do it, each with what it costs.
May know records and what lies under it. Pure.
"""
