"""A mistake on the command line."""

from __future__ import annotations


class CommandError(Exception):
    """A command that cannot be followed, said in one sentence to the user."""
