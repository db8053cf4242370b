"""Kneeline, the program: a window and a command line over :mod:`geometry`."""
