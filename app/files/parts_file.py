"""Parts lists as files: JSON that people can read, and that nothing gets lost from.

A file holds ``schema`` (the number of the layout), ``name``, ``notes``, the
``parts``, and how they can be used.  Keys that this version does not know are
kept and written back, those of a part for as long as it keeps its name and its
slope.  A file of a newer layout is opened for reading only.  A set-up's file
holds its parts list in the same words.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Final

from app.files.file_kinds import PARTS_FILE, bytes_that_open, document_of
from app.files.json_values import (
    no_group,
    no_text,
    number,
    one_of,
    text,
    truth,
    whole_number,
)
from app.files.png_setup import is_picture
from app.files.safe_files import RefusalError, contents, file_errors, write_atomically
from app.files.strict_json import brief, on_one_line
from app.rider.parts import KINDS, LIST_FIELDS, PART_FIELDS, PartEntry, Parts, model
from app.words.field import Field
from app.words.language import tr
from app.words.reasons import reason_phrase
from geometry.hardware.parts import Kind

SCHEMA: Final = 1
"""Layout of the files that this version writes."""

MOST_PARTS: Final = 50
"""Sorts of parts on one list."""

STEP: Final = "bearing_step_deg"
_PART: Final = ("name", "kind", *(each.name for each in PART_FIELDS))
_USE: Final = ("turns_with_binding", *(each.name for each in LIST_FIELDS))
_LIST: Final = ("name", *_USE, "parts")
_FILE: Final = ("schema", "notes")


@dataclass(frozen=True, slots=True)
class PartsDocument:
    """What one file holds.

    Attributes:
        parts: the parts list.
        notes: whatever the user wrote about it.
        schema: layout of the file that it came from.
        kept: what the file holds beyond this version's knowledge, that of the
            parts under "parts" and their titles.  Not to be changed.
    """

    parts: Parts
    notes: str = ""
    schema: int = SCHEMA
    kept: Mapping[str, Any] = field(default_factory=dict)

    @property
    def read_only(self) -> bool:
        """Whether a newer version wrote it, so that saving could damage it."""
        return self.schema > SCHEMA


def parts_opened(path: Path) -> PartsDocument:
    """The parts list in a file.

    Raises:
        FileError: the file cannot be read, or holds no sound parts list.
    """
    data = contents(path)
    with file_errors("open", path):
        return parts_in(data)


def save_parts(path: Path, document: PartsDocument) -> None:
    """Write a parts list to a file, whole or not at all.

    Raises:
        FileError: it is read-only, could not be opened again, or the disk
            refuses.  The old file, if any, is untouched.
    """
    with file_errors("save", path):
        data = bytes_that_open(document, _as_json, parts_in)
    write_atomically(path, data)


def parts_in(data: bytes) -> PartsDocument:
    """The parts list that a file's bytes stand for.

    Raises:
        RefusalError: says what is wrong, where, and what it must be.
    """
    if is_picture(data):
        raise RefusalError(tr("it is a picture, not a parts list"))
    return document_of(data, PARTS_FILE, SCHEMA, _document)


def list_in(raw: dict[str, Any]) -> Parts:
    """The parts list that a group of values stands for.

    Raises:
        RefusalError: says what is wrong, where, and what it must be.
    """
    parts = Parts(
        name=text(raw, "name"),
        parts=tuple(_entry(each, place) for place, each in enumerate(_entries(raw), 1)),
        turns_with_binding=truth("turns_with_binding", _present(raw, "turns_with_binding")),
        **{each.name: _number(each, _present(raw, each.name)) for each in LIST_FIELDS},
    )
    try:
        model(parts)
    except ValueError as error:
        # It may name a part, and a file can call a part anything.
        raise RefusalError(on_one_line(reason_phrase(error))) from error
    return parts


def list_as_json(parts: Parts, kept: Mapping[str, Any]) -> dict[str, Any]:
    """The group of values that stands for a parts list.

    Args:
        parts: the list.
        kept: what :func:`beyond_list` found.
    """
    beyond = kept.get("parts", {})
    return {
        "name": parts.name,
        **{name: getattr(parts, name) for name in _USE},
        "parts": [
            {**_entry_as_json(entry), **beyond.get(entry.title, {})} for entry in parts.parts
        ],
        **{key: value for key, value in kept.items() if key != "parts"},
    }


def beyond_list(raw: dict[str, Any], parts: Parts, others: tuple[str, ...] = ()) -> dict[str, Any]:
    """The keys that this version does not know, those of parts under their titles.

    Args:
        raw: a group of values.
        parts: the list that it stands for.
        others: keys that are known though not part of the list.
    """
    kept = {key: value for key, value in raw.items() if key not in (*_LIST, *others)}
    beyond = {
        entry.title: {key: value for key, value in each.items() if key not in _PART}
        for entry, each in zip(parts.parts, raw["parts"], strict=True)
    }
    if any(beyond.values()):
        kept["parts"] = beyond
    return kept


def _document(raw: dict[str, Any], schema: int) -> PartsDocument:
    parts = list_in(raw)
    return PartsDocument(parts, text(raw, "notes"), schema, beyond_list(raw, parts, _FILE))


def _entries(raw: dict[str, Any]) -> list[Any]:
    entries = _present(raw, "parts")
    if not isinstance(entries, list):
        raise RefusalError(tr("parts is {value}; it must be a list of parts", value=brief(entries)))
    if len(entries) > MOST_PARTS:
        raise RefusalError(
            tr(
                "it lists {count} sorts of parts; at most {most} will do",
                count=len(entries),
                most=MOST_PARTS,
            )
        )
    return entries


def _entry(raw: Any, place: int) -> PartEntry:
    """One part; ``place`` counts from 1, as people do."""
    if not isinstance(raw, dict):
        raise RefusalError(no_group(tr("part {number}", number=place), raw))
    name = _present(raw, "name", place)
    if not isinstance(name, str):
        raise RefusalError(no_text(_called("name", place), name))
    kind = one_of(_called("kind", place), _present(raw, "kind", place), KINDS)
    numbers = {
        each.name: _number(each, _present(raw, each.name, place), place)
        for each in PART_FIELDS
        if each.name != STEP or kind == Kind.TURNABLE.value
    }
    return PartEntry(name, kind, **numbers)


def _number(entry: Field, value: Any, place: int = 0) -> Any:
    name = _called(entry.name, place)
    if entry.unit:
        return number(name, value, entry.low, entry.high)
    return whole_number(name, value, int(entry.low), int(entry.high))


def _called(key: str, place: int) -> str:
    """A key with the part in which it stands, or of the list where the place is 0."""
    return tr("{key} of part {number}", key=key, number=place) if place else key


def _present(raw: dict[str, Any], key: str, place: int = 0) -> Any:
    """The value of a key.

    None is filled in: a part that nobody owns would be recommended.
    """
    if key not in raw:
        raise RefusalError(tr("{name} is missing", name=_called(key, place)))
    return raw[key]


def _as_json(document: PartsDocument) -> dict[str, Any]:
    listed = list_as_json(document.parts, document.kept)
    # The name first: people look into these files.
    head = {"schema": SCHEMA, "name": listed["name"], "notes": document.notes}
    return head | listed


def _entry_as_json(entry: PartEntry) -> dict[str, Any]:
    """A part, without the step of turning where it cannot be turned."""
    turnable = entry.kind == Kind.TURNABLE.value
    return {key: getattr(entry, key) for key in _PART if turnable or key != STEP}
