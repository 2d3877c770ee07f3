"""Every fault of a plan: its line, its segment, what is wrong and what to write instead."""

import datetime as dt
from collections.abc import Callable

import pytest

from classclock.plan.findings import Finding
from classclock.plan.reading.plan_reading import parse_plan

FindingsIn = Callable[[str], tuple[Finding, ...]]

COUNTDOWN = 'format = "countdown"\ntime = "8:00"'
ROUNDS = 'format = "rounds-in-time"\ntime = "16:00"'
CAPPED = 'format = "capped-for-time"\ncap = "12:00"'
INTERVAL = 'format = "interval"\nrepeat = 8'
STEPS = 'steps = [{ work = "0:20" }, { rest = "0:10" }]'
STATION = '[[segment.station]]\nmovement = "step-up"'
SQUAT = f"{STATION}\nreps = 4"

# Line 4 is the first of the segment's lines.
FAULTS = {
    "an unknown key": (f"{ROUNDS}\n{SQUAT}\nlod = 5", 9, 'unknown key "lod"', 'Write "load"'),
    "another word for a key": (f"{ROUNDS}\n{SQUAT}\nweight = 5", 9, '"weight"', 'Write "load"'),
    "a key like no other": (f"{COUNTDOWN}\nxyzzy = 5", 6, '"xyzzy"', "what goes here: name"),
    "a misspelt key isn't missing": ('format = "countdown"\ntiem = "8:00"', 5, "tiem", '"time"'),
    "a missing key": ('format = "countdown"', 2, '"time" is missing', 'Write time = "16:00"'),
    "a segment's key below a station": (f"{ROUNDS}\n{SQUAT}\nnotes = []", 9, "segment", "above"),
    "a station's key in the segment": (f"{ROUNDS}\nreps = 5\n{SQUAT}", 6, "station", "under a"),
    "an unknown format": ('format = "intervall"\nrepeat = 8\n' + STEPS, 4, "format", '"interval"'),
    "no format": ('time = "8:00"', 2, '"format" is missing', 'format = "countdown"'),
    "a format that is a list": ('format = []\ntime = "8:00"', 4, "[]", 'format = "countdown"'),
    "a bad time": ('format = "countdown"\ntime = "soon"', 5, '"soon"', 'Write time = "16:00"'),
    "a time of 16": ('format = "countdown"\ntime = 16', 5, "16 seconds or 16 min", 'te "16:00"'),
    "a cap of 9": (f'format = "capped-for-time"\ncap = 9\nrounds = 1\n{SQUAT}', 5, "9", '"0:09"'),
    'a time of "16"': ('format = "countdown"\ntime = "16"', 5, "16 seconds or", 'write "16:00"'),
    "a time of 59": ('format = "countdown"\ntime = 59', 5, "59 seconds or 59 min", 'te "59:00"'),
    'a time of "60"': ('format = "countdown"\ntime = "60"', 5, "no colon", 'Write time = "1:00"'),
    "no time at all": ('format = "countdown"\ntime = "0:00"', 5, "above 0:00", 'Write time = "16'),
    "a negative time": ('format = "countdown"\ntime = -90', 5, "time = -90", 'Write time = "16'),
    "more than a day": ('format = "countdown"\ntime = 1000000', 5, "1000000", "Write time"),
    "a time of day": ('format = "countdown"\ntime = 00:16:00', 5, "time of day", '"16:00"'),
    "a time without quotes": ('format = "countdown"\ntime = 16:00', 5, "no quotes", '"16:00"'),
    "a yes for a time": ('format = "countdown"\ntime = true', 5, "true", 'Write time = "16:00"'),
    "a short count-in": (f'{COUNTDOWN}\ncount_in = "0:02"', 6, "0:03", 'count_in = "0:10"'),
    "an empty name": (f'{COUNTDOWN}\nlift = " "', 6, "lift", 'Write lift = "front squat"'),
    "a number for a text": (f"{COUNTDOWN}\nlift = 5", 6, "not text", 'Write lift = "5"'),
    "a text for a number": (f'{ROUNDS}\n{STATION}\nreps = "4"', 8, "whole number", "reps = 4"),
    "half a rep": (f"{ROUNDS}\n{STATION}\nreps = 4.5", 8, "whole number", "Write reps = 12"),
    "no reps": (f"{ROUNDS}\n{STATION}\nreps = 0", 8, "reps = 0", "Write reps = 12"),
    "a yes for reps": (f"{ROUNDS}\n{STATION}\nreps = true", 8, "true", "Write reps = 12"),
    "reps beyond counting": (f"{ROUNDS}\n{STATION}\nreps = {10**30}", 8, "too large", "reps = 12"),
    "a list for a number": (f"{ROUNDS}\n{STATION}\nreps = [1]", 8, "a list", "Write reps = 12"),
    "a table for a number": (f"{ROUNDS}\n{STATION}\nreps = {{ }}", 8, "empty", "Write reps = 12"),
    "calories that are no number": (f"{ROUNDS}\n{STATION}\ncalories = nan", 8, "nan", "= 15"),
    "endless metres": (f"{ROUNDS}\n{STATION}\nmetres = inf\ncounts = 4", 8, "inf", "metres = 400"),
    "a text for a yes": (
        f'{ROUNDS}\ntie_break = "true"\n{SQUAT}',
        6,
        "true or",
        "tie_break = true",
    ),
    "a number for a list": (f"{COUNTDOWN}\nlines = 5", 6, "lines = 5", 'lines = ["easy row"'),
    "a number in a list": (f'{COUNTDOWN}\nlines = ["a",\n5]', 7, "lines holds 5", "Write lines"),
    "a cue that isn't a yes": (
        f"{COUNTDOWN}\ncues = {{ step = 4 }}",
        6,
        "step = 4",
        "step = false",
    ),
    "an unknown cue": (f"{COUNTDOWN}\ncues = {{ midway = true }}", 6, "midway", "halfway"),
    "a heavy load": (f'{ROUNDS}\n{SQUAT}\nload = "heavy"', 9, '"heavy"', 'Write load = "22.5 kg"'),
    "no load": (f"{ROUNDS}\n{SQUAT}\nload = 0", 9, "load = 0", 'Write load = "22.5 kg"'),
    "a load that is no number": (f"{ROUNDS}\n{SQUAT}\nload = nan", 9, "nan", "Write load"),
    "no load of several": (f"{ROUNDS}\n{SQUAT}\nload = {{}}", 9, "empty", "Write load"),
    "one bad load of several": (
        f'{ROUNDS}\n{SQUAT}\nload = {{ heavier = "20 kg", lighter = "x" }}',
        9,
        'load holds "x"',
        'Write load = "22.5 kg"',
    ),
    "a round without an amount": (f"{ROUNDS}\n{STATION}", 6, "has no amount", "Write reps = 12"),
    "reps and metres": (f"{ROUNDS}\n{SQUAT}\nmetres = 5", 9, "reps and metres", "Keep one"),
    "reps and a climb": (
        f"{ROUNDS}\n{SQUAT}\nclimb = {{ first = 4, step = 4 }}",
        9,
        "reps and climb",
        "Keep one of them",
    ),
    "half a climb": (f"{ROUNDS}\n{STATION}\nclimb = {{ first = 4 }}", 8, '"step"', "step = 4"),
    "a climb without rounds": (
        f"{INTERVAL}\n{STEPS}\n{STATION}\nclimb = {{ first = 4, step = 4 }}",
        9,
        "no rounds to climb by",
        "Write reps = 12",
    ),
    "an option with two amounts": (
        f'{ROUNDS}\n{SQUAT}\noptions = [{{ name = "low", reps = 4, seconds = 5 }}]',
        9,
        '"low" has reps and seconds',
        "Keep one of them",
    ),
    "an option without a name": (f"{ROUNDS}\n{SQUAT}\noptions = [{{}}]", 9, "missing", "name ="),
    "a capped piece without a cap": (
        f'format = "capped-for-time"\nscheme = [3]\n{STATION}',
        2,
        '"cap" is missing',
        'Write cap = "12:00"',
    ),
    "a time in place of a cap": (
        f'format = "capped-for-time"\ntime = "9:00"\nrounds = 3\n{SQUAT}',
        5,
        "doesn't go with",
        'Write "cap"',
    ),
    "a cap in place of a time": ('format = "countdown"\ncap = "8:00"', 5, '"cap"', 'Write "time"'),
    "rounds and scheme": (
        f"{CAPPED}\nrounds = 3\nscheme = [3]\n{STATION}",
        7,
        'both "rounds" and "scheme"',
        "Keep one of them",
    ),
    "no work": (f"{CAPPED}\n{SQUAT}", 2, 'neither "rounds" nor "scheme"', "Write rounds = 3"),
    "rounds misspelt": (f"{CAPPED}\nround = 3\n{SQUAT}", 6, '"round"', 'Write "rounds"'),
    "no rounds": (f"{CAPPED}\nrounds = 0\n{SQUAT}", 6, "rounds = 0", "Write rounds = 3"),
    "a scheme elsewhere": (f"{ROUNDS}\nscheme = [3]\n{SQUAT}", 6, "doesn't go", "Take it out"),
    "a scheme for nobody": (f"{CAPPED}\nscheme = [3]\n{SQUAT}", 6, "gives nothing", "rounds"),
    "a scheme of nothing": (f"{CAPPED}\nscheme = [3]", 6, "without a station", "Add a [[segment"),
    "an empty scheme": (f"{CAPPED}\nscheme = []\n{STATION}", 6, "empty", "scheme = [18, 12, 6]"),
    "a scheme with a zero": (f"{CAPPED}\nscheme = [3, 0]\n{STATION}", 6, "holds 0", "[18, 12, 6]"),
    "a finish without an end": (f'{ROUNDS}\ncount = "finish"\n{SQUAT}', 6, "only with", '"round"'),
    "an unknown count": (f'{ROUNDS}\ncount = "stations"\n{SQUAT}', 6, "stations", '= "station"'),
    "stations counted, but none": (f'{ROUNDS}\ncount = "station"', 6, "without", "Add a"),
    "an unknown direction": (f'{ROUNDS}\ndirection = "upp"\n{SQUAT}', 6, "upp", 'direction = "up"'),
    "an unknown score": (f'{INTERVAL}\n{STEPS}\nscore = "totl"', 7, "totl", 'score = "total"'),
    "another format's score": (f'{COUNTDOWN}\nscore = "lowest"', 6, "load, reps", "Write score"),
    "a score that isn't asked": (f'{ROUNDS}\nscore = "load"\n{SQUAT}', 6, "score", "Take it out"),
    "a repeat of none": (f'format = "interval"\nrepeat = 0\n{STEPS}', 5, "from 1", "repeat = 8"),
    "too many steps": (
        f"{INTERVAL}\nsteps = [{'{ work = 20 }, ' * 61}]",
        6,
        "steps has 61 entries, 60 is the most",
        "Leave 60 of them",
    ),
    "no steps": (f"{INTERVAL}\nsteps = []", 6, '"steps" is empty', "Write steps = [{ work"),
    "a step of both": (
        f'{INTERVAL}\nsteps = [\n{{ work = "0:20", rest = "0:10" }},\n]',
        7,
        "both work and rest",
        "Make two steps of it",
    ),
    "a step of neither": (f'{INTERVAL}\nsteps = [{{ label = "x" }}]', 6, "neither", "work ="),
    "nothing but rest": (f'{INTERVAL}\nsteps = [{{ rest = "1:00" }}]', 6, "all steps are", "work"),
    "a label that is a number": (
        f'{INTERVAL}\nsteps = [{{ work = "0:20", label = 5 }}]',
        6,
        "label = 5",
        'Write label = "5"',
    ),
    "negative work": (f"{INTERVAL}\nsteps = [{{ work = -3 }}]", 6, "work = -3", 'work = "0:20"'),
    "a step that isn't a table": (f'{INTERVAL}\nsteps = ["0:20"]', 6, "holds", "Write steps"),
    "a station that isn't there": (
        f'{INTERVAL}\nsteps = [{{ work = "1:00", stations = ["stepup"] }}]\n{STATION}',
        6,
        '"stepup"',
        'Write "step-up"',
    ),
    "a station like no other": (
        f'{INTERVAL}\nsteps = [{{ work = "1:00", stations = ["row"] }}]\n{STATION}',
        6,
        '"row"',
        "Add a [[segment.station]]",
    ),
    "sets of nothing": (f"{COUNTDOWN}\nsets = [{{ reps = 3 }}]", 6, "without the lift", "lift ="),
    "percent and load": (
        f'{COUNTDOWN}\nlift = "row"\nsets = [{{ reps = 3, percent = 70, load = 50 }}]',
        7,
        "percent and load",
        "Keep one of them",
    ),
    "far too many percent": (
        f'{COUNTDOWN}\nlift = "row"\nsets = [{{ reps = 3, percent = 700 }}]',
        7,
        "percent = 700",
        "Write percent = 70",
    ),
    "a team of one": (f"{COUNTDOWN}\nteams = 1", 6, "from 2 to 12", "Write teams = 2"),
    "a rest outside the steps": (
        f'{INTERVAL}\n{STEPS}\nrest = "1:15"',
        7,
        '"rest" belongs within steps',
        'Write { rest = "1:15" } within steps = […]',
    ),
    "a percentage outside the sets": (
        f'{COUNTDOWN}\nlift = "row"\npercent = 70',
        7,
        "belongs within sets",
        "Write { percent = 70 } within sets",
    ),
    "the reps of a lift outside its sets": (
        f'{COUNTDOWN}\nlift = "row"\nreps = 5',
        7,
        "belongs within sets",
        "Write { reps = 5 } within sets",
    ),
    "a rest where there are no steps": (
        f'{COUNTDOWN}\nrest = "1:15"',
        6,
        "doesn't go with",
        'write format = "interval" with it within steps',
    ),
    "reps within a step": (
        f'{INTERVAL}\nsteps = [{{ work = "0:20", reps = 5 }}]',
        6,
        'unknown key "reps"',
        "Take it out; what goes here: work, rest, label, stations",
    ),
    "rounds of an interval": (
        f'format = "interval"\nrounds = 4\n{STEPS}',
        5,
        '"rounds" doesn\'t go with format = "interval"',
        'Write "repeat"',
    ),
    "repeats of a set amount": (f"{CAPPED}\nrepeat = 4\n{SQUAT}", 6, "repeat", 'Write "rounds"'),
    "two loads in one": (
        f'{ROUNDS}\n{SQUAT}\nload = "24/16 kg"',
        9,
        'load = "24/16 kg", which is not a load',
        'Write load = { heavier = "24 kg", lighter = "16 kg" }',
    ),
    "two loads in one, the lighter first, without quotes": (
        f"{ROUNDS}\n{SQUAT}\nload = 12.5 / 17.5",
        9,
        "12.5 / 17.5 is not a load",
        "Write load = { heavier = 17.5, lighter = 12.5 }",
    ),
    "reps that grow": (
        f'{ROUNDS}\n{STATION}\nreps = "3 6 9"',
        8,
        "whole number",
        "Write climb = { first = 3, step = 3 } in place of reps",
    ),
    "reps that grow, without quotes": (
        f"{ROUNDS}\n{STATION}\nreps = 3-6-9",
        8,
        "3-6-9 is not a whole number",
        "climb = { first = 3, step = 3 }",
    ),
    "reps that fall": (
        f"{ROUNDS}\n{STATION}\nreps = [21, 15, 9]",
        8,
        "a list",
        'Write scheme = [21, 15, 9] in the segment, with format = "capped-for-time"',
    ),
    "a scheme in words": (f'{CAPPED}\nscheme = "21-15-9"\n{STATION}', 6, "list", "[21, 15, 9]"),
    "an amount with its unit": (
        f'{ROUNDS}\n{STATION}\nmetres = "200 m"\ncounts = 4',
        8,
        "not a whole number",
        "Write metres = 200",
    ),
    "seconds as a time": (
        f'{ROUNDS}\n{STATION}\nseconds = "1:30"\ncounts = 4',
        8,
        "not a whole number",
        "Write seconds = 90",
    ),
    "no in words": (f"{ROUNDS}\ntie_break = no\n{SQUAT}", 6, "no is not", "tie_break = false"),
    "a key in two words": (
        f"{ROUNDS}\ntie break = true\n{SQUAT}",
        6,
        "tie break can't be a name without quotes",
        "Write tie_break = true",
    ),
    "a name that moves the cursor": (f'{COUNTDOWN}\nlift = "\\u001b[2J"', 6, "shown", "again"),
    "a name that turns round": (f'{COUNTDOWN}\nlift = "a\\u202eb"', 6, "can't be shown", "again"),
}


