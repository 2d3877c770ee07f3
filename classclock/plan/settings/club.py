"""The club's settings, as `club.toml` in its folder says them. Every one has a good default."""

from ipaddress import ip_address
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, Field, model_validator

from classclock.plan.care import STOP
from classclock.plan.settings.club_strength import StrengthSettings, with_what_a_small_club_has
from classclock.plan.value_types import Length, Strict, Text
from classclock.units.cell_dots import CellDots
from classclock.units.spelling import fold
from classclock.units.times import Milliseconds


class Emergency(Strict):
    """What the emergency card says; what it lacks is said at every start."""

    address: str = ""
    defibrillator: str = ""
    first_aid: str = ""
    call: str = ""

    @property
    def lacking(self) -> tuple[str, ...]:
        """The fields that nobody has filled in."""
        return tuple(name for name in type(self).model_fields if not getattr(self, name).strip())


class Care(Strict):
    stop: Annotated[Text, Field(max_length=80)] = STOP
    """When to stop, in the club's own words: the first caution of every piece."""


class ClassSettings(Strict):
    ask_effort: bool = False
    """Whether the last screen asks everybody how hard the hour was, 0 to 10. What somebody says of
    their body is theirs to give: a club decides to ask for it."""
    next_step_after: Annotated[int, Field(ge=0, le=50)] = 5
    """After so many times with an option, each with a score like the others', the coach is told
    who may try the next one; 0 tells nobody."""


class Tv(Strict):
    """The screen on the wall, and how far the last row of people stands from it."""

    inches: Annotated[float, Field(gt=5, lt=200)] = 55
    metres: Annotated[float, Field(gt=0.5, lt=50)] = 10
    mirrored: bool = True
    """Whether the room sees what the laptop shows: then marks stay off it during a class, until
    the coach says otherwise. If not, a class begins on the coach's own screen."""
    letters: Literal["auto", CellDots] = "auto"
    """Of which dots large letters are; `auto`: of what the terminal is known to draw."""


class Sound(Strict):
    volume: Annotated[int, Field(ge=0, le=100)] = 80
    offset_ms: Annotated[int, Field(ge=-1000, le=1000)] = 0
    """How much earlier a sound is played, for loudspeakers that lag behind the picture."""


def _an_address(written: str) -> str:
    try:
        return str(ip_address(written))
    except ValueError:
        raise ValueError("it is no address in numbers") from None


class Page(Strict):
    """The wall in a browser, where it is asked for."""

    address: Annotated[str, AfterValidator(_an_address)] = "127.0.0.1"
    """At which address of the laptop; as it is only the laptop itself sees the page."""
    port: Annotated[int, Field(ge=1, le=65535)] = 8420
    same_address: bool = False
    """Whether whoever was given the page's address may see later classes too."""


class Keyboard(Strict):
    map: dict[str, str] = Field(default_factory=dict)
    """What a key types, and what it shall mean: `{ "&" = "1" }` where digits need shift."""
    click_taps: bool = False
    """Whether a click on a lane is a tap; otherwise it only selects."""


def _counted(written: dict[str, int]) -> dict[str, int]:
    counted: dict[str, int] = {}
    for name, count in written.items():
        if not fold(name) or fold(name) in counted:
            raise ValueError(f'"{name}" stands in it twice, or is no name')
        counted[fold(name)] = count
    return counted


class Club(StrengthSettings):
    name: str = ""
    class_length: Length = Milliseconds(3_600_000)
    theme: Literal["dark", "light"] = "dark"
    emergency: Emergency = Emergency.model_construct()
    care: Care = Care.model_construct()
    in_class: Annotated[ClassSettings, Field(alias="class")] = ClassSettings.model_construct()
    tv: Tv = Tv.model_construct()
    sound: Sound = Sound.model_construct()
    keyboard: Keyboard = Keyboard.model_construct()
    page: Page = Page.model_construct()
    inventory: Annotated[
        dict[str, Annotated[int, Field(strict=True, ge=0, le=200)]], AfterValidator(_counted)
    ] = Field(default_factory=dict, alias="equipment", max_length=60)
    """What the club has counted, by folded name; `equipment` is what there is to lift."""

    @model_validator(mode="before")
    @classmethod
    def _fill_in(cls, values: Any) -> Any:
        return with_what_a_small_club_has(values) if isinstance(values, dict) else values
