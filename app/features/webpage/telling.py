"""What the page tells of the user's own only if it is asked for; it stays at home else."""

from __future__ import annotations

from typing import Final

NAME, NOTES, TRIALS = "name", "notes", "trials"
OF_THE_USER: Final = (NAME, NOTES, TRIALS)
