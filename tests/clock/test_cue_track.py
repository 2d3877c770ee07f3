from hypothesis import given
from hypothesis import strategies as st

from classclock.clock.cue_track import TOO_LATE_MS, CueHeard, CueSkipped, CueTrack
from classclock.clock.cues import Cue

CUES = (
    Cue(-3000, "short"),
    Cue(-2000, "short"),
    Cue(-1000, "short"),
    Cue(0, "go"),
    Cue(60_000, "last-minute"),
    Cue(110_000, "last-ten"),
    Cue(120_000, "end"),
)


def test_a_cue_a_second_late_is_heard_and_a_later_one_is_skipped() -> None:
    track = CueTrack.entered(CUES, 59_000)
    assert track.due(61_000)[1] == (CueHeard(CUES[4], late=1000),)
    assert track.due(61_001)[1] == (CueSkipped(CUES[4], late=1001),)


def test_an_undone_hold_names_what_it_passed_over() -> None:
    track, _ = CueTrack.entered(CUES, 50_000).due(50_000)
    track, came = track.due(110_400)
    assert came == (CueSkipped(CUES[4], 50_400), CueHeard(CUES[5], 400))
    assert track.due(110_401)[1] == ()


def test_a_clock_set_back_gives_what_is_ahead_but_nothing_twice() -> None:
    """Rejoined at a wrong reading and set right: the cues ahead must still come."""
    track, came = CueTrack.entered(CUES, 109_990).due(110_000)
    assert came == (CueHeard(CUES[5], 0),)
    assert track.due(60_001)[1] == (), "just past is past"
    assert track.upcoming(60_000, within=0) == CUES[4:5]
    track, came = track.due(30_000)
    assert came == ()
    track, came = track.due(60_000)
    assert came == (CueHeard(CUES[4], 0),)
    assert track.due(110_000)[1] == ()


def test_a_segment_entered_in_the_middle_leaves_the_past_alone() -> None:
    assert CueTrack.entered(CUES, 90_000).due(90_000)[1] == ()
    assert CueTrack.entered(CUES, -3000).due(-2990)[1] == (CueHeard(CUES[0], 10),)


def test_what_is_upcoming_are_the_cues_not_given_out_yet() -> None:
    track, _ = CueTrack.entered(CUES, -10_000).due(-2_500)
    assert track.upcoming(-2_500, within=2_000) == CUES[1:3]
    assert track.upcoming(-1_900, within=0) == CUES[1:2], "due, not given out, not too late"
    assert track.upcoming(-1_000, within=0) == CUES[1:3], "a second late is heard"
    assert track.upcoming(-999, within=0) == CUES[2:3]
    track, _ = track.due(-2_000)
    assert track.upcoming(-2_000, within=999) == ()


def test_a_minute_more_brings_the_last_minute_again() -> None:
    track, _ = CueTrack.entered(CUES, 0).due(0)
    track, _ = track.due(60_000)
    longer = tuple(Cue(cue.at + 60_000, cue.kind) if cue.at > 0 else cue for cue in CUES)
    assert track.following(longer).due(120_000)[1] == (CueHeard(Cue(120_000, "last-minute"), 0),)
    assert track.following(CUES).due(120_000)[1][-1] == CueHeard(CUES[-1], 0)


gaps = st.lists(st.integers(200, 90_000), min_size=1, max_size=20)
looks = st.lists(st.integers(-40_000, 60_000), max_size=40)


@given(gaps, looks)
def test_every_cue_is_given_out_once_and_in_order_however_the_clock_is_looked_at(
    gaps: list[int], looks: list[int]
) -> None:
    cues = tuple(Cue(sum(gaps[: n + 1]), "short") for n in range(len(gaps)))
    track = CueTrack.entered(cues, 0)
    given_out: list[Cue] = []
    elapsed = 0
    for step in [*looks, 10**7]:
        elapsed = max(0, elapsed + step)
        track, came = track.due(elapsed)
        assert [found.cue for found in came] == sorted(
            (found.cue for found in came), key=lambda cue: cue.at
        )
        for found in came:
            assert found.late == elapsed - found.cue.at
            assert isinstance(found, CueSkipped) == (found.late > TOO_LATE_MS)
        given_out.extend(found.cue for found in came)
    assert sorted(given_out, key=lambda cue: cue.at) == list(cues)
