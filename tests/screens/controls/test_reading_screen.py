"""A page that reads in a thread: what it says before, after, and where there is no answer."""

import threading
from functools import partial

import pytest
from textual.app import App

from classclock.screens.canvas.cells import Drawing, plain_text
from classclock.screens.canvas.look import Look
from classclock.screens.controls.drawn_view import DrawnView
from classclock.screens.controls.reading_screen import ReadingScreen


class SumsDesk:
    def __init__(self) -> None:
        self.sums: list[int] = []
        self.notice = "the sums are being read"

    def know(self, answer: list[int]) -> None:
        self.sums, self.notice = answer, ""

    def sign(self, sign: str) -> bool:
        return sign == "<escape>"


def draw_sums(desk: SumsDesk, columns: int, rows: int, look: Look) -> Drawing:
    return look.box(look.text(f"{desk.notice}{desk.sums}", columns), columns, rows)


class Sums(ReadingScreen[list[int]]):
    def __init__(self, answer: list[int] | None, words: str) -> None:
        super().__init__()
        self.answer, self.words = answer, words
        self.may_answer = threading.Event()
        self.asked_in: list[str] = []
        desk = SumsDesk()
        self.desk = desk
        self.view = DrawnView(Look(), partial(draw_sums, desk))

    def ask(self) -> tuple[list[int] | None, str]:
        self.may_answer.wait(10)
        self.asked_in.append(threading.current_thread().name)
        return self.answer, self.words


@pytest.mark.parametrize(
    ("answer", "words", "shown"),
    [([3], "", "[3]"), (None, "no book here", "no book here[]"), ([], "a hint", "a hint[]")],
)
async def test_it_says_that_it_reads_then_what_it_read_or_why_not(
    answer: list[int] | None, words: str, shown: str
) -> None:
    page = Sums(answer, words)
    app: App[None] = App()
    async with app.run_test(size=(60, 18)) as pilot:
        app.push_screen(page)
        await pilot.pause()
        assert plain_text(page.view.paint(60, 18)).startswith("the sums are being read")
        page.may_answer.set()
        await page.workers.wait_for_complete()
        await pilot.pause()
        assert plain_text(page.view.paint(60, 18)).startswith(shown)
        assert page.asked_in != [threading.current_thread().name], "keys don't wait for it"
        await pilot.press("x", "escape")
        assert app.screen is not page


async def test_answers_are_known_in_their_order_as_they_come() -> None:
    page = Sums([], "")
    page.may_answer.set()
    known: list[int] = []
    app: App[None] = App()
    async with app.run_test(size=(60, 18)) as pilot:
        app.push_screen(page)
        await pilot.pause()
        page.read(known.append, lambda: 1, lambda: 2, lambda: len(known))
        await page.workers.wait_for_complete()
        await pilot.pause()
    assert known == [1, 2, 2]
