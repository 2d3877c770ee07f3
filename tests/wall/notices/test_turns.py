"""Who has the row at the foot, whatever is said, in whatever order, however late it is shown."""

from collections.abc import Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.wall.notices.notice import Notice, Weight
from classclock.wall.notices.turns import ASIDE_WAITS, TURN, Shown, Turns

ROOM = 24
LEAST_LOOK = 500
"""Milliseconds: a class's foot is looked after twice a second."""


def parts(notice: Notice, count: str, again: bool) -> Sequence[str]:  # noqa: FBT001  as the row asks
    """A row of 24 columns, cut anywhere."""
    room = ROOM - len(count)
    return [notice.text[at : at + room] for at in range(0, len(notice.text), room)] or [""]


class Foot:
    """A row that is looked at, and a coach who notes what stands in it and for how long."""

    def __init__(self) -> None:
        self.turns = Turns()
        self.now = 0
        self.seen: list[tuple[int, Notice | None]] = []
        """From when on whose turn it was."""

    def say(self, text: str, weight: Weight, *answered_by: str) -> Notice:
        notice = Notice(text, weight, answered_by=answered_by)
        self.turns = self.turns.said(notice, self.now)
        return notice

    def stand(self, *troubles: Notice) -> None:
        self.turns = self.turns.stand(troubles)

    def strike(self, sign: str) -> None:
        self.turns = self.turns.struck(sign)

    def look(self) -> Shown:
        self.turns = self.turns.at(self.now, parts)
        if not self.seen or self.seen[-1][1] != self.turns.on:
            self.seen.append((self.now, self.turns.on))
        return self.turns.shown(self.now, parts)

    def reads(self) -> str:
        return self.look().text

    def wait(self, ms: int) -> None:
        """Time goes on, and the foot is looked after meanwhile."""
        until = self.now + ms
        while self.now < until:
            self.now = min(until, self.now + LEAST_LOOK)
            self.look()

    def longest(self, field: str, value: str) -> int:
        """The longest time for which this notice has stood in the row without a break."""
        ends = [at for at, _ in self.seen[1:]] + [self.now]
        stood = (
            end - at
            for (at, notice), end in zip(self.seen, ends, strict=True)
            if notice is not None and getattr(notice, field) == value
        )
        return max(stood, default=0)


def trouble(key: str, text: str = "", *answered_by: str) -> Notice:
    return Notice(text or f"{key} is wrong", "must", key=key, answered_by=answered_by)


# -- by example ------------------------------------------------------------------------


def test_what_must_be_read_comes_in_turn_what_is_wrong_before_what_is_news() -> None:
    """Three seconds each, with its count."""
    foot = Foot()
    foot.say("rejoined", "must")
    foot.stand(trouble("disk"), trouble("sound"))
    shown = []
    for _ in range(16):
        shown.append((foot.now, foot.look().text, foot.look().count))
        foot.wait(1_000)
    assert shown[0:3] == [(at, "disk is wrong", "1 of 3") for at in (0, 1_000, 2_000)]
    assert shown[3:6] == [(at, "sound is wrong", "2 of 3") for at in (3_000, 4_000, 5_000)]
    assert shown[6:9] == [(at, "rejoined", "3 of 3") for at in (6_000, 7_000, 8_000)]
    assert shown[9][1:] == ("", "ctrl+n: 2"), "a turn for the last answer, and for the keys"
    assert shown[12][1:] == ("disk is wrong", "1 of 2"), "what stands comes again"
    assert shown[15][1:] == ("sound is wrong", "2 of 2")


def test_one_alone_has_no_count() -> None:
    foot = Foot()
    foot.stand(trouble("disk"))
    assert (foot.look().text, foot.look().count) == ("disk is wrong", "")


def test_the_last_answer_stays_until_something_else_is_said() -> None:
    foot = Foot()
    foot.say("Noor, round 1", "answer")
    foot.wait(60_000)
    assert foot.look() == Shown("Noor, round 1")
    foot.say("rejoined", "must")
    assert foot.reads() == "rejoined"
    foot.wait(TURN)
    assert foot.look() == Shown("Noor, round 1"), "it comes back when the other was read"


