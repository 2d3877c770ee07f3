"""The page's clock beside the laptop's."""

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from msgspec import to_builtins

from classclock.clock.class_clock import ClassClock
from classclock.clock.engine import EngineView
from classclock.clock.running import RunningTime
from classclock.clock.source import MS, WoundSource
from classclock.clock.span import Span
from classclock.clock.timeline import Timeline
from classclock.plan.formats.timelines import timeline
from classclock.serve.page_clock import PageClock, page_clock
from classclock.units.times import show_time
from tests.following.conftest import PLAN, plan_of
from tests.serve.browser import needs_chromium, opened
from tests.serve.conftest import OpenPage

LENGTHS = st.lists(st.integers(1_000, 90_000), min_size=1, max_size=6)


@st.composite
def timelines(draw: st.DrawFn) -> Timeline:
    """A count-in, then steps of work and rest; counting up or down."""
    count_in = draw(st.sampled_from((3_000, 10_000)))
    spans = [Span("count-in", -count_in, 0)]
    for number, length in enumerate(draw(LENGTHS)):
        start = spans[-1].end
        spans.append(Span("rest" if number % 2 else "work", start, start + length, number=number))
    return Timeline(tuple(spans), (), draw(st.booleans()), len(spans) - 1)


@given(timelines(), st.integers(0, 2_000_000), st.integers(1, 20), st.booleans())
def test_go_is_where_the_laptop_says_and_stands_where_it_is_held(
    shown: Timeline,
    later: int,
    speed: int,
    held: bool,  # noqa: FBT001  drawn
) -> None:
    source = WoundSource(speed, since=0)
    clock = ClassClock(source, 0)
    running = RunningTime(clock.now() - later)
    if held:
        running = running.hold(clock.now())
    told = page_clock(EngineView(running, shown), clock)
    assert (told.zero is None) == held
    if held:
        assert told.at == running.elapsed(clock.now())
    elif told.zero is not None:
        at_go = clock.raw(running.go) // 1_000
        assert told.zero == at_go


def test_a_source_that_is_only_wound_stands() -> None:
    source = WoundSource()
    source.jump(5_000 * MS)
    view = EngineView(RunningTime(2_000), timeline(plan_of(PLAN).segment[1]))
    told = page_clock(view, ClassClock(source, 0))
    assert told.zero is None
    assert told.at == 3_000


@needs_chromium
@pytest.mark.real_time
async def test_digits_are_those_of_the_laptop_at_every_moment(open_page: OpenPage) -> None:
    cases: list[tuple[PageClock, int, str]] = []

    @settings(
        max_examples=150,
        database=None,
        deadline=None,
        phases=(Phase.generate,),
        suppress_health_check=list(HealthCheck),
    )
    @given(timelines(), st.data())
    def collect(shown: Timeline, data: st.DataObject) -> None:
        end = data.draw(st.integers(1, shown.total))
        elapsed = data.draw(
            st.one_of(
                st.integers(shown.spans[0].start - 2_000, shown.total + 2_000),
                st.sampled_from([span.start for span in shown.spans]).map(lambda at: at),
                st.integers(0, shown.total // 1_000).map(lambda seconds: seconds * 1_000),
            )
        )
        reading = EngineView(RunningTime(0), shown, end).at(elapsed)
        digits = (
            str(reading.shown)
            if reading.span.kind == "count-in"
            else show_time(reading.shown * 1_000)
        )
        spans = tuple((span.kind, span.start, span.end) for span in shown.spans)
        cases.append((PageClock(spans, shown.counts_up, end, (), at=elapsed), elapsed, digits))

    collect()
    async with open_page() as page, opened(page.url) as watched:
        found = await watched.page.evaluate(
            """async (clocks) => {
              const { elapsedAt, readingAt, digitsOf } = await import("/clock.js");
              return clocks.map((clock) => digitsOf(readingAt(clock, elapsedAt(clock, 0))));
            }""",
            [to_builtins(clock) for clock, _, _ in cases],
        )
    assert found == [digits for _, _, digits in cases]


@needs_chromium
@pytest.mark.real_time
async def test_the_laptops_clock_is_that_of_the_quickest_round_trip(open_page: OpenPage) -> None:
    """RFC 5905, section 8: offset = ((T2 - T1) + (T3 - T4)) / 2, delay = (T4 - T1) - (T3 - T2)."""
    trips = [
        {"sent": 100.0, "at": 5_061.0, "back": 140.0},
        {"sent": 200.0, "at": 5_143.0, "back": 204.0},  # the quickest
        {"sent": 300.0, "at": 5_340.0, "back": 380.0},
    ]
    t1, t2, t4 = trips[1]["sent"], trips[1]["at"], trips[1]["back"]
    offset = ((t2 - t1) + (t2 - t4)) / 2
    async with open_page() as page, opened(page.url) as watched:
        found = await watched.page.evaluate(
            """async (trips) => {
              const { LaptopClock } = await import("/clock.js");
              const clock = new LaptopClock(() => 1000);
              trips.forEach((trip) => clock.heard(trip));
              return clock.now();
            }""",
            trips,
        )
    assert found == 1_000 + offset


@needs_chromium
@pytest.mark.real_time
async def test_a_round_trip_that_waited_for_the_link_never_sets_the_clock(
    open_page: OpenPage,
) -> None:
    """The server stood still for two seconds while it was asked: half of it were the error."""
    async with open_page() as page, opened(page.url) as watched:
        found = await watched.page.evaluate(
            """async () => {
              const { LaptopClock } = await import("/clock.js");
              const { Link } = await import("/link.js");
              let now = 1000;
              const asked = [];
              performance.now = () => now;
              window.setInterval = () => 0;
              window.EventSource = class { addEventListener() {} close() {} };
              window.fetch = () => new Promise((answer) => asked.push(answer));
              const turn = () => new Promise((next) => setTimeout(next));
              const answers = async () => {
                asked.shift()({ ok: true, json: async () => ({ at: (now + 5000) * 1000 }) });
                await turn();
              };
              const clock = new LaptopClock();
              const link = new Link(clock, { came() {}, stands() {} });
              for (let trip = 0; trip < 6; trip += 1) await answers();
              const before = clock.now() - now;
              link.setClock();
              now += 2000;
              await answers();
              const meanwhile = clock.now() - now;
              for (let trip = 0; trip < 5; trip += 1) await answers();
              return [before, meanwhile, clock.now() - now];
            }"""
        )
    assert found == [5_000, 5_000, 5_000]