@pytest.mark.parametrize("fault", FAULTS)
def test_a_fault_is_answered_once_with_its_line_and_what_to_write(
    fault: str, as_plan: Callable[[str], str], findings_in: FindingsIn
) -> None:
    text, line, what, instead = FAULTS[fault]
    errors = [one for one in findings_in(as_plan(text)) if one.level == "error"]
    assert len(errors) == 1, [str(one) for one in errors]
    assert (errors[0].line, errors[0].segment) == (line, "Turntable")
    assert what in errors[0].what
    assert instead in errors[0].instead
    assert str(errors[0]).startswith(f"depot.toml:{line}  Turntable: ")


def test_all_faults_come_at_once_each_with_its_own_line(findings_in: FindingsIn) -> None:
    text = f"""
title = 5
[[segment]]
name = "Warm-up"
{COUNTDOWN}
lins = "easy row"
[[segment]]
name = "Turntable"
format = "rounds-in-tim"
time = "later"
[[segment.station]]
movement = ""
reps = -1
"""
    lines = [(one.line, one.segment) for one in findings_in(text)]
    assert lines == [
        (2, None),
        (7, "Warm-up"),
        (10, "Turntable"),
        (11, "Turntable"),
        (13, "Turntable"),
        (14, "Turntable"),
    ]