def test_on_another_screen_an_answer_has_its_turn_to_the_end_and_what_must_be_read_stays() -> None:
    foot = Foot()
    foot.say("Noor, round 1", "answer")
    foot.wait(1_000)
    foot.turns = foot.turns.on_another_screen()
    assert foot.reads() == "Noor, round 1"
    foot.wait(TURN)
    assert foot.reads() == ""
    foot.say("Bram, round 1", "answer")
    foot.wait(60_000)
    foot.stand(trouble("disk"))
    foot.turns = foot.turns.on_another_screen()
    assert foot.reads() == "disk is wrong"


def test_an_answer_is_shown_at_once_and_no_trouble_gives_way_to_it_twice() -> None:
    foot = Foot()
    foot.stand(trouble("disk"))
    assert foot.reads() == "disk is wrong"
    foot.now += 500
    foot.say("Noor, round 1", "answer")
    assert foot.reads() == "Noor, round 1"
    foot.wait(2_000)
    foot.say("Bram, round 1", "answer")
    assert foot.reads() == "Bram, round 1"
    foot.wait(1_000)
    assert foot.reads() == "disk is wrong", "both had one turn together"
    foot.wait(1_000)
    foot.say("Ilse, round 1", "answer")
    assert foot.reads() == "disk is wrong"
    foot.wait(2_000)
    assert foot.reads() == "Ilse, round 1"
    foot.say("Ilse, round 2", "answer")
    assert foot.reads() == "Ilse, round 2", "it was read: from now on answers come at once"


def test_an_answer_waits_for_a_refusal_to_be_read_unless_its_own_key_comes_to_something() -> None:
    foot = Foot()
    foot.say("n again within 1.2 s", "refusal", "n")
    foot.say("Bram, round 1", "answer")
    assert foot.reads() == "n again within 1.2 s"
    foot.wait(TURN)
    assert foot.reads() == "Bram, round 1"
    foot.say("n again within 1.2 s", "refusal", "n")
    foot.look()
    foot.strike("n")
    foot.say("Noor, round 2", "answer")
    assert foot.reads() == "Noor, round 2"


def test_an_aside_waits_for_what_weighs_more_and_is_dropped_when_it_is_no_news() -> None:
    foot = Foot()
    foot.say("Noor, round 1", "answer")
    foot.look()
    foot.say("not sounded: halfway", "aside")
    assert foot.reads() == "Noor, round 1"
    foot.wait(TURN)
    assert foot.reads() == "not sounded: halfway"
    foot.say("Noor, round 2", "answer")
    assert foot.reads() == "Noor, round 2", "it gives way"
    for number in range(5):
        foot.say(f"trouble {number}", "must")
    foot.say("not sounded: one minute", "aside")
    foot.wait(ASIDE_WAITS + 60_000)
    assert all(one is None or one.text != "not sounded: one minute" for _, one in foot.seen)


def test_the_key_that_answers_a_notice_ends_its_turn() -> None:
    foot = Foot()
    foot.stand(trouble("flags", "F7: 2 loads", "<f7>"), trouble("disk"))
    foot.look()
    foot.strike("x")
    assert foot.reads() == "F7: 2 loads"
    foot.strike("<f7>")
    assert foot.reads() == "disk is wrong"


def test_what_is_too_long_for_the_row_has_a_turn_for_each_part() -> None:
    foot = Foot()
    foot.say("free some space: this class is not saved", "must")
    assert foot.reads() == "free some space: this cl"
    foot.wait(TURN)
    assert foot.reads() == "ass is not saved"
    foot.wait(TURN)
    assert foot.reads() == ""


def test_words_that_change_stay_the_same_trouble() -> None:
    foot = Foot()
    foot.stand(trouble("battery", "battery at 19 %"), trouble("disk"))
    foot.look()
    foot.wait(2_000)
    foot.stand(trouble("battery", "battery at 18 %"), trouble("disk"))
    assert foot.reads() == "battery at 18 %"
    foot.wait(1_000)
    assert foot.reads() == "disk is wrong"


# -- whatever happens ------------------------------------------------------------------

