"""Starts the program: what a command leads to stands in :mod:`app.start.running`."""

from __future__ import annotations

import sys
from collections.abc import Sequence

INTERRUPTED = 130
"""Exit code of what was interrupted."""


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command.

    Args:
        arguments: what follows the program's name; taken from the command line
            when None.

    Returns:
        The exit code: 0, 1 when some of several files have no results, or 2 when the
        command cannot be followed, which one line on standard error explains.
    """
    try:
        _be_a_helper()
        # Here, so that an interruption is met while the rest is still being loaded.
        from app.start.running import run  # noqa: PLC0415

        return run(sys.argv[1:] if arguments is None else arguments)
    except KeyboardInterrupt:
        return INTERRUPTED


def _be_a_helper() -> None:
    """Where the program is one file, its processes begin like itself: go on as such a one."""
    if getattr(sys, "frozen", False):
        from multiprocessing import freeze_support  # noqa: PLC0415

        freeze_support()


if __name__ == "__main__":
    sys.exit(main())
