"""A widget of which only the ground is seen, between what stands on it."""

from textual.geometry import Region
from textual.strip import Strip
from textual.widget import Widget

from classclock.screens.canvas.cells import style
from classclock.screens.canvas.look import Look


class Ground(Widget):
    """Its rows are all alike: whatever is painted on it, they needn't be rendered one by one."""

    look: Look

    def render_lines(self, crop: Region) -> list[Strip]:
        if not self.look.terminal.shades:
            return super().render_lines(crop)  # by way of Textual's filters of colour
        ground = self.look.theme.ground
        return [Strip.blank(crop.width, style(ground, ground))] * crop.height
