"""A figure with a trick and without it, in pairs: the median of the differences, and how sure."""

from math import isnan
from statistics import median

from msgspec import Struct, field
from scipy.stats import quantile_test


class Pairs(Struct):
    having: list[float] = field(default_factory=list)
    lacking: list[float] = field(default_factory=list)

    def add(self, having: float, lacking: float) -> None:
        self.having.append(having)
        self.lacking.append(lacking)

    @property
    def differences(self) -> list[float]:
        """What the figure is more without the trick."""
        return [lacks - has for has, lacks in zip(self.having, self.lacking, strict=True)]

    @property
    def gain(self) -> float:
        return median(self.differences)

    @property
    def interval(self) -> tuple[float, float] | None:
        """Where the true median of the differences lies, with 95 % confidence.

        By order statistics, whatever their shape; None of fewer than six pairs.
        """
        found = quantile_test(self.differences, q=0, p=0.5).confidence_interval(0.95)
        low, high = float(found.low), float(found.high)
        return None if isnan(low) or isnan(high) else (low, high)

    @property
    def ratio(self) -> float:
        """How many times the figure it is without the trick, in the middle pair."""
        every = zip(self.having, self.lacking, strict=True)
        return median(lacks / has if has else 1.0 for has, lacks in every)

    @property
    def verdict(self) -> str:
        if self.interval is None:
            return "too few pairs"
        low, high = self.interval
        return "pays" if low > 0 else "costs" if high < 0 else "wins nothing seen"

    def row(self) -> tuple[str, ...]:
        low, high = self.interval or (min(self.differences), max(self.differences))
        return (
            str(len(self.having)),
            f"{median(self.having):.4g}",
            f"{self.gain:+.3g}",
            f"{low:+.3g} to {high:+.3g}",
            f"{self.ratio:.3f}",
            self.verdict,
        )


HEADS = ("pairs", "with it", "without it", "95 % of it", "ratio", "")
