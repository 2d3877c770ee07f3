"""What several commands let a coach add, and how it is read."""

import argparse
import ipaddress

from classclock.units.digits import is_whole
from classclock.units.names import typed_names, typed_twice
from classclock.units.printable import can_be_shown


def add_club(
    parser: argparse.ArgumentParser, *, unless_named: str | None = argparse.SUPPRESS
) -> None:
    """Let the club be named, before a command as behind it.

    Behind it, only a club that is named says anything: it mustn't undo the one named before.
    """
    parser.add_argument("--club", metavar="DIR", default=unless_named, help="the club's folder")


def add_json(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--json", action="store_true", help="print JSON")


def add_kept_off(parser: argparse.ArgumentParser) -> None:
    """Let those be asked for who are left out of pages that others see; `named` are they."""
    parser.add_argument(
        "--with",
        dest="named",
        type=names,
        default=(),
        metavar='"ILSE, BRAM"',
        help="these too, though they are kept off the wall",
    )


def add_page(parser: argparse.ArgumentParser) -> None:
    """Let the wall be asked for as a page; `serve` is None where it isn't, else an address.

    Without one it is empty.
    """
    parser.add_argument(
        "--serve",
        nargs="?",
        const="",
        type=own_address,
        metavar="ADDRESS",
        help="serve it as a page, at an address of this laptop (127.0.0.1, or club.toml's)",
    )
    parser.add_argument(
        "--port", type=port, metavar="N", help="at another port than 8420, or club.toml's"
    )


def own_address(text: str) -> str:
    """An address of a machine, in numbers; nothing is the club's.

    Raises:
        ArgumentTypeError: it is none.
    """
    if not text:
        return ""
    try:
        return str(ipaddress.ip_address(text))
    except ValueError:
        raise argparse.ArgumentTypeError(
            f'"{text}" is no address: write the laptop\'s own in numbers, as in 192.168.1.20, and '
            "what else is asked before --serve"
        ) from None


def port(text: str) -> int:
    """A port, 1 to 65535; 0: any that is free.

    Raises:
        ArgumentTypeError: it is no such number.
    """
    number = int(text) if is_whole(text) and len(text) <= 5 else -1
    if not 0 <= number <= 65_535:
        raise argparse.ArgumentTypeError(f'"{text}" is no port: write a number from 1 to 65535')
    return number


def add_unit(parser: argparse.ArgumentParser) -> None:
    """Let the unit be named; `unit` is None where it isn't."""
    units = parser.add_mutually_exclusive_group()
    units.add_argument("--kg", dest="unit", action="store_const", const="kg", help="in kilograms")
    units.add_argument("--lb", dest="unit", action="store_const", const="lb", help="in pounds")


def whole_number(text: str) -> int:
    """A number written with plain digits, 0 to 9 and nothing else: other scripts' are refused.

    Raises:
        ArgumentTypeError: it is no such number.
    """
    if not is_whole(text) or len(text) > 9:
        raise argparse.ArgumentTypeError(f'"{text}" is no number: write it with the digits 0 to 9')
    return int(text)


def speed(text: str) -> int:
    """How many times as fast as life, 1 to 1000.

    Raises:
        ArgumentTypeError: it is no such number.
    """
    times = int(text) if is_whole(text) and len(text) <= 4 else 0
    if not 1 <= times <= 1000:
        raise argparse.ArgumentTypeError(
            f'"{text}" is no speed: write a whole number from 1 to 1000'
        )
    return times


def names(written: str) -> tuple[str, ...]:
    """The names, in their order.

    Raises:
        ArgumentTypeError: one can't be shown on the wall.
    """
    each = typed_names(written)
    for name in each:
        if not can_be_shown(name):
            raise argparse.ArgumentTypeError(
                f'"{name}" holds a character that can\'t be shown: type the name again'
            )
    return each


def names_that_differ(written: str) -> tuple[str, ...]:
    """Names of a class: two people of one name can't be told apart on the wall.

    Raises:
        ArgumentTypeError: nobody is named, one name is there twice, or can't be shown.
    """
    each = names(written)
    if not each:
        raise argparse.ArgumentTypeError(
            f'"{written}" names nobody: write who it is, with commas between, as in "Ilse, Bram"'
        )
    if (name := typed_twice(each)) is not None:
        raise argparse.ArgumentTypeError(f'"{name}" is there twice: give one an initial')
    return each