def test_two_scored_segments_of_one_name_cant_be_told_apart(findings_in: FindingsIn) -> None:
    piece = f'[[segment]]\nname = "{{}}"\n{ROUNDS}\n{SQUAT}\n'
    plan = 'title = "Depot"\n' + piece.format("Headway") + piece.format("headway")
    (finding,) = findings_in(plan)
    assert (finding.line, finding.segment) == (10, "headway")
    assert 'Write name = "headway 2"' in finding.instead
    unscored = f'[[segment]]\nname = "Walk"\n{COUNTDOWN}\n' * 2
    assert findings_in('title = "Depot"\n' + unscored) == ()


def test_a_plan_without_segments_is_told_how_one_begins(findings_in: FindingsIn) -> None:
    for text in ('title = "Depot"', 'title = "Depot"\nsegment = []'):
        (finding,) = findings_in(text)
        assert "[[segment]]" in finding.instead
    assert [one.what for one in findings_in("")] == ['"title" is missing', '"segment" is missing']


def test_a_plan_of_thousands_of_segments_is_told_how_many_it_may_have(
    findings_in: FindingsIn,
) -> None:
    segment = f'[[segment]]\nname = "Yard"\n{COUNTDOWN}\n'
    (finding,) = findings_in(f'title = "Long"\n{segment * 3_000}')
    assert (finding.line, finding.what) == (2, "segment has 3000 entries, 60 is the most")
    assert finding.instead == "Leave 60 of them"


