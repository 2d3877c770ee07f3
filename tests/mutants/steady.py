"""A pytest plugin: hypothesis tries the same for every mutant, and reports the first failure.

A busy machine must not seem to kill a mutant, so nothing has to be done within a time.
"""

from hypothesis import Phase, settings

settings.register_profile(
    "mutants",
    derandomize=True,
    database=None,
    deadline=None,
    phases=[Phase.explicit, Phase.generate],
)


def pytest_pycollect_makemodule() -> None:
    """Before each module of tests is read: a room's conftest may have loaded another profile."""
    settings.load_profile("mutants")
