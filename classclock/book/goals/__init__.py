"""What people work towards: as a coach writes it, as the book has it, as it stands today.

Comes in: a coach's words, the changes of all rooms. Goes out: changes, and goals as plain values.
May know the files, the tables and what reads old scores; the tables know `table.py` alone.
"""
