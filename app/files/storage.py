"""Set-ups as files: JSON that people can read, and that nothing gets lost from.

A file holds ``schema`` (the number of the layout), ``name``, ``notes``, all
``inputs``, what is ``known`` of the body, the ``measured`` leg dimensions with
their ``repeats``, the ``spreads`` of the estimated ones, the ``trials``, the
``board``, the ``wedge``, the list of ``parts`` and the rider's own ``movement``.
Keys that this version does not know are kept and written back.  A file of an older
layout is brought to this one while it is read; one of a newer layout is opened for
reading only.  A picture carries its set-up's file inside, and opens as that.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any, Final

from app.files.file_kinds import SETUP_FILE, bytes_that_open, document_of, require_size
from app.files.migrations import MIGRATIONS, migrated
from app.files.png_setup import is_picture, setup_in_png, with_setup
from app.files.safe_files import LARGEST, contents, file_errors, shown, write_atomically
from app.files.setup_json import SETUP
from app.rider.movement import Movement
from app.rider.setup import Setup
from app.words.language import tr

SCHEMA: Final = 2
"""Layout of the files that this version writes."""
SECOND_MODEL: Final = 2
"""Files of earlier layouts were made when legs were solved in another way."""


@dataclass(frozen=True, slots=True)
class Document:
    """What one file holds.

    Attributes:
        setup: the set-up.
        schema: layout of the file that it came from.
        unknown_keys: what the file holds beyond this version's knowledge, in the
            file's own structure.  Written back as it was; not to be changed.
    """

    setup: Setup
    schema: int = SCHEMA
    unknown_keys: Mapping[str, Any] = field(default_factory=dict)

    @property
    def read_only(self) -> bool:
        """Whether a newer version wrote it, so that saving could damage it."""
        return self.schema > SCHEMA


def opened(path: Path, largest: int = LARGEST) -> Document:
    """The document in a file of up to ``largest`` bytes.

    Raises:
        FileError: the file cannot be read, or holds no sound set-up.
    """
    data = contents(path, largest)
    with file_errors("open", path):
        return document_in(data)


def save(path: Path, document: Document) -> None:
    """Write a document to a file, whole or not at all.

    Raises:
        FileError: it is read-only, could not be opened again, or the disk
            refuses.  The old file, if any, is untouched.
    """
    with file_errors("save", path):
        data = bytes_of(document)
    write_atomically(path, data)


def bytes_of(document: Document, largest: int = LARGEST) -> bytes:
    """What a document is as a file of up to ``largest`` bytes.

    Raises:
        RefusalError: it is read-only, or could not be opened again.
    """
    whole = {"schema": SCHEMA, **SETUP.as_json(document.setup, document.unknown_keys)}
    return bytes_that_open(whole, document_in, read_only=document.read_only, largest=largest)


def carrying(picture: bytes, document: Document) -> bytes:
    """A PNG picture with a document inside; as much of it as this version can save.

    Raises:
        RefusalError: the document could not be opened again.
    """
    whole = with_setup(picture, bytes_of(as_copy(document) if document.read_only else document))
    require_size(whole)
    return whole


def as_copy(document: Document) -> Document:
    """The part of a document that this version knows, which it can save."""
    setup = document.setup
    trials = tuple(replace(trial, unknown_keys="") for trial in setup.trials)
    postures = tuple(replace(each, unknown_keys="") for each in setup.movement.postures)
    return Document(replace(setup, trials=trials, movement=Movement(postures)))


def newer_notice(path: Path, document: Document) -> str:
    """What to tell about a file of a newer layout; empty for any other."""
    if not document.read_only:
        return ""
    return tr(
        "{file} was made by a newer version of Kneeline and is open for reading only; "
        "a copy can be saved without what this version does not know",
        file=shown(path),
    )


def older_notice(name: str, document: Document) -> str:
    """What to tell about a file from before the legs were solved as now; empty for any other.

    Args:
        name: what the file is called to its user.
        document: what it holds.
    """
    if document.schema >= SECOND_MODEL:
        return ""
    return tr(
        "{file} was made by an earlier version of Kneeline: its results differ now, since the "
        "pelvis turns about its own middle and the weight stands over the feet",
        file=name,
    )


def document_in(data: bytes) -> Document:
    """The document that a file's bytes stand for.

    Raises:
        RefusalError: says what is wrong, where, and what it must be.
    """
    whole = setup_in_png(data) if is_picture(data) else data
    return document_of(whole, SETUP_FILE, SCHEMA, _document)


def _document(raw: dict[str, Any], schema: int) -> Document:
    raw = migrated(raw, schema, SCHEMA, MIGRATIONS)
    setup, unknown = SETUP("", raw), SETUP.unknown_keys(raw)
    del unknown["schema"]
    return Document(setup, schema, unknown)
