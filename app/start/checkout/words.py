"""What the person who waits is told, and what commands said put into words."""

from __future__ import annotations

import os
import re
import sys
from contextlib import suppress

from app.start import FROM_MENU

NETWORK_SIGNS = (
    "NewConnectionError",
    "NameResolutionError",
    "ConnectTimeoutError",
    "ReadTimeoutError",
    "Read timed out",
    "ProxyError",
    "SSLError",
    "ConnectionResetError",
    "Temporary failure resolving",
)
"""What pip or apt-get print when they cannot reach their packages."""

FULL_DISK_SIGN = "No space left on device"


class SetUpError(Exception):
    """The environment cannot be made ready; the text says why and what to do."""


def in_words(error: OSError) -> str:
    """What the system refused."""
    return f"{error.filename}: {error.strerror}" if error.filename else str(error)


def say(text: str) -> None:
    """Tell the person who waits, at the terminal or, started from the menu, on the desktop."""
    print(f"kneeline: {text}", file=sys.stderr, flush=True)
    if FROM_MENU in os.environ:
        import subprocess  # noqa: PLC0415

        with suppress(OSError):
            subprocess.run(["notify-send", "Kneeline", text], check=False)


def why_not_installed(output: str) -> str:
    """One sentence on why pip or apt-get failed, from what they printed."""
    if any(sign in output for sign in NETWORK_SIGNS):
        return "the packages cannot be reached: look at the network or the proxy and start again"
    return f"the packages cannot be installed: {last_complaint(output)}"


def last_complaint(output: str) -> str:
    """The last line that names an error; failing that the last line."""
    lines = [line.strip() for line in output.splitlines() if line.strip()]
    complaints = [line for line in lines if re.match(r"(ERROR|E|\w*Error): ", line)]
    return next(reversed(complaints or lines), "no reason was given")
