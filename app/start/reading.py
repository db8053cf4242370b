"""The set-ups that a command names: read, changed as it says, and seen to be solvable."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path
from typing import Final, NamedTuple

from app.files.file_kinds import OtherKindError, set_up_files
from app.files.parts_file import parts_opened
from app.files.safe_files import LARGEST, FileError, RefusalError, file_errors, shown
from app.files.storage import Document, document_in, newer_notice, older_notice, opened
from app.rider.inputs import FIELD, model
from app.rider.parts import Parts
from app.rider.setup import DEMO, KNOWN_FIELDS, Setup, edited, estimated, kept_as_measured
from app.start.mistakes import CommandError
from app.words.language import tr

STDIN: Final = Path("-")
"""Stands for what is read from standard input."""
_SPOKEN: Final = Path("standard input")

KNOWN_NAMES: Final = {"figures", *(field.name for field in KNOWN_FIELDS)}


class Source(NamedTuple):
    """Where one set-up comes from.

    Attributes:
        path: its file, or :data:`STDIN`; None for the demo rider.
        data: what standard input held; None for a file that is still to be read.
        found: whether it was found in a folder, not named.
    """

    path: Path | None
    data: bytes | None = None
    found: bool = False

    @property
    def file(self) -> str | None:
        """What it is called where results are told; None for the demo rider."""
        return None if self.path is None else str(self.path)

    @property
    def name(self) -> Path:
        """What it is called in a message."""
        return self.path if self.path and self.path != STDIN else _SPOKEN


class Changes(NamedTuple):
    """What a command changes in a set-up: values by their names, and the parts to build from."""

    values: Mapping[str, float | str]
    parts: Parts | None = None


class Read(NamedTuple):
    """A set-up as it was asked for, and what there is to remark about it."""

    document: Document
    remarks: tuple[str, ...]


def sources_of(paths: Iterable[Path]) -> list[Source]:
    """Where the set-ups of some paths come from: the files of a folder, standard input.

    Raises:
        CommandError: standard input is named twice, or a folder holds no set-up.
        FileError: standard input cannot be read.
    """
    sources: list[Source] = []
    for path in paths:
        if path == STDIN:
            if any(source.path == STDIN for source in sources):
                raise CommandError("standard input can be read once only; give - once")
            sources.append(Source(path, _from_stdin()))
        elif os.path.isdir(path):
            sources.extend(Source(each, found=True) for each in _in_folder(path))
        else:
            sources.append(Source(path))
    return sources


def _in_folder(folder: Path) -> list[Path]:
    found = set_up_files(folder)
    if not found:
        raise CommandError(f"there is no set-up in the folder {shown(folder)}")
    return found


def _from_stdin() -> bytes:
    with file_errors("open", _SPOKEN):
        if sys.stdin is None:
            raise RefusalError("there is none")
        data = sys.stdin.buffer.read(LARGEST + 1)
        if len(data) > LARGEST:
            raise RefusalError(tr("it is larger than {size} MB", size=f"{LARGEST / 1e6:g}"))
    return data


def read(source: Source, changes: Changes) -> Read:
    """The set-up of a source with its changes made.

    Raises:
        FileError: it cannot be read.
        InputError: a change cannot be made.
        ValueError: the leg dimensions contradict each other.
    """
    document, remarks = _opened(source)
    setup, stays = _changed(document.setup, changes.values)
    if changes.parts is not None:
        setup = replace(setup, parts=changes.parts)
    model(setup.inputs)
    return Read(replace(document, setup=setup), (*remarks, *stays))


def set_up_in(path: Path) -> Read:
    """The set-up in a file that is held against another.

    Raises:
        FileError: it cannot be read.
    """
    return Read(*_opened(Source(path)))


def parts_in_file(path: Path) -> Parts:
    """The parts list in a file.

    Raises:
        FileError: it cannot be read.
    """
    with _advice(path, {"setup": "it is a set-up, not a parts list; give it as FILE"}):
        return parts_opened(path).parts


def is_no_set_up(error: Exception) -> bool:
    """Whether what could not be read is a file of ours that is no set-up, and meant to be none."""
    return isinstance(error.__cause__, OtherKindError)


def _opened(source: Source) -> tuple[Document, tuple[str, ...]]:
    """The document of a source, with a remark where another version made it."""
    if source.path is None:
        return Document(Setup()), ()
    name = source.name
    advice = f"it is a parts list, not a set-up; build from it with --parts {shown(name)}"
    with _advice(name, {"parts": advice}):
        if source.data is None:
            document = opened(source.path)
        else:
            with file_errors("open", name):
                document = document_in(source.data)
    remark = newer_notice(name, document) or older_notice(shown(name), document)
    return document, (remark,) if remark else ()


@contextmanager
def _advice(name: Path, by_kind: Mapping[str, str]) -> Iterator[None]:
    """Tell where on the command line a file of another kind belongs, not where in the window."""
    try:
        yield
    except FileError as error:
        cause = error.__cause__
        if not isinstance(cause, OtherKindError) or cause.kind not in by_kind:
            raise
        with file_errors("open", name):
            raise OtherKindError(by_kind[cause.kind], cause.kind) from error


def _changed(setup: Setup, changes: Mapping[str, float | str]) -> tuple[Setup, tuple[str, ...]]:
    """The set-up with what is known of the body first, then what was measured.

    With a remark on the dimensions that a body's height does not touch.
    """
    known = {name: value for name, value in changes.items() if name in KNOWN_NAMES}
    by_hand = {name: value for name, value in changes.items() if name not in KNOWN_NAMES}
    if not known:
        return edited(setup, **by_hand), ()
    setup = estimated(setup, DEMO, **known)
    kept = [FIELD[name].label.lower() for name in kept_as_measured(setup)]
    stays = (f"stays as it was measured: {', '.join(kept)}",) if kept else ()
    return edited(setup, **by_hand), stays
