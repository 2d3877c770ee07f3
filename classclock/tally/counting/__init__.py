"""What an entry does to a lane: rounds, stations, reps, intervals, loads, the finish.

Comes in: a tally and an event. Goes out: the next tally, or why it isn't counted.
Knows the tally's values alone.
"""