TROUBLES = {key: trouble(key, f"{key} must be put right, and this is how", key) for key in "abc"}
SIGNS = ("a", "n", "<enter>")
said = st.tuples(
    st.just("say"),
    st.sampled_from(["must", "answer", "aside"]),
    st.text("xyz ", min_size=1, max_size=60),
)
stands = st.tuples(st.just("stand"), st.sets(st.sampled_from(sorted(TROUBLES))))
struck = st.tuples(st.just("strike"), st.sampled_from(SIGNS))
passes = st.tuples(st.just("wait"), st.integers(0, 8_000))
refused = st.tuples(st.just("refuse"), st.sampled_from(SIGNS))
looked = st.tuples(st.just("look"))


def carry_out(foot: Foot, step: tuple[object, ...]) -> None:
    match step:
        case ("say", weight, str(text)):
            foot.say(text, weight)  # type: ignore[arg-type]  # one of three
        case ("refuse", str(sign)):
            foot.say(f"{sign} came to nothing", "refusal", sign)
        case ("stand", set(keys)):
            foot.stand(*(TROUBLES[key] for key in sorted(keys)))
        case ("strike", str(sign)):
            foot.strike(sign)
        case ("wait", int(ms)):
            foot.wait(ms)
        case ("look",):
            foot.look()


@given(st.lists(st.one_of(said, stands, struck, passes, looked, refused)))
def test_a_refusal_is_shown_at_the_next_paint(steps: list[tuple[object, ...]]) -> None:
    foot = Foot()
    for step in steps:
        carry_out(foot, step)
        if step[0] == "refuse":
            foot.now += 50
            assert foot.reads() == f"{step[1]} came to nothing"[:ROOM]


@given(st.lists(st.one_of(said, stands, struck, passes, looked, refused)))
def test_what_is_put_right_is_gone_at_once_and_the_row_is_never_more_than_a_row(
    steps: list[tuple[object, ...]],
) -> None:
    foot = Foot()
    wrong: set[str] = set()
    for step in steps:
        carry_out(foot, step)
        if step[0] == "stand":
            wrong = step[1]  # type: ignore[assignment]  # a set of keys
        shown = foot.look()
        assert shown.stands <= bool(wrong)
        assert foot.turns.on is None or not foot.turns.on.key or foot.turns.on.key in wrong
        assert not shown.in_turn or len(shown.text) + len(shown.count) <= ROOM


@given(st.lists(st.one_of(said, stands, passes, looked), max_size=30))
def test_nothing_that_must_be_read_is_lost_however_much_is_tapped(
    steps: list[tuple[object, ...]],
) -> None:
    """Everybody's rounds are called all the while, and every trouble has its three seconds."""
    foot = Foot()
    musts: set[str] = set()
    for step in steps:
        carry_out(foot, step)
        if step[0] == "say" and step[1] == "must":
            musts.add(str(step[2]))
    standing = {one.key for one in foot.turns.standing}
    for number in range(60 * (len(musts) + len(standing) + 1)):
        foot.say(f"round {number}", "answer")
        foot.wait(LEAST_LOOK)
    for text in musts:
        assert foot.longest("text", text) >= TURN
    for key in standing:
        assert foot.longest("key", key) >= TURN


@given(st.lists(st.one_of(said, stands, struck, passes, looked, refused)), st.integers(0, 2_999))
def test_whatever_is_being_read_stays_three_seconds_unless_it_is_refused_answered_or_put_right(
    steps: list[tuple[object, ...]], after: int
) -> None:
    foot = Foot()
    for step in steps:
        carry_out(foot, step)
    foot.wait(60_000)
    foot.say("read me", "must")
    foot.look()
    assert foot.reads() == "read me"
    foot.say("first", "answer")
    foot.wait(LEAST_LOOK + TURN)
    assert foot.reads() == "read me", "it gave way once"
    foot.now += after
    foot.say("second", "answer")
    foot.say("by the way", "aside")
    foot.say("this too", "must")
    foot.stand(*TROUBLES.values())
    assert foot.reads() == "read me"


@pytest.mark.parametrize("weight", ["must", "refusal", "answer", "aside"])
def test_a_foot_that_was_not_looked_after_for_long_shows_what_was_said_for_its_time(
    weight: Weight,
) -> None:
    """A busy machine: nobody looked, but a turn begins when it is shown."""
    foot = Foot()
    foot.now = 1_000_000
    foot.say("said", weight)
    foot.now += 9_000
    assert foot.reads() == "said"
    foot.now += TURN - 1
    assert foot.look().in_turn
