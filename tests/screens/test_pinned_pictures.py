"""How a class looks is as it was: whoever changes that on purpose draws the pictures anew.

`python -m tests.screens.pin` does, and the change of looks is then seen in review.
"""

import pytest

from tests.screens.pinned_pictures import VIEWS, View, differences, draw, drawn_under, kept

ANEW = "if that is meant: python -m tests.screens.pin, and look at what git shows"


@pytest.mark.parametrize("view", VIEWS, ids=str)
def test_a_class_looks_as_pinned(view: View) -> None:
    pictures = draw(view)
    other = [line for name, seen in pictures.items() for line in differences(name, seen)]
    if not other:
        return
    pinned_under = {kept(name)[0] for name in pictures}
    if pinned_under != {drawn_under()}:
        pytest.skip(f"pinned under {'; '.join(pinned_under)}, and {drawn_under()} draws otherwise")
    pytest.fail("\n".join([*other, ANEW]), pytrace=False)
