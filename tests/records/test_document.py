from classclock.records.document import (
    COLUMNS,
    VERSION,
    AttemptMade,
    LaneResults,
    PersonInClass,
    PieceResults,
    ResultsDocument,
)

# What other programs read: the twelve stay as they are, in this order; new ones come after them.
THE_COLUMNS = (
    "rank",
    "athlete",
    "score",
    "rounds",
    "reps",
    "total_reps",
    "time_s",
    "load_kg",
    "modification",
    "status",
    "best_before",
    "note",
)


def test_the_columns_of_the_results_stand_in_their_order() -> None:
    assert COLUMNS == THE_COLUMNS


def test_a_lane_of_the_document_has_them_first() -> None:
    assert LaneResults.__struct_fields__[: len(COLUMNS)] == COLUMNS


def test_a_field_that_comes_raises_the_version() -> None:
    """An older classclock that wrote the file anew, to erase somebody, would lose it."""
    parts = (ResultsDocument, PersonInClass, PieceResults, LaneResults, AttemptMade)
    assert (VERSION, [len(part.__struct_fields__) for part in parts]) == (5, [6, 7, 11, 28, 4])
