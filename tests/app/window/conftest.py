"""Whole programs, and the controls of a window, for the tests of this room."""

from panels import _dressed, changes, panel, row, session, steps
from programs import anna, choose, program, started

__all__ = [
    "_dressed",
    "anna",
    "changes",
    "choose",
    "panel",
    "program",
    "row",
    "session",
    "started",
    "steps",
]
