"""The text of a first `club.toml`: every setting with what it means, as the defaults have it."""

import json
from collections.abc import Mapping
from string import Template

from classclock.plan.care import STOP
from classclock.plan.settings.club_strength import SMALL_CLUB
from classclock.units.loads import Unit


def default_club_text(unit: Unit = "kg", keyboard: Mapping[str, str] | None = None) -> str:
    """TOML that reads as a club nobody has set up yet, in this unit and with this keyboard map."""
    usual = SMALL_CLUB[unit]
    bars = "\n".join(
        f'[[bar]]\nname   = "{bar["name"]}"\nweight = {_bare(bar["weight"], unit)}\n'
        f"count  = {bar['count']}\n"
        for bar in usual["bar"]
    )
    return _TEXT.substitute(
        unit=unit,
        stop=json.dumps(STOP),
        other="lb" if unit == "kg" else "kg",
        dumbbells=", ".join(_bare(one, unit) for one in usual["dumbbells"]),
        kettlebells=", ".join(_bare(one, unit) for one in usual["kettlebells"]),
        bars=bars,
        pairs=_table(usual["plates"]),
        map=_table(keyboard or {}),
        example={"kg": "45 lb", "lb": "20 kg"}[unit],
        example_unit={"kg": "pounds", "lb": "kilograms"}[unit],
    )


def _bare(load: str, unit: Unit) -> str:
    return load.removesuffix(f" {unit}")


def _table(values: Mapping[str, object]) -> str:
    """An inline table. Every JSON string and number is one of TOML's too."""
    inner = ", ".join(
        f"{json.dumps(key, ensure_ascii=False)} = {json.dumps(value, ensure_ascii=False)}"
        for key, value in values.items()
    )
    return f"{{ {inner} }}" if inner else "{}"


_TEXT = Template("""\
# The club's settings. What is left out is as it stands here.

name         = ""
unit         = "$unit"        # or "$other": of every load written without one
class_length = "1:00:00"
theme        = "dark"      # or "light"

# What there is to lift. Loads are never guessed upwards: what the plates can't make, isn't offered.
dumbbells    = [$dumbbells]
kettlebells  = [$kettlebells]

# The card that one key shows in an emergency. F2 at home asks for its lines.
[emergency]
address       = ""         # as you would say it on the telephone, which door too
defibrillator = ""         # where it hangs
first_aid     = ""         # where the kit is
call          = ""         # the number

# When to stop: the first caution of every piece; on the first of a class as large as there is room.
[care]
stop = $stop

# Whether the last screen asks everybody how hard the hour was, 0 to 10. The room sees a tick, not
# the number. Ask people first whether they want to be asked: what they say is kept.
[class]
ask_effort = false
# After so many times with an option, with scores like the others', F7 at "who is here" names who
# may try the next one up; 0: nobody.
next_step_after = 5

# The screen on the wall, and how far the last row of people stands from it.
[tv]
inches   = 55
metres   = 10
mirrored = true            # the room sees what the laptop shows: marks stay off it during a class;
                           # false: it doesn't, so a class begins on the coach's own screen (ctrl+w)
letters  = "auto"          # or "sextants" (finest), "quadrants", "halves" (in any font)

[sound]
volume    = 80
offset_ms = 0              # how much earlier sound is played, for loudspeakers that lag

[keyboard]
# What a key types, and what it shall mean, where digits need shift: { "&" = "1", "é" = "2" }
map        = $map
click_taps = false         # whether a click on a lane is a tap

# The wall as a page, where it is asked for: classclock wall --serve, or ctrl+l in a class.
[page]
address      = "127.0.0.1" # this laptop alone; "0.0.0.0" is everybody on the network
port         = 8420
same_address = false       # whether who was shown the page's address may see later classes too

# A [[bar]] for each kind; count is how many there are of it.
$bars
# What else there is, and how many of it, so that "check --athletes" can say what is short:
# boxes = 4, rowers = 2, dumbbells = 12. Bars are counted above; what isn't in it is taken to be
# there for everyone.
[equipment]

# What each plate weighs, and how many pairs there are.
# Write "$example" for a plate in $example_unit.
# collar = 2.5 below pairs if you count them: what one of the two weighs.
[plates]
pairs = $pairs
""")
