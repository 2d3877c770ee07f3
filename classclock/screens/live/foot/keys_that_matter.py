"""The few keys that matter now, for the foot of a class's screen."""

from classclock.tally.record import Phase

_PEOPLE = "ctrl+p who"
IN_THE_LIST = ("escape: close", "? its keys")
"""While the list of who is here is open."""


def keys_now(
    phase: Phase,
    *,
    scored: bool,
    countdown: bool,
    all_in: bool,
    teaches: bool = False,
    overruns: bool = False,
) -> tuple[str, ...]:
    """The weightiest first.

    `teaches`: the segment has movements of which there is something to teach; `overruns`: the
    plan needs more time than there is.
    """
    match phase:
        case "board":
            fit = ("ctrl+f fits it",) if overruns else ()
            teach = ("tab teaches",) if teaches else ()
            more = ("up, down: another segment", "ctrl+g a clock", "F3 sound check")
            return (
                "enter starts",
                *fit,
                "? keys",
                _PEOPLE,
                *teach,
                *more,
                ". and a letter: has left",
            )
        case "count-in":
            return ("space calls it off", "? keys")
        case "running" if all_in:
            return ("enter ends it now", "? keys", "backspace takes it back")
        case "running" if scored:
            return ("space holds", "? keys", "backspace takes it back")
        case "running":
            minutes = ("up: a minute more",) if countdown else ()
            return ("space holds", "? keys", *minutes)
        case "held":
            return ("space resumes", "enter ends it", "? keys", _PEOPLE, "ctrl+r begins anew")
        case "over" if scored:
            return ("enter goes on", "? keys", _PEOPLE, "a letter selects")
        case "over":
            return ("enter goes on", "? keys", _PEOPLE)
        case "closed":
            return ("ctrl+q leaves", _PEOPLE, "up goes back", "ctrl+g a clock")
