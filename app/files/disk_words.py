"""What a disk answers, in the user's own language: the system knows its own only."""

from __future__ import annotations

import errno
from typing import Final

from app.words.language import msgid, tr

_WORDS: Final = {
    "EACCES": msgid("you may not write there"),
    "EBUSY": msgid("something else is using it"),
    "EDQUOT": msgid("your share of the disk is used up"),
    "EFBIG": msgid("the disk takes no file so large"),
    "EIO": msgid("the disk answers with errors: keep copies of what is on it elsewhere"),
    "EISDIR": msgid("it is a folder"),
    "ELOOP": msgid("its links lead round in a circle"),
    "EMFILE": msgid("too many files are open"),
    "ENAMETOOLONG": msgid("its name is too long for the disk"),
    "ENFILE": msgid("too many files are open"),
    "ENODEV": msgid("the disk is no longer there"),
    "ENOENT": msgid("there is no such folder"),
    "ENOSPC": msgid("the disk is full"),
    "ENOTCONN": msgid("the disk is no longer there"),
    "ENOTDIR": msgid("a part of its path is a file, not a folder"),
    "ENXIO": msgid("the disk is no longer there"),
    "EPERM": msgid("you may not write there"),
    "EROFS": msgid("the disk can only be read, not written"),
    "ESTALE": msgid("the disk is no longer there"),
}
"""By the system's names of what went wrong, where something is written."""
_NUMBERED: Final = {
    getattr(errno, name): words for name, words in _WORDS.items() if hasattr(errno, name)
}


def disk_words(error: OSError) -> str:
    """What went wrong with a disk, as the second half of a sentence.

    What has no words here keeps the system's, in brackets.
    """
    known = _NUMBERED.get(error.errno or 0)
    if known is not None:
        return tr(known)
    if not error.strerror:
        return str(error)
    return tr("the system refuses it ({words})", words=error.strerror)
