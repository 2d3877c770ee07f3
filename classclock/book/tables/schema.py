"""The book's tables. All that is in them can be had again from results files and changes.

`person` is whom a class recorded, `athlete` who that is after merges: both as `ROOM/ID`, since
rooms share a book and not their people. `moment` is milliseconds since 1970, `day` as in
2026-11-24.
"""

from sqlalchemy import (
    BigInteger,
    Boolean,
    Column,
    Index,
    Integer,
    MetaData,
    PrimaryKeyConstraint,
    String,
    Table,
    Text,
)

VERSION = 11
"""Raised when a table changes: an older book is kept beside, and filled anew from the files."""

metadata = MetaData()

files = Table(
    "files",
    metadata,
    Column("room", String, primary_key=True),
    Column("name", String, primary_key=True),
    Column("class_key", String, nullable=False),
    Column("size", BigInteger, nullable=False),
    Column("changed", BigInteger, nullable=False),  # nanoseconds, as the file system has them
    Index("files_class", "class_key"),
)

rooms = Table(
    "rooms",
    metadata,
    Column("room", String, primary_key=True),
    Column("folder_changed", BigInteger, nullable=False),  # 0: look at every file
    Column("changes_digest", String, nullable=False),
    Column("reads", Integer, nullable=False),  # the version of results files that could be read
    Column("called", Text, nullable=False),  # its folder's name
)

changes = Table(
    "changes",
    metadata,
    Column("room", String, primary_key=True),
    Column("n", Integer, primary_key=True),
    Column("kind", String, nullable=False),  # `change` of the line
    Column("line", Text, nullable=False),
)

classes = Table(
    "classes",
    metadata,
    Column("class_key", String, primary_key=True),
    Column("title", Text, nullable=False),
    Column("started", String, nullable=False),
    Column("day", String, nullable=False),
    Column("moment", BigInteger, nullable=False),
    Column("visitors", Integer, nullable=False),  # who came without a name
)

seen = Table(
    "seen",
    metadata,
    Column("class_key", String, nullable=False),
    Column("person", String, nullable=False),
    Column("athlete", String, nullable=False),
    Column("name", Text, nullable=False),
    Column("key", String, nullable=False),
    Column("came", Boolean, nullable=False),  # to a class; false where a record was imported
    Column("day", String, nullable=False),
    Column("moment", BigInteger, nullable=False),
    Column("effort", Integer),  # how hard it was, 0 to 10, as the class has it
    Column("here_s", Integer),  # how long the class lasted for them
    PrimaryKeyConstraint("class_key", "person"),
    Index("seen_athlete", "athlete", "came", "moment", "day"),
)

efforts_given = Table(
    "efforts_given",
    metadata,
    Column("class_key", String, primary_key=True),
    Column("person", String, primary_key=True),
    Column("effort", Integer),  # null: it isn't kept any more
)
"""How hard a class was, as it was said after it: that counts, whatever the class has."""

results = Table(
    "results",
    metadata,
    Column("class_key", String, nullable=False),
    Column("piece", Integer, nullable=False),
    Column("lane", Integer, nullable=False),
    Column("person", String, nullable=False),
    Column("athlete", String, nullable=False),
    Column("name", Text, nullable=False),  # the piece's
    Column("called", Text, nullable=False),  # what its options are remembered by
    Column("benchmark", Text, nullable=False),
    Column("written", Text, nullable=False),  # the benchmark with its capitals
    Column("day", String, nullable=False),
    Column("moment", BigInteger, nullable=False),
    Column("score", String, nullable=False),
    Column("kind", String, nullable=False),
    Column("worth", BigInteger),
    Column("total_reps", Integer),
    Column("modification", Text, nullable=False),
    Column("loads", Text, nullable=False),
    Column("work", String, nullable=False),
    Column("team", Integer, nullable=False),
    Column("terms", Text, nullable=False),  # these four as they are compared
    Column("counts", Boolean, nullable=False),
    Column("why_not", String, nullable=False),
    Column("rank", Integer),
    Column("status", String, nullable=False),
    Column("note", Text, nullable=False),
    Column("options", Text, nullable=False),  # these four are JSON lists
    Column("own_options", Text, nullable=False),  # what is remembered: equipment was not short
    Column("splits", Text, nullable=False),
    Column("round_reps", Text, nullable=False),
    Column("start_station", Integer, nullable=False),
    PrimaryKeyConstraint("class_key", "piece", "lane", "person"),
    Index("results_athlete", "athlete", "benchmark", "moment"),
)

