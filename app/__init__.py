"""Kneeline, the program: a window and a command line over :mod:`geometry`."""

from typing import Final

__version__: Final = "0.1.0"
