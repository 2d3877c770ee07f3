"""A line for a note about the class or somebody in it, kept off the wall."""

from collections.abc import Sequence
from dataclasses import dataclass

from classclock.screens.canvas.cells import Drawing, above
from classclock.screens.canvas.look import Look
from classclock.screens.controls.line_entry import unread_by_the_room
from classclock.screens.controls.meant import Meant
from classclock.screens.live.overlays.patient_entry import PatientEntry
from classclock.tally.lanes import Person
from classclock.tally.notes import typed_note


class NoteEntry(PatientEntry):
    """Where it closes by itself, what was typed is there when it is opened again."""

    @dataclass
    class Noted(Meant):
        """A line for the journal, never for the wall; no id: it is about the class."""

        text: str
        person_id: str | None

    def __init__(self, look: Look, *, mirrored: bool = True, id: str | None = None) -> None:  # noqa: A002  Textual's own name
        super().__init__(look, id=id)
        self.mirrored = mirrored
        self.people: Sequence[Person] = ()

    def ask(self, people: Sequence[Person], *, running: bool) -> None:
        """`people` are all whom it may be about."""
        self.people = people
        self.open_while(running=running)

    def entered(self) -> None:
        note = typed_note(self.text, self.people)
        if note.text:
            about = note.about.id if note.about is not None else None
            self.post_message(self.Noted(note.text, about))
            self.left()

    def left(self) -> None:
        self.text = ""
        self.close()

    @property
    def about(self) -> str:
        """Whom it is about, so far; on a screen that the room sees, only whether it is somebody."""
        somebody = typed_note(self.text, self.people).about
        if somebody is None:
            return "about the class"
        return "about one person" if self.mirrored else f"about {somebody.name}"

    def paint(self, columns: int, rows: int) -> Drawing:
        theme, here, inner = self.look.theme, self.look.on(self.look.theme.bar), columns - 4
        question, foot = f"a note {self.about}", "n: is about N; enter notes it, escape leaves"
        if self.running:
            question = f"typing a note: taps are off. It is {self.about}"
            foot = "n: is about N; enter notes; 10 s without a key closes it"
        line = f"{unread_by_the_room(self.text, mirrored=self.mirrored)}_"
        drawn = above(
            here.text(question, inner, bold=True),
            here.text(line[-inner:], inner),
            here.text(foot, inner, ink=theme.quiet),
        )
        return here.box(drawn, columns, rows, across="middle", down="middle")
