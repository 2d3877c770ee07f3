"""What the coach meant by a click or by an answer, told to the screen that carries it out."""

from textual.message import Message


class Meant(Message):
    """Each kind of it says what is to be done, and nothing of how."""
