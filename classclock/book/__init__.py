"""What is kept on disk: the journal of a class and its results files."""
