"""What holds in every class, whatever is done in it: when to stop, whom to ask, what to do after.

Common practice, no source: written from general knowledge of the trade. It diagnoses nothing and
clears nobody; local rules, medical advice and licensed practice come first. The lines are read in
large type by people who work hard: few words, and what to do.
"""

STOP = "Dizzy, chest pain, sharp pain: stop and call the coach."
"""The first caution of every scored piece; `[care]` in `club.toml` words it otherwise."""

STILL_HURTS = "Still hurts: stop, and have it seen."
"""What every movement says last that has something easier to offer for a pain."""

BEFORE_A_CLASS = (
    "Ill or feverish today: rest, no class.",
    "Hot: more water, more breaks, less work.",
    "First weeks, or back after weeks: less, never all out.",
    "Heart, blood pressure, pregnant, an injury: ask first.",
)
"""What the coach reads out, or thinks of, while people arrive."""

AFTER_A_CLASS = (
    "Chest pain, fainting, dark urine after very hard work: an emergency, get help at once.",
    "Pain, dizziness, illness: rest, and ask your doctor or therapist before the next hard piece.",
)
"""What a class's report ends with, for whoever reads it at home."""
