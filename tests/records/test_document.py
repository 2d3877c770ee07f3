from classclock.records.document import COLUMNS, LaneResults

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
