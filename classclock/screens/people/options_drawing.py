"""How a piece with something to choose is drawn, and what each digit means in it."""

from classclock.plan.outline import describe
from classclock.planning.modifiable import Modifiable
from classclock.screens.canvas.cells import Drawing, above
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.wrapped import wrapped
from classclock.screens.people.option_digits import MOST_DIGITS
from classclock.units.printable import printable


def draw_options(
    piece: Modifiable, shown: range, columns: int, look: Look, *, more: str = ""
) -> Drawing:
    """`shown` are the numbers of the options that the digits mean; `more` stands at the title."""
    names = [
        f"{digit} {piece.option_name(number)}{'' if digit == number else f' (:n{number})'}"
        for digit, number in enumerate(shown, start=1)
    ]
    names += ["0 as written"] if names else []
    names += ["ctrl+o more options"] if len(piece.menu) > MOST_DIGITS else []
    names += [f"tab {' / '.join(map(piece.load_name, piece.loads))}"] if piece.loads else []
    title = f"{piece.segment.name}: {describe(piece.segment)}{more}"
    lines = [look.text(printable(title, 200), columns, bold=True)]
    lines += [
        look.text(printable(text, 400), columns, ink=look.theme.quiet)
        for text in wrapped(names, columns)
    ]
    return above(*lines)
