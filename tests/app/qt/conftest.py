"""Controls on a screen of the mind, for the tests of this room."""

from panels import _dressed, changes, panel, row, session, steps

__all__ = ["_dressed", "changes", "panel", "row", "session", "steps"]
