"""The handbook's pages that are made from the program, so that they can't say anything else."""
