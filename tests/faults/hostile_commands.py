"""Every command line, with hostile text in all that it is asked and in all that it reads."""

from collections.abc import Iterator
from pathlib import Path

from classclock.units.csv_cells import csv_bytes
from tests.faults.hostile_club import HostileClub

CommandLine = tuple[str, ...]
JSON: tuple[CommandLine, ...] = ((), ("--json",))


def command_lines(club: HostileClub, out: Path) -> Iterator[CommandLine]:
    """`out` is a folder to be made, for what is read and written beside the club's own."""
    out.mkdir()
    yield from of_a_plan(club, out)
    yield from of_what_was_done(club, out)
    yield from of_the_book(club, out)
    yield from asked_wrongly(club.hostile)
    yield ("book", "merge", club.names[0], club.names[1])
    yield ("book", "erase", club.names[0], "--yes")
    yield from of_what_is_faulty(club)


def of_a_plan(club: HostileClub, out: Path) -> Iterator[CommandLine]:
    plan, names = str(club.plan), ", ".join(club.names)
    taps = out / f"taps{club.hostile[-1]}.csv"
    taps.write_text(f"seconds,keys\n1,i\n2,{club.hostile}\n", "utf-8", newline="")
    rehearse = ("rehearse", plan, "--athletes", names, "--taps", str(taps))
    for more in (*JSON, ("--segment", f"<Turntable{club.hostile}>"), ("--segment", club.hostile)):
        yield (*rehearse, *more)
    for more in JSON:
        yield ("check", plan, "--athletes", names, *more)
    yield ("run", plan, "--athletes", names)
    yield ("run", plan, "--athletes", f"{names},{names}")
    yield ("schema",)
    yield ("demo",)


def of_what_was_done(club: HostileClub, out: Path) -> Iterator[CommandLine]:
    ilse = club.names[0]
    journal = str(min((club.folder / "journals").glob("*.jsonl")))
    for more in JSON:
        yield ("replay", journal, *more)
        yield ("athlete", ilse, *more)
        yield ("effort", ilse, "7", *more)
        yield ("effort", ilse, *more)
        yield ("goal", ilse, f"<Turntable{club.hostile}>", "14", *more)
        yield ("goal", ilse, *more)
        yield ("load", ilse, *more)
        yield ("bar", "82.5", "--bar", f"<Long bar{club.hostile}>", *more)
        for command in ("results", "report", "chart", "weeks", "notes", "month", "away"):
            yield (command, *more)
        yield ("notes", journal, *more)
        yield ("report", "--notes", *more)
    yield ("report", "--html", str(out / "report.html"), "--notes")
    yield ("notes", journal, "--html", str(out / "notes.html"))
    yield ("chart", "--html", str(out / "chart.html"), "--csv", str(out / "chart.csv"))
    yield ("athlete", ilse, "--html", str(out / "athlete.html"))
    yield ("athlete", ilse, "--folder", str(out / "ilse"))
    yield ("month", "2026-11", "--html", str(out / "month.html"))
    yield ("month", "2026-11", "--with", ilse)
    yield ("resume",)
    yield ("wall",)


def of_the_book(club: HostileClub, out: Path) -> Iterator[CommandLine]:
    hostile, (ilse, bram, noor) = club.hostile, club.names
    sheet, fresh = out / "old.csv", out / "fresh.csv"
    near = out / "near.csv"
    columns = ("name", "benchmark", "score", "date")
    sheet.write_bytes(csv_bytes(columns, [(ilse, hostile, hostile, hostile)]))
    near.write_bytes(
        csv_bytes(
            (*columns, hostile),
            [(f"{noor}x", f"Turntable{hostile}", "723", "01/02/2026", hostile)],
        )
    )
    fresh.write_bytes(csv_bytes(columns, [("Odell", "Turntable", "9+1", "2026-02-01")]))
    for more in JSON:
        yield ("book", "import", str(sheet), *more)
        yield ("book", "import", str(fresh), *more)
        yield ("book", "import", str(near), "--dry-run", *more)
        yield ("book", "mark", bram, "newcomer", *more)
        yield ("book", "rename", noor, f"Noor {hostile}{len(more)}", *more)
        yield ("book", "merge", *more)
        yield ("book", "name", "1", f"Uri {hostile}{len(more)}", *more)
        yield ("book", "changes", *more)
        yield ("book", "undo", *more)
        yield ("book", "export", str(out / f"all{len(more)}"), *more)
        yield ("book", "rebuild", *more)
        yield ("book", "erase", ilse, *more)


def asked_wrongly(hostile: str) -> Iterator[CommandLine]:
    """Nothing is called so."""
    reading = ("replay", "report", "notes", "resume", "athlete")
    for command in (*reading, "check", "run", "new", "edit", "bar"):
        yield (command, hostile)
    yield ("book", "name", hostile, hostile, "--results", hostile)
    yield (hostile,)
    yield ("rehearse", "turntable", "--athletes", "Bo", "--taps", hostile)
    yield ("chart", "--sort", hostile)
    yield ("chart", "--here", hostile)
    yield ("chart", "--benchmarks", hostile)
    yield ("athlete", hostile, "--benchmark", hostile)
    yield ("athlete", hostile, "--folder", hostile)
    yield ("effort", hostile, "7")
    yield ("goal", hostile)
    yield ("goal", "Ilse", hostile, hostile, "--by", hostile)
    yield ("effort", "Ilse", "--day", hostile)
    yield ("away", "--weeks", hostile)
    yield ("month", hostile)
    yield ("month", "--with", hostile)
    yield ("load", hostile, "--lift", hostile)
    yield ("load", "80", "--percent", hostile)
    yield ("bar", "80", "--bar", hostile)
    yield ("demo", "--speed", hostile)
    yield ("demo", "--seed", hostile)
    yield ("book", hostile)
    yield ("book", "import", hostile)
    yield ("book", "import", "old.csv", "--columns", f"{hostile}=name", "--answer", hostile)
    yield ("book", "undo", hostile)
    yield ("book", "mark", hostile, hostile)
    yield ("book", "rename", hostile, hostile)
    yield ("book", "merge", hostile, hostile)
    yield ("book", "export", f"/dev/null/{hostile}")


def of_what_is_faulty(club: HostileClub) -> Iterator[CommandLine]:
    """A plan, settings and results that can't be read are quoted in what is said of them."""
    hostile, plan = club.hostile, club.plan
    (club.folder / "results" / f"2026-12-01-{hostile[-1]}.json").write_text("{", "utf-8")
    good = plan.read_text("utf-8")
    plan.write_text(f'{good}\n"{hostile}" = 1\n[[segment]]\n', "utf-8")
    for more in JSON:
        yield ("check", str(plan), *more)
    for command in ("report", "results", "chart", "weeks"):
        yield (command,)
    settings = club.folder / "club.toml"
    settings.write_text(f'name = "{hostile}"\n"x{hostile}" = 2\n', "utf-8")
    yield ("chart",)
