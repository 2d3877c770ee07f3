"""A long message gives way to the keys that matter, once it has been there long enough."""

import pytest

from classclock.screens.live.foot.status_content import StatusContent, set_rows

LONG = StatusContent(
    "No sound here: no loudspeaker answers. Plug one in or choose the TV as sound output, then "
    "run the sound check.",
    ("space holds", "? keys", "backspace takes it back"),
)


@pytest.mark.parametrize(("columns", "keys"), [(60, "space holds"), (119, "space holds    ? keys")])
def test_an_old_message_leaves_room_for_the_weightiest_keys(columns: int, keys: str) -> None:
    (said,), shown = set_rows(LONG, columns, short=True).said, set_rows(LONG, columns, short=True)
    assert shown.keys.startswith(keys)
    assert said.startswith("No sound here")
    assert said.endswith("…")
    assert len(said) + len(shown.keys) + len(shown.emergency) < columns


def test_a_new_message_is_whole() -> None:
    assert " ".join(set_rows(LONG, 119).said) == LONG.said
