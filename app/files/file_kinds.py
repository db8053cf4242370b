"""Set-ups, parts lists and lessons as kinds of file: each told from the others and newer ones.

What a file holds is left to each kind; how it is opened, and what is refused before
it is saved, is the same for all.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any, Final, NamedTuple, TypeVar

from app.files.safe_files import (
    LARGEST,
    RefusalError,
    contents,
    file_errors,
    write_atomically,
)
from app.files.strict_json import brief, parsed, written
from app.words.language import msgid, tr

SUFFIX: Final = ".kneeline"
"""How the names of files with set-ups end, unless their user wants another."""
SUFFIXES: Final = (SUFFIX, ".json")
"""How they may end as well: what is inside is JSON, and was so named before."""
PICTURE_SUFFIX: Final = ".png"
"""How the names of pictures end that may carry a set-up."""
SETUP_FILTER: Final = msgid("Kneeline set-up (*.kneeline *.json);;All files (*)")
OPEN_FILTER: Final = msgid(
    "Set-ups, and pictures that carry one (*.kneeline *.json *.png);;All files (*)"
)
"""What a dialog shows when a set-up is to be saved, and when one is to be opened."""

SETTINGS: Final = frozenset({"theme", "limits", "recent"})
NUMBERS: Final = frozenset({"inputs", "body", "bend"})
"""Keys that stand together in no other file of ours."""

LARGEST_INDENTED: Final = 250_000
"""Bytes beyond which nobody reads a file, and the time that it takes to indent it is felt."""


class FileKind(NamedTuple):
    """One kind of file, and what is said of files that are not of it.

    Attributes:
        no_group: of JSON that is no group of values; a template with a place for it.
        no_schema: of a group that does not tell the number of its layout.
        others: of the other kinds of file of ours, and where each opens.
    """

    no_group: str
    no_schema: str
    others: Mapping[str, str]


SETUP_FILE: Final = FileKind(
    no_group=msgid("it holds {value}, not a set-up"),
    no_schema=msgid("it is not a set-up: it has no schema number"),
    others={
        "parts": msgid(
            "it is a parts list, not a set-up; open it on the page Parts, with Open… under List"
        ),
        "lesson": msgid("it is a lesson, not a set-up; open it on the page Lessons, with Open…"),
        "settings": msgid("it holds the program's settings, not a set-up"),
        "numbers": msgid("it holds results that were printed, not a set-up to open"),
    },
)
PARTS_FILE: Final = FileKind(
    no_group=msgid("it holds {value}, not a parts list"),
    no_schema=msgid("it is not a parts list: it has no schema number"),
    others={
        "setup": msgid("it is a set-up, not a parts list; open it with Open… in the menu File"),
        "lesson": msgid("it is a lesson, not a parts list; open it on the page Lessons"),
        "settings": msgid("it holds the program's settings, not a parts list"),
        "numbers": msgid("it holds results that were printed, not a parts list"),
    },
)
LESSON_FILE: Final = FileKind(
    no_group=msgid("it holds {value}, not a lesson"),
    no_schema=msgid("it is not a lesson: it has no schema number"),
    others={
        "setup": msgid("it is a set-up, not a lesson; open it with Open… in the menu File"),
        "parts": msgid("it is a parts list, not a lesson; open it on the page Parts"),
        "settings": msgid("it holds the program's settings, not a lesson"),
        "numbers": msgid("it holds results that were printed, not a lesson"),
    },
)


class OtherKindError(RefusalError):
    """A file of ours, but of another kind than is wanted.

    Attributes:
        kind: what it is: "setup", "parts", "lesson", "settings" or "numbers".
    """

    def __init__(self, sentence: str, kind: str) -> None:
        super().__init__(sentence)
        self.kind = kind


_Document = TypeVar("_Document")


def set_up_files(folder: Path, *, pictures: bool = False) -> list[Path]:
    """The files of a folder that may hold set-ups, by name; none where it cannot be read.

    Args:
        folder: the folder.
        pictures: whether those that may carry one count too.
    """
    suffixes = (*SUFFIXES, PICTURE_SUFFIX) if pictures else SUFFIXES
    try:
        found = [path for path in folder.iterdir() if path.suffix.lower() in suffixes]
    except (OSError, ValueError):
        return []
    return sorted(found, key=lambda path: path.name.casefold())


def read_from(path: Path, read: Callable[[bytes], _Document]) -> _Document:
    """The document in a file.

    Args:
        path: of the file.
        read: reads the document out of its bytes.

    Raises:
        FileError: the file cannot be read, or holds no sound document.
    """
    data = contents(path)
    with file_errors("open", path):
        return read(data)


def write_to(
    path: Path, whole: dict[str, Any], read: Callable[[bytes], object], *, read_only: bool
) -> None:
    """Write a document to a file, whole or not at all.

    Args:
        path: of the file.
        whole: what it is to hold.
        read: reads such a document out of its bytes.
        read_only: whether a newer version made it, so that saving could damage it.

    Raises:
        FileError: it is read-only, could not be opened again, or the disk
            refuses.  The old file, if any, is untouched.
    """
    with file_errors("save", path):
        data = bytes_that_open(whole, read, read_only=read_only)
    write_atomically(path, data)


def document_of(
    data: bytes, kind: FileKind, newest: int, made: Callable[[dict[str, Any], int], _Document]
) -> _Document:
    """The document that a file's bytes stand for.

    Args:
        data: the bytes.
        kind: what the file should be.
        newest: number of the newest layout that this version knows.
        made: makes the document of all that the file holds and the number of its layout.

    Raises:
        RefusalError: says what is wrong, where, and what it must be.
    """
    raw = parsed(data)
    if not isinstance(raw, dict):
        raise RefusalError(tr(kind.no_group, value=brief(raw)))
    other = _told_by_keys(raw)
    # Before its first missing key is complained of.
    if other in kind.others:
        raise OtherKindError(tr(kind.others[other]), other)
    schema = _schema_of(raw, kind)
    try:
        return made(raw, schema)
    except RefusalError as error:
        if schema <= newest:
            raise
        raise RefusalError(
            tr(
                "it was made by a newer version of Kneeline, and this one cannot read it: {reason}",
                reason=error,
            )
        ) from error


def bytes_that_open(
    whole: dict[str, Any],
    opened: Callable[[bytes], object],
    *,
    read_only: bool,
    largest: int = LARGEST,
) -> bytes:
    """What a document is as a file that opens again.

    Args:
        whole: what the file is to hold.
        opened: opens the bytes of such a file.
        read_only: whether a newer version made it, so that saving could damage it.
        largest: bytes beyond which such a file is not opened.

    Raises:
        RefusalError: it is read-only, or could not be opened again.
    """
    if read_only:
        raise RefusalError(tr("it was made by a newer version of Kneeline; save a copy instead"))
    data = written(whole, dense=True)
    if len(data) <= LARGEST_INDENTED:
        # Which can take many times as much.
        indented = written(whole)
        data = indented if len(indented) <= largest else data
    require_size(data, largest)
    # A document can contradict itself while it is edited; a file that says so is useless.
    opened(data)
    return data


def require_size(data: bytes, largest: int = LARGEST) -> None:
    """Refuse to write what would be refused when it is opened again.

    Raises:
        RefusalError: it is larger than ``largest`` bytes.
    """
    if len(data) > largest:
        raise RefusalError(
            tr(
                "it would be larger than {size} MB and could not be opened again; "
                "shorten its notes or lists",
                size=f"{largest / 1e6:g}",
            )
        )


def _told_by_keys(raw: dict[str, Any]) -> str:
    """What a file holds, by the keys that only that kind has; "" where they do not tell."""
    # A set-up's parts are a group; those of a parts list stand in a row.
    if "schema" in raw:
        if isinstance(raw.get("steps"), list) or "title" in raw:
            return "lesson"
        if isinstance(raw.get("parts"), list):
            return "parts" if "inputs" not in raw else ""
        return "setup" if "inputs" in raw else ""
    if raw.keys() >= SETTINGS:
        return "settings"
    return "numbers" if raw.keys() >= NUMBERS else ""


def _schema_of(raw: dict[str, Any], kind: FileKind) -> int:
    """The number of the layout in which a file is written."""
    if "schema" not in raw:
        raise RefusalError(tr(kind.no_schema))
    schema = raw["schema"]
    if isinstance(schema, bool) or not isinstance(schema, int) or schema < 1:
        raise RefusalError(
            tr("schema is {value}; it must be a whole number from 1 up", value=brief(schema))
        )
    return schema
