"""The text of a first `club.toml`: every setting with what it means, as the defaults have it."""


def default_club_text() -> str:
    """TOML that reads as a club nobody has set up yet."""
    return _TEXT


_TEXT = """\
# The club's settings. What is left out is as it stands here.

name         = ""
unit         = "kg"        # or "lb": of every load written without one
class_length = "1:00:00"
theme        = "dark"      # or "light"

# What there is to lift. Loads are never guessed upwards: what the plates can't make, isn't offered.
dumbbells    = [5, 7.5, 10, 12.5, 15, 17.5, 20, 22.5]
kettlebells  = [8, 12, 16, 20, 24]

# The card that one key shows in an emergency. Fill it in before the first class.
[emergency]
address       = ""         # as you would say it on the telephone, which door too
defibrillator = ""         # where it hangs
first_aid     = ""         # where the kit is
call          = ""         # the number

# The screen on the wall, and how far the last row of people stands from it.
[tv]
inches   = 55
metres   = 10
mirrored = true            # the room sees what the laptop shows: marks stay off it during a class

[sound]
volume    = 80
offset_ms = 0              # how much earlier sound is played, for loudspeakers that lag

[keyboard]
map        = {}            # where digits need shift: { "&" = "1", "é" = "2" }
click_taps = false         # whether a click on a lane is a tap

# A [[bar]] for each kind; count is how many there are of it.
[[bar]]
name   = "20 kg bar"
weight = 20
count  = 6

[[bar]]
name   = "15 kg bar"
weight = 15
count  = 4

# What else there is, and how many of it, so that "check --athletes" can say what is short:
# boxes = 4, rowers = 2, dumbbells = 12. Bars are counted above; what isn't in it is taken to be
# there for everyone.
[equipment]

# What each plate weighs, and how many pairs there are. Write "45 lb" for a plate in pounds.
# collar = 2.5 below pairs if you count them: what one of the two weighs.
[plates]
pairs = { "20" = 4, "15" = 4, "10" = 6, "5" = 6, "2.5" = 4, "1.25" = 4 }
"""
