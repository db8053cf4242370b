"""Lessons as files: JSON that people can read, and that nothing gets lost from.

A file holds ``schema`` (the number of the layout), ``title``, ``about``, all ``inputs`` of
the lesson's rider and the ``steps``.  Keys that this version does not know are kept and
written back.  A file of a newer layout is opened, but not written over.  A set-up's file
holds its lesson in the same words.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Final

from app.files.file_kinds import LESSON_FILE, document_of, read_from, write_to
from app.files.lesson_json import LESSON
from app.files.png_setup import is_picture
from app.files.safe_files import RefusalError
from app.rider.lessons import Lesson
from app.words.language import tr

SCHEMA: Final = 1
"""Layout of the files that this version writes."""


@dataclass(frozen=True, slots=True)
class LessonDocument:
    """What one file holds.

    Attributes:
        lesson: the lesson.
        schema: layout of the file that it came from.
        unknown_keys: what the file holds beyond this version's knowledge, but for that of
            the steps, which they keep.  Not to be changed.
    """

    lesson: Lesson
    schema: int = SCHEMA
    unknown_keys: Mapping[str, Any] = field(default_factory=dict)

    @property
    def read_only(self) -> bool:
        """Whether a newer version wrote it, so that saving could damage it."""
        return self.schema > SCHEMA


def lesson_opened(path: Path) -> LessonDocument:
    """The lesson in a file.

    Raises:
        FileError: the file cannot be read, or holds no sound lesson.
    """
    return read_from(path, lesson_in)


def save_lesson(path: Path, document: LessonDocument) -> None:
    """Write a lesson to a file, whole or not at all.

    Raises:
        FileError: it is read-only, could not be opened again, or the disk
            refuses.  The old file, if any, is untouched.
    """
    whole = {"schema": SCHEMA, **LESSON.as_json(document.lesson, document.unknown_keys)}
    write_to(path, whole, lesson_in, read_only=document.read_only)


def lesson_in(data: bytes) -> LessonDocument:
    """The lesson that a file's bytes stand for.

    Raises:
        RefusalError: says what is wrong, where, and what it must be.
    """
    if is_picture(data):
        raise RefusalError(tr("it is a picture, not a lesson"))
    return document_of(data, LESSON_FILE, SCHEMA, _document)


def _document(raw: dict[str, Any], schema: int) -> LessonDocument:
    lesson, unknown = LESSON("", raw), LESSON.unknown_keys(raw)
    del unknown["schema"]
    return LessonDocument(lesson, schema, unknown)
