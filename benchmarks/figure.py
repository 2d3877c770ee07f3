"""One line of the table: a figure, the floor measured beside it, and what is wanted."""

from msgspec import Struct


class Figure(Struct, frozen=True):
    name: str
    value: float
    unit: str
    floor: float | None = None
    most_times: float | None = None
    """How many times the floor it may be."""
    most: float | None = None
    """What it may be in itself."""

    @property
    def ratio(self) -> float | None:
        return self.value / self.floor if self.floor else None

    @property
    def met(self) -> bool:
        within = self.ratio is None or self.most_times is None or self.ratio <= self.most_times
        return within and (self.most is None or self.value <= self.most)

    def row(self) -> tuple[str, ...]:
        wanted = [
            f"<= {self.most_times:g} x" if self.most_times is not None else "",
            f"<= {self.most:g} {self.unit}" if self.most is not None else "",
        ]
        return (
            self.name,
            f"{self.value:.4g} {self.unit}",
            f"{self.floor:.4g} {self.unit}" if self.floor is not None else "",
            f"{self.ratio:.2f} x" if self.ratio is not None else "",
            ", ".join(filter(None, wanted)),
            "" if not any(wanted) else "met" if self.met else "NOT MET",
        )


HEADS = ("figure", "measured", "floor", "ratio", "wanted", "")
