"""What the coach answers about a sheet: typed question by question, or said ahead."""

from collections.abc import Mapping

from classclock.book.importing.questions import SheetQuestion, of_all_such
from classclock.book.importing.spreadsheet import SheetReading
from classclock.commands.shared.asking import choose
from classclock.commands.shared.exit_status import BadUseError
from classclock.units.printable import printable


def answers_typed(questions: tuple[SheetQuestion, ...]) -> Mapping[str, str]:
    """What is typed, question by question."""
    answers = {}
    for question in questions:
        about = f" ({printable(question.about, longest=200)})" if question.about else ""
        words = [choice.words for choice in question.choices]
        chosen = choose(f"{printable(question.words, longest=200)}{about}", words)
        answers[question.key] = question.choices[chosen].value
    return answers


def look_at_answers(answers: Mapping[str, str], reading: SheetReading) -> None:
    """An answer that nobody asked for may be meant for something else.

    Raises:
        BadUseError: there is no such question, or no such choice.
    """
    if reading.findings:
        return
    for question in reading.questions:
        for key in (question.key, of_all_such(question.key)):
            if key in answers:
                choices = ", ".join(choice.value for choice in question.choices)
                raise BadUseError(f'"{answers[key]}" is no answer to {key}: write {choices}')
    if reading.not_asked:
        raise BadUseError(
            f"nothing is asked about {' or '.join(reading.not_asked)}: take that --answer out"
        )
