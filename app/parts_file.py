"""Parts lists as files: JSON that people can read, and that nothing gets lost from.

A file holds ``schema`` (the number of the layout), ``name``, ``notes``, the
``parts``, how they are used, and the ``inserts``.  Keys that this version does
not know are kept and written back, those of a part for as long as it keeps its
name.  A file of a newer layout is opened for reading only.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, dataclass, field
from pathlib import Path
from typing import Any, Final

from app.json_values import number, one_of, schema_of, section, text, truth, whole_number
from app.parts_list import KINDS, LIST_FIELDS, PART_FIELDS, PartEntry, Parts, model
from app.safe_files import RefusalError, contents, put_in_place, told
from app.strict_json import brief, parsed, written

SCHEMA: Final = 1
"""Layout of the files that this version writes."""

MOST_PARTS: Final = 50
"""Sorts of parts on one list."""

_INSERTS: Final = ("grid_mm", "shortest_mm", "longest_mm")
_USE: Final = ("largest_stack", "turns_with_binding", "angle_step_deg")
_PART: Final = ("name", "kind", *(each.name for each in PART_FIELDS))
_KEYS: Final = ("schema", "name", "notes", "parts", *_USE, "inserts")


@dataclass(frozen=True, slots=True)
class PartsDocument:
    """What one file holds.

    Attributes:
        parts: the parts list.
        notes: whatever the user wrote about it.
        schema: layout of the file that it came from.
        kept: what the file holds beyond this version's knowledge: whole keys,
            and under "inserts" and "parts" those of the inserts and of each part
            by its name.  Not to be changed.
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
    with told("open", path):
        return parts_in(data)


def save_parts(path: Path, document: PartsDocument) -> None:
    """Write a parts list to a file, whole or not at all.

    Raises:
        FileError: it is read-only, could not be opened again, or the disk
            refuses.  The old file, if any, is untouched.
    """
    with told("save", path):
        if document.read_only:
            raise RefusalError("it was made by a newer version of Kneeline; save a copy instead")
        data = written(_as_json(document))
        parts_in(data)
    put_in_place(path, data)


def parts_in(data: bytes) -> PartsDocument:
    """The parts list that a file's bytes stand for.

    Raises:
        RefusalError: says what is wrong, where, and what it must be.
    """
    raw = parsed(data)
    if not isinstance(raw, dict):
        raise RefusalError(f"it holds {brief(raw)}, not a parts list")
    schema = schema_of(raw, "a parts list")
    if "inputs" in raw and "parts" not in raw:
        raise RefusalError("it holds a rider's set-up, not a parts list")
    try:
        return _document(raw, schema)
    except RefusalError as error:
        if schema <= SCHEMA:
            raise
        raise RefusalError(
            f"it was made by a newer version of Kneeline, and this one cannot read it: {error}"
        ) from error


def _document(raw: dict[str, Any], schema: int) -> PartsDocument:
    entries = _present(raw, "parts", "")
    if not isinstance(entries, list):
        raise RefusalError(f"parts is {brief(entries)}; it must be a list of parts")
    if len(entries) > MOST_PARTS:
        raise RefusalError(f"it lists {len(entries)} sorts of parts; at most {MOST_PARTS} will do")
    inserts = section(raw, "inserts")
    numbers = {
        each.name: number(each.name, _present(raw, each.name, ""), each.low, each.high)
        if each.name in _USE
        else number(
            f"inserts.{each.name}", _present(inserts, each.name, "inserts."), each.low, each.high
        )
        for each in LIST_FIELDS
        if each.unit
    }
    parts = Parts(
        name=text(raw, "name"),
        parts=tuple(_entry(each, place) for place, each in enumerate(entries, 1)),
        turns_with_binding=truth("turns_with_binding", _present(raw, "turns_with_binding", "")),
        **numbers,
    )
    return PartsDocument(parts, text(raw, "notes"), schema, _unknown(raw))
