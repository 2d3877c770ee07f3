"""The count: lanes, events, the sheet folded from them, scores and ranks, the key language."""
