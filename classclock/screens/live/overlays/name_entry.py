"""A line for the name of someone who came late, or of a visitor."""

from dataclasses import dataclass

from classclock.screens.canvas.cells import Drawing
from classclock.screens.controls.meant import Meant
from classclock.screens.live.overlays.asked_box import BoxQuestion, draw_asked
from classclock.screens.live.overlays.patient_entry import PatientEntry


class NameEntry(PatientEntry):
    visitor = ""
    """One who has no name yet."""

    @dataclass
    class Named(Meant):
        name: str

    def ask(self, *, running: bool, visitor: str = "") -> None:
        """`visitor` is what one is called who has no name yet."""
        self.visitor, self.text = visitor, ""
        self.open_while(running=running)

    def entered(self) -> None:
        if name := " ".join(self.text.split()):
            self.post_message(self.Named(name))
            self.close()

    def left(self) -> None:
        self.close()

    def paint(self, columns: int, rows: int) -> Drawing:
        question, foot = "who came late?", "enter adds, escape leaves, ? is a visitor"
        if self.visitor:
            question = f"who came late, or {self.visitor} = Anna?"
        if self.running:
            question = f"typing a name: taps are off. {question[0].upper()}{question[1:]}"
            foot = "enter adds, escape leaves; 10 s without a key closes it"
        return draw_asked(BoxQuestion(question, self.text, foot), columns, rows, self.look)
