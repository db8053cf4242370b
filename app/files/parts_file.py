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
from functools import partial
from pathlib import Path
from typing import Any, Final

from app.files.file_kinds import PARTS_FILE, document_of, read_from, write_to
from app.files.png_setup import is_picture
from app.files.records import Record, group, list_of, numbers, one_of, possible, text, truth
from app.files.safe_files import RefusalError
from app.rider.parts import KINDS, LIST_FIELDS, PART_FIELDS, PartEntry, Parts, model
from app.words.language import msgid, tr
from geometry.hardware.parts import Kind

SCHEMA: Final = 1
"""Layout of the files that this version writes."""

MOST_PARTS: Final = 50
"""Sorts of parts on one list."""


@dataclass(frozen=True, slots=True)
class PartsDocument:
    """What one file holds.

    Attributes:
        parts: the parts list.
        notes: whatever the user wrote about it.
        schema: layout of the file that it came from.
        unknown_keys: what the file holds beyond this version's knowledge, that of the
            parts under "parts" and their titles.  Not to be changed.
    """

    parts: Parts
    notes: str = ""
    schema: int = SCHEMA
    unknown_keys: Mapping[str, Any] = field(default_factory=dict)

    @property
    def read_only(self) -> bool:
        """Whether a newer version wrote it, so that saving could damage it."""
        return self.schema > SCHEMA


def parts_opened(path: Path) -> PartsDocument:
    """The parts list in a file.

    Raises:
        FileError: the file cannot be read, or holds no sound parts list.
    """
    return read_from(path, parts_in)


def save_parts(path: Path, document: PartsDocument) -> None:
    """Write a parts list to a file, whole or not at all.

    Raises:
        FileError: it is read-only, could not be opened again, or the disk
            refuses.  The old file, if any, is untouched.
    """
    write_to(path, _as_json(document), parts_in, read_only=document.read_only)


def parts_in(data: bytes) -> PartsDocument:
    """The parts list that a file's bytes stand for.

    Raises:
        RefusalError: says what is wrong, where, and what it must be.
    """
    if is_picture(data):
        raise RefusalError(tr("it is a picture, not a parts list"))
    return document_of(data, PARTS_FILE, SCHEMA, _document)


def _document(raw: dict[str, Any], schema: int) -> PartsDocument:
    parts, notes = PARTS("", raw), text("notes", raw.get("notes", ""))
    unknown = PARTS.unknown_keys(raw)
    beside = {key: unknown[key] for key in unknown if key not in ("schema", "notes")}
    return PartsDocument(parts, notes, schema, beside)


def _as_json(document: PartsDocument) -> dict[str, Any]:
    listed = PARTS.as_json(document.parts, document.unknown_keys)
    # The name first: people look into these files.
    head = {"schema": SCHEMA, "name": listed["name"], "notes": document.notes}
    return head | listed


class PartsRecord(Record[Parts]):
    """A parts list, in a file of its own or within a set-up."""

    def __init__(self) -> None:
        # What a file does not name has no name, not that of the list without parts.
        make = possible(partial(Parts, name=""), model)
        super().__init__(
            make, {"name": text, **_USE, "parts": _PARTS}, required=("parts", *_NEEDED)
        )

    def unknown_keys(self, raw: Mapping[str, Any]) -> dict[str, Any]:
        """What is not known of a list that can be read, that of parts under their titles."""
        rows = raw.get("parts", [])
        of_parts = {
            part.title: _TURNABLE.unknown_keys(row)
            for part, row in zip(_PARTS("parts", rows), rows, strict=True)
        }
        known = super().unknown_keys(raw)
        return known | {"parts": of_parts} if any(of_parts.values()) else known

    def as_json(self, thing: Parts, unknown_keys: Mapping[str, Any]) -> dict[str, Any]:
        """The group that stands for a list, with the unknown keys in their places."""
        of_parts = unknown_keys.get("parts", {})
        rows = [
            _record(part.kind).as_json(part, of_parts.get(part.title, {})) for part in thing.parts
        ]
        return super().as_json(thing, unknown_keys) | {"parts": rows}


def _part(number: str, raw: Any) -> PartEntry:
    kind = group(_in_part(number, ""), raw).get("kind")
    return _record(kind)(number, raw)


def _record(kind: Any) -> Record[PartEntry]:
    """The table for parts of a kind; a fixed slope has no step of turning."""
    return _TURNABLE if kind == Kind.TURNABLE.value else _FIXED


def _in_part(number: str, key: str) -> str:
    if key:
        return tr("{key} of part {number}", key=key, number=number)
    return tr("part {number}", number=number)


# None is filled in anywhere: a part that nobody owns would be recommended.
_PART: Final = {"name": text, "kind": one_of(KINDS), **numbers(PART_FIELDS)}
_FIXED_PART: Final = {key: _PART[key] for key in _PART if key != "bearing_step_deg"}
_TURNABLE: Final = Record(PartEntry, _PART, required=_PART, called=_in_part)
_FIXED: Final = Record(PartEntry, _FIXED_PART, required=_FIXED_PART, called=_in_part)
_USE: Final = {"turns_with_binding": truth, **numbers(LIST_FIELDS)}
_SINCE: Final = {"highest_mm", "slope_within_deg", "bearing_within_deg"}
"""What lists that were written before it came do not hold."""
_NEEDED: Final = tuple(key for key in _USE if key not in _SINCE)
_PARTS: Final = list_of(
    _part,
    msgid("parts is {value}; it must be a list of parts"),
    most=MOST_PARTS,
    too_many=msgid("it lists {count} sorts of parts; at most {most} will do"),
    called=lambda _, place: str(place),
)
PARTS: Final = PartsRecord()
