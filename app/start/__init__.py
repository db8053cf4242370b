"""The ways in: command line, environment, display."""

from typing import Final

FROM_MENU: Final = "KNEELINE_FROM_MENU"
"""Environment variable that the menu entry sets: nobody sees standard error then."""
