"""The room's wall in another terminal: it waits for a class, and follows whichever runs.

What the class's own screen shows the room stands here too, by the same views; at its own size.
"""

from pathlib import Path

from textual import events
from textual.app import ComposeResult

from classclock.clock.source import local_now
from classclock.club.folder import settings
from classclock.club.settings import read_club
from classclock.following.follower import Followed, Follower
from classclock.following.following_words import (
    CANNOT,
    FOLLOWING_KEYS,
    WAITS,
    alone_words,
    where_words,
)
from classclock.screens.canvas.look import Look
from classclock.screens.controls.key_sign import signs_of
from classclock.screens.following.card_view import CardView
from classclock.screens.following.followed_display import FollowedDisplay
from classclock.screens.following.following_foot import FollowingFoot
from classclock.screens.following.said_view import SaidView
from classclock.screens.live.overlays.keys_overlay import KeysOverlay
from classclock.screens.live.overlays.share_overlay import ShareOverlay
from classclock.screens.live.room_screen import RoomScreen
from classclock.wall.start_lines import start_lines
from classclock.wall.time_words import time_words

EVERY = 0.04
"""Seconds between two looks at the files: what is called stands here as soon as one sees it."""
_SHOWS = 0.5
"""Seconds between two times that all is brought up to date, as on the class's own screen."""


class FollowingScreen(RoomScreen):
    DEFAULT_CSS = Path(__file__).with_suffix(".tcss").read_text("utf-8")

    def __init__(self, look: Look, follower: Follower, folder: Path) -> None:
        """`folder` is the club's."""
        super().__init__(look)
        self._follower, self._folder = follower, folder
        self._shown: FollowedDisplay | None = None
        self._waiting = SaidView(look, id="waiting")
        self._alone = SaidView(look, alarm=True, id="alone")
        self._card, self._share = CardView(look), ShareOverlay(look)
        self._keys, self._foot = KeysOverlay(look, taps=False), FollowingFoot(look)

    def compose(self) -> ComposeResult:
        yield self._waiting
        for over in (self._share, self._card, self._alone, self._keys):
            over.display = False
            yield over
        yield self._foot
        yield self.too_small

    async def on_mount(self) -> None:
        await self.look_at_class()
        self.show()
        self.set_interval(EVERY, self.look_at_class)
        self.set_interval(_SHOWS, self.show)

    def on_unmount(self) -> None:
        if self._shown is not None:
            self._shown.stop()

    def until_change(self) -> float:
        return float("inf") if self._shown is None else self._shown.engine.until_change()

    # -- the class -----------------------------------------------------------------------

    async def look_at_class(self) -> None:
        """See what has happened, and show it."""
        if not self._follower.look():
            return
        followed = self._follower.followed
        if followed is not (self._shown.followed if self._shown is not None else None):
            await self._turn_to(followed)
        if self._shown is not None:
            self._shown.follow()
        self.show()

    async def _turn_to(self, followed: Followed | None) -> None:
        """From now on show this class; None: none runs."""
        before, self._shown = self._shown, None
        if before is not None:
            before.stop()
            await before.views.remove()
        if followed is not None:
            shown = FollowedDisplay(
                *(followed, self.look),
                show=self.show,
                show_later=lambda: self.call_after_refresh(self.show),
            )
            await self.mount(shown.views, before=self._share)
            await shown.start()
            self._shown = shown

    # -- what is seen ----------------------------------------------------------------------

    def show(self) -> None:
        """Bring the screen to how things stand."""
        shown = self._shown
        self._waiting.display = shown is None
        self._card.display = self._share.display = self._alone.display = False
        if shown is None:
            trouble = self._follower.trouble
            waits = WAITS, where_words(self._folder)
            self._waiting.say(*((CANNOT, trouble) if trouble else waits))
            self._foot.show("", time_words(local_now(), None))
        else:
            self._show_class(shown)

    def _show_class(self, shown: FollowedDisplay) -> None:
        seen, room = shown.followed.seen, shown.followed.guide.room
        shown.show()
        if room.card:
            club = read_club(settings(self._folder))[0] or seen.club
            self._card.show(club.emergency, before=not seen.live.record.runs)
        elif room.sharing and seen.live.phase == "board":
            starts = start_lines(seen.live)
            self._share.restart(starts)
            self._share.display = bool(starts)
        if self._follower.alone:
            self._alone.say(alone_words(seen.live.phase))
            self._alone.display = True
        said = shown.followed.trouble or shown.trouble
        self._foot.show(said, time_words(seen.source.wall(), seen.live.record.ends))

    # -- keys ------------------------------------------------------------------------------

    def on_key(self, event: events.Key) -> None:
        event.stop()
        event.prevent_default()
        for sign in signs_of(event.key, event.character):
            self.press(sign)

    def press(self, sign: str) -> None:
        """Those that leave, and help; every other is the coach's."""
        if sign in ("<ctrl+q>", "<ctrl+c>"):
            self.dismiss(None)
        elif sign == "?" and self._keys.display:
            self._keys.turn()
        elif sign == "?":
            self._keys.show_these(FOLLOWING_KEYS)
        else:
            self._keys.offer(sign)
