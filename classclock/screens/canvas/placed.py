"""A widget whose children stand where it says, and are hidden where it doesn't."""

from collections.abc import Iterable

from textual.geometry import NULL_OFFSET, NULL_SPACING, Region, Size
from textual.layout import Layout, WidgetPlacement
from textual.widget import Widget


class Placed(Widget):
    def places(self, columns: int, rows: int) -> Iterable[tuple[Widget, Region]]:
        """Where each child stands within a box of this size; who isn't named isn't shown."""
        raise NotImplementedError

    @property
    def layout(self) -> Layout:
        return _AsPlaced()


class _AsPlaced(Layout):
    name = "placed"

    def arrange(
        self,
        parent: Widget,
        children: list[Widget],  # noqa: ARG002  Textual's signature
        size: Size,
        greedy: bool = True,  # noqa: ARG002, FBT001, FBT002
    ) -> list[WidgetPlacement]:
        if not isinstance(parent, Placed):
            raise TypeError("only a Placed widget knows where its children stand")
        return [
            WidgetPlacement(region, NULL_OFFSET, NULL_SPACING, child)
            for child, region in parent.places(size.width, size.height)
        ]
