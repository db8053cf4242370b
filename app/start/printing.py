"""What is told on standard output and standard error."""

from __future__ import annotations

import io
import os
import sys

from app.start.mistakes import CommandError


def printed(text: str) -> bool:
    """Print a text in UTF-8, which JSON is in on every system.

    Returns:
        Whether somebody reads on.  A reader that has gone away has read enough, so that
        is not an error.

    Raises:
        CommandError: the text cannot be written.
    """
    if isinstance(sys.stdout, io.TextIOWrapper):
        sys.stdout.reconfigure(encoding="utf-8")
    try:
        print(text, end="", flush=True)
    except OSError as error:
        # What is left unwritten would be tried again, and complained of, at exit.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        if not isinstance(error, BrokenPipeError):
            raise CommandError(f"cannot print: {error.strerror}") from error
        return False
    return True


def remark(text: str) -> None:
    """Tell something beside the results."""
    print(f"kneeline: {text}", file=sys.stderr)


def say_how_far(done: float) -> None:
    """Tell those who wait at a terminal how far a search is, on a line that goes again."""
    passing(f"searching, {100.0 * done:.0f} %" if done < 1.0 else "")


def passing(words: str) -> None:
    """Tell those who wait at a terminal something on a line that goes again; "" lets it go."""
    if sys.stderr.isatty():
        said = f"kneeline: {words}" if words else ""
        print(f"\r{said:<40}", end="" if words else "\r", file=sys.stderr, flush=True)