def test_a_segment_without_a_name_is_called_by_its_number(findings_in: FindingsIn) -> None:
    (finding,) = findings_in(f'title = "Depot"\n[[segment]]\n{COUNTDOWN}')
    assert (finding.segment, finding.what) == ("segment 1", '"name" is missing')


def test_a_date_is_written_without_quotes(findings_in: FindingsIn) -> None:
    segment = f'[[segment]]\nname = "Walk"\n{COUNTDOWN}'
    (finding,) = findings_in(f'title = "Depot"\ndate = "2026-03-31"\n{segment}')
    assert finding.instead == "Write date = 2026-03-31"
    plan, findings = parse_plan(f'title = "Depot"\ndate = 2026-03-31\n{segment}', "depot.toml")
    assert not findings
    assert plan is not None
    assert plan.date == dt.date(2026, 3, 31)


def test_hints_leave_the_plan_usable(as_plan: Callable[[str], str]) -> None:
    text = as_plan(f"{ROUNDS}\n{STATION}\nmetres = 200")
    plan, (hint,) = parse_plan(text, "depot.toml")
    assert plan is not None
    assert hint.level == "hint"
    assert "counts = 10" in hint.instead
    uneven = f'{INTERVAL}\n{STEPS}\nlift = "row"\nsets = [{{ reps = 3 }}]'
    plan, (hint,) = parse_plan(as_plan(uneven), "depot.toml")
    assert plan is not None
    assert hint.what == "8 work steps, but the number of sets is 1"


