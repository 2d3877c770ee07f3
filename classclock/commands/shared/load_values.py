"""Loads, and what makes them, as plain values for JSON."""

from typing import Any

from classclock.strength.bar_loading import Lighter, Loading
from classclock.units.loads import Load, shown


def loading_values(loading: Loading | None) -> dict[str, Any] | None:
    if loading is None:
        return None
    return {
        **load_values(loading.total),
        "bar": loading.bar.name,
        "side": [str(plate) for plate in loading.plates],
        "collar": str(loading.collar) if loading.collar is not None else None,
    }


def lighter_values(lighter: Lighter | None) -> dict[str, Any] | None:
    if lighter is None:
        return None
    loads = {
        "kettlebell": lighter.kettlebell,
        "dumbbell": lighter.dumbbell,
        "two_dumbbells": lighter.two_dumbbells,
    }
    named = {name: str(load) if load is not None else None for name, load in loads.items()}
    return {"bar": lighter.bar.name if lighter.bar is not None else None, **named}


def load_values(load: Load) -> dict[str, Any]:
    return {"load": shown(load), "kg": float(load.kg)}
