"""Where the program keeps what belongs to the user: settings, and work not yet saved."""

from __future__ import annotations

import os
import sys
from pathlib import Path
from typing import Final

NAME: Final = "kneeline"

_ELSEWHERE: Final = {
    ("win32", "config"): ("APPDATA", "AppData/Roaming"),
    ("win32", "state"): ("LOCALAPPDATA", "AppData/Local"),
    ("darwin", "config"): ("", "Library/Preferences"),
    ("darwin", "state"): ("", "Library/Application Support"),
}
_USUAL: Final = {"config": ".config", "state": ".local/state"}


def settings_file() -> Path:
    """The file that holds the settings; it need not exist."""
    return _folder("config") / "settings.json"


def recovery_folder() -> Path:
    """The folder for work not yet saved; it need not exist."""
    return _folder("state") / "recovery"


def users_folder() -> Path:
    """Where people keep what they write: their folder of documents where there is one."""
    documents = _home() / "Documents"
    return documents if documents.is_dir() else _home()


def _home() -> Path:
    """The user's own folder; for a user whom the system does not know the root, as elsewhere.

    What cannot be written there is told with that place.
    """
    try:
        return Path.home()
    except RuntimeError:
        return Path(os.path.abspath(os.sep))


def _folder(kind: str) -> Path:
    """The program's own folder for one kind of thing.

    The variables of the XDG base directory specification count on every system;
    as it says, a path there that does not start at the root is ignored.
    """
    given = os.environ.get(f"XDG_{kind.upper()}_HOME", "")
    if os.path.isabs(given):
        return Path(given) / NAME
    variable, inside_home = _ELSEWHERE.get((sys.platform, kind), ("", _USUAL[kind]))
    base = os.environ.get(variable, "") if variable else ""
    return (Path(base) if os.path.isabs(base) else _home() / inside_home) / NAME
