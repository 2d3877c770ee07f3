"""What is kept of every class: the truth in files, and tables made from them.

Comes in: records of classes, imports, changes. Goes out: answers and files.
May know club and what lies under it.
"""
