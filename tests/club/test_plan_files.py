"""Which plan files there are."""

from pathlib import Path

from classclock.club.plan_files import plan_paths


def test_the_club_s_own_plans_come_before_the_samples_and_none_comes_twice(
    tmp_path: Path,
) -> None:
    own = tmp_path / "plans"
    own.mkdir()
    (own / "mine.toml").write_text('title = "Mine"')
    paths = plan_paths(tmp_path)
    assert paths[0].name == "mine.toml"
    assert len(paths) == len({path.resolve() for path in paths})
    assert "turntable.toml" in [path.name for path in paths]
