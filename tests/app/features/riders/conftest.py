"""Whole programs, for the tests of this room."""

from programs import anna, choose, program, started

__all__ = ["anna", "choose", "program", "started"]
