"""What a file has besides its bytes: owner, group, permissions, attributes, other names."""

from __future__ import annotations

import os
import stat
import sys
from contextlib import suppress
from pathlib import Path
from typing import Final

OWNERS_ONLY: Final = 0o600
EVERYBODYS: Final = 0o666
"""Permissions of a new file, from which the user's mask takes away."""

_ACCESS_LIST: Final = "system.posix_acl_access"
_RIGHTS_OF_A_PROGRAM: Final = "security.capability"


def give_marks(part: Path, old: Path) -> None:
    """Make a file that only its owner may read like the one it is to replace.

    Whatever the system refuses is left out, and never makes the new file wider than the
    old one: a group that cannot be given may do what all others may.
    """
    try:
        like = old.stat()
    except FileNotFoundError:  # it has just gone
        return
    mode = stat.S_IMODE(like.st_mode) & 0o777
    if sys.platform != "win32":
        if _own(part, like):
            _copy_attributes(part, old)
        else:
            mode &= 0o707 | (mode & 0o7) << 3
    with suppress(OSError):
        part.chmod(mode)


def other_names(path: Path) -> tuple[list[Path], int]:
    """The hard links to a file that stand in its folder, and how many stand elsewhere."""
    like = path.stat()
    if like.st_nlink < 2:
        return [], 0
    found = []
    with suppress(OSError), os.scandir(path.parent) as entries:
        for entry in entries:
            named = entry.name != path.name and entry.is_file(follow_symlinks=False)
            if named and os.path.samestat(entry.stat(), like):
                found.append(Path(entry.path))
    return found, like.st_nlink - 1 - len(found)


def _own(part: Path, like: os.stat_result) -> bool:
    """Give a file owner and group where allowed; whether it has the group."""
    if sys.platform == "win32":
        return True
    mine = part.stat()
    if mine.st_gid != like.st_gid:
        with suppress(OSError):
            os.chown(part, -1, like.st_gid)
    if mine.st_uid != like.st_uid:
        with suppress(OSError):
            os.chown(part, like.st_uid, -1)
    return part.stat().st_gid == like.st_gid


def _copy_attributes(part: Path, old: Path) -> None:
    """Give a file the access list and the extended attributes of another, and no others."""
    if sys.platform != "linux":  # elsewhere Python cannot ask for them
        return
    names = []
    with suppress(OSError):
        names = [each for each in os.listxattr(old) if each != _RIGHTS_OF_A_PROGRAM]
    if _ACCESS_LIST not in names:
        # The folder may have given one, which would let more people in.
        with suppress(OSError):
            os.removexattr(part, _ACCESS_LIST)
    for name in names:
        with suppress(OSError):
            os.setxattr(part, name, os.getxattr(old, name))
