"""What is asked of the book: who is known, their bests, what they lifted, the last weeks.

Comes in: a folder and a question. Goes out: plain values.
Knows the book's files and tables; SQLAlchemy only where the tables are asked.
"""
