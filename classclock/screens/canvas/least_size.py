"""The smallest window that everything is laid out for."""

LEAST_COLUMNS, LEAST_ROWS = 60, 18
