"""Measuring: where to put the tape, and repeats."""
