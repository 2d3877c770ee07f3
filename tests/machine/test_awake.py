"""The machine's screen kept on: where that can't be, it is said once."""

from typing import Never

import pytest
import wakepy

from classclock.machine.awake import Awake


def test_a_screen_that_can_t_be_kept_on_is_said_once(monkeypatch: pytest.MonkeyPatch) -> None:
    def refused(*, on_fail: str) -> Never:
        raise RuntimeError(on_fail)

    monkeypatch.setattr(wakepy.keep, "presenting", refused)
    awake = Awake()
    assert awake.poll() == ""
    awake._keep()
    assert awake.poll() == "keep the screen on: it may go dark"
    assert awake.poll() == ""
