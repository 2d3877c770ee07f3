"""The emergency card put into the text of `club.toml`; all else stays as it was written."""

from classclock.plan.settings.club import Emergency


def with_card(text: str, card: Emergency) -> str:
    """The settings' text with these lines under its `[emergency]`.

    Raises ValueError where the text isn't TOML.
    """
    import tomlkit  # noqa: PLC0415  only when a card is written

    settings = tomlkit.parse(text)
    settings.setdefault("emergency", tomlkit.table()).update(card.model_dump())
    return tomlkit.dumps(settings)