@pytest.mark.parametrize(
    ("option", "what", "instead"),
    [
        (
            "calories = 9",
            "counts its own 9 calories, its station 11",
            "counts = 9 if this is meant",
        ),
        ("reps = 15", "counts its own 15 reps, its station 11", "counts = 11 in the option"),
        ("climb = { first = 2, step = 2 }", "counts its own climb", "counts = 11 in the option"),
    ],
)
def test_an_option_that_is_worth_something_else_than_its_station_says_is_asked_about(
    as_plan: Callable[[str], str], option: str, what: str, instead: str
) -> None:
    run = f'{ROUNDS}\n[[segment.station]]\nmovement = "run"\nmetres = 200\ncounts = 11\n'
    text = f'{run}options = [\n"walk",\n{{ name = "bike", {option} }},\n]'
    plan, (hint,) = parse_plan(as_plan(text), "depot.toml")
    assert plan is not None
    assert (hint.level, hint.line) == ("hint", 12)
    assert what in hint.what
    assert instead in hint.instead
    said_so = text.replace(option, f"{option}, counts = 9")
    assert parse_plan(as_plan(said_so), "depot.toml")[1] == ()


def test_what_is_fine_is_not_complained_about(
    as_plan: Callable[[str], str], findings_in: FindingsIn
) -> None:
    for text in (
        f'{ROUNDS}\n{SQUAT}\nload = "22,5kg"\noptions = ["step-up", {{ name = "low" }}]',
        f'{CAPPED}\nrounds = 1\ncount = "finish"\n{STATION}\nmetres = 400',
        f"{CAPPED}\nscheme = [18, 12, 6]\n{STATION}",
        f'{INTERVAL}\n{STEPS}\nscore = "total"\n{STATION}',
        (
            f"{CAPPED}\nrounds = 1\n{STATION}\nmetres = 400\ncounts = 10\n"
            'options = [{ name = "walk", metres = 200 }, { name = "ski", calories = 10 }]'
        ),
        'format = "countdown"\ntime = 60',
        'format = "countdown"\ntime = 90',
        f'{COUNTDOWN}\nnotes = """\nfirst line\nsecond line\n"""',
    ):
        assert findings_in(as_plan(text)) == ()
