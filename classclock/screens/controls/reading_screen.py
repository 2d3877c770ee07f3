"""A page that reads what it shows in a thread, while the coach looks on."""

from typing import Generic, Protocol, TypeVar

from classclock.screens.controls.page_screen import PageScreen

Answer = TypeVar("Answer")
Answer_contra = TypeVar("Answer_contra", contravariant=True)


class ReadingDesk(Protocol[Answer_contra]):
    """What a page shows, and its keys. From the first its notice says that it is being read."""

    notice: str

    def know(self, answer: Answer_contra) -> None:
        """Show this from now on."""

    def sign(self, sign: str) -> bool:
        """One key; whether it leaves."""


class ReadingScreen(PageScreen[None], Generic[Answer]):
    """Asks once it is there, and says in words where there is no answer. Escape goes back."""

    desk: ReadingDesk[Answer]

    def on_mount(self) -> None:
        self.read(self.know, self.ask)

    def ask(self) -> tuple[Answer | None, str]:
        """An answer, or None; and what is to be said of it. Called in a thread."""
        raise NotImplementedError

    def know(self, read: tuple[Answer | None, str]) -> None:
        answer, words = read
        if answer is not None:
            self.desk.know(answer)
        self.desk.notice = words

    def take(self, sign: str) -> bool:
        left = self.desk.sign(sign)
        if left:
            self.dismiss(None)
        return left
