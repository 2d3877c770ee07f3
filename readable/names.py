"""Invented people, each with a letter of their own, by how long their names are."""

from operator import add
from typing import Literal

Letters = Literal[0, 3, 8, 14]
"""How many signs every name has; 0: as they come."""

_MIXED = (
    *("Ilse", "Bram", "Noor", "Piet", "Tuva", "Uri", "Saoirse", "Odell", "Anouk", "Cato"),
    *("Dagny", "Ewa", "Fenna", "Goran", "Hanne", "Jory", "Kaat", "Lotte", "Mirza", "Quinn"),
    *("Ranko", "Vesna", "Wilhelmina", "Xenia", "Yara", "Zoltan"),
)
_SHORT = (
    *("Amy", "Bas", "Cor", "Dex", "Eva", "Fem", "Gus", "Han", "Ida", "Jan", "Kim", "Lex", "Mia"),
    *("Nel", "Ody", "Pam", "Qui", "Ron", "Sam", "Tom", "Una", "Vic", "Wim", "Xan", "Yan", "Zoe"),
)
_LONG = (
    *("Annelies", "Benjamin", "Cornelis", "Diederik", "Eberhard", "Fransina", "Gottlieb"),
    *("Hendrika", "Isabella", "Johannes", "Katarina", "Lodewijk", "Mirabell", "Nicolien"),
    *("Odysseas", "Philippa", "Quintijn", "Reinhold", "Salvador", "Theodora", "Ursulina"),
    *("Veronica", "Wilhelma", "Xanthias", "Yolanthe", "Zacharia"),
)
_FAMILIES = ("Smits", "Groot", "Molen", "Kamps", "Vries")


def people(count: int, letters: Letters) -> tuple[str, ...]:
    """So many names, 26 at most."""
    families = (f" {_FAMILIES[at % len(_FAMILIES)]}" for at in range(len(_LONG)))
    every: dict[Letters, tuple[str, ...]] = {
        0: _MIXED,
        3: _SHORT,
        8: _LONG,
        14: tuple(map(add, _LONG, families)),
    }
    return every[letters][:count]