lifts = Table(
    "lifts",
    metadata,
    Column("class_key", String, nullable=False),
    Column("piece", Integer, nullable=False),
    Column("lane", Integer, nullable=False),
    Column("person", String, nullable=False),
    Column("number", Integer, nullable=False),
    Column("athlete", String, nullable=False),
    Column("lift", Text, nullable=False),
    Column("reps", Integer),
    Column("load", String, nullable=False),
    Column("worth", BigInteger, nullable=False),
    Column("made", Boolean, nullable=False),
    Column("settled", Boolean, nullable=False),
    Column("counts", Boolean, nullable=False),  # for loads to come: made alone, as written
    Column("written", Text, nullable=False),  # the lift as the plan has it
    Column("day", String, nullable=False),
    Column("moment", BigInteger, nullable=False),
    PrimaryKeyConstraint("class_key", "piece", "lane", "person", "number"),
    # All that says which are the heaviest, so that years of lifting are not read for a few rows.
    Index(
        "lifts_heaviest",
        *("athlete", "lift", "reps", "worth", "made", "settled", "counts"),
    ),
)

athletes = Table(
    "athletes",
    metadata,
    Column("athlete", String, primary_key=True),
    Column("name", Text, nullable=False),
    Column("key", String, nullable=False),
    Column("marks", Text, nullable=False),  # a JSON list
    Column("classes", Integer, nullable=False),
    Column("first_day", String, nullable=False),  # empty where nobody came to a class yet
    Column("last_day", String, nullable=False),
)

bests = Table(
    "bests",
    metadata,
    Column("athlete", String, nullable=False),
    Column("benchmark", Text, nullable=False),
    Column("modification", Text, nullable=False),
    Column("loads", Text, nullable=False),
    Column("work", String, nullable=False),
    Column("team", Integer, nullable=False),
    Column("terms", Text, nullable=False),
    Column("name", Text, nullable=False),
    Column("written", Text, nullable=False),
    Column("score", String, nullable=False),
    Column("kind", String, nullable=False),
    Column("worth", BigInteger, nullable=False),
    Column("total_reps", Integer),
    Column("day", String, nullable=False),
    Column("moment", BigInteger, nullable=False),
    Column("times", Integer, nullable=False),
    Column("last_moment", BigInteger, nullable=False),  # when these terms were last used
    PrimaryKeyConstraint("athlete", "benchmark", "terms"),
)

set_bests = Table(
    "set_bests",
    metadata,
    Column("athlete", String, nullable=False),
    Column("benchmark", Text, nullable=False),
    Column("modification", Text, nullable=False),
    Column("loads", Text, nullable=False),
    Column("team", Integer, nullable=False),
    Column("reps", Integer, nullable=False),
    Column("name", Text, nullable=False),
    Column("written", Text, nullable=False),
    Column("load", String, nullable=False),
    Column("worth", BigInteger, nullable=False),
    Column("day", String, nullable=False),
    Column("moment", BigInteger, nullable=False),
    PrimaryKeyConstraint("athlete", "benchmark", "modification", "loads", "team", "reps"),
)
"""The heaviest that stands of each number of reps, of whatever set it was."""

goals = Table(
    "goals",
    metadata,
    Column("athlete", String, nullable=False),
    Column("benchmark", Text, nullable=False),
    Column("since", String, nullable=False),  # the day on which it was set
    Column("person", String, nullable=False),
    Column("written", Text, nullable=False),
    Column("score", String, nullable=False),
    Column("kind", String, nullable=False),
    Column("worth", BigInteger, nullable=False),
    Column("by", String, nullable=False),  # the day by which it is wanted; empty: none was said
    Column("until", String, nullable=False),  # the day on which it ended; empty: it stands
    Column("modification", Text, nullable=False),
    Column("loads", Text, nullable=False),
    Column("work", String, nullable=False),
    PrimaryKeyConstraint("athlete", "benchmark", "since"),
)
"""What people work towards, and did: all of it is in the changes."""

half_in = Table(
    "half_in",
    metadata,
    Column("room", String, primary_key=True),
    Column("n", Integer, primary_key=True),  # of the import
    Column("people", Integer, nullable=False),  # of how many it is in; -1: what is in has to go
)
"""Imports too large for one batch, on their way into the tables or out of them."""

to_derive = Table(
    "to_derive",
    metadata,
    Column("athlete", String, primary_key=True),  # whose row and bests are to be worked out anew
)

RECORDED = (classes, seen, results, lifts)
"""What classes and imports put in, row by row, under their class key."""
PERSONAL = (seen, results, lifts)
"""Those of them that hold an athlete."""
