"""Set-ups as files: JSON that people can read, and that nothing gets lost from.

A file holds ``schema`` (the number of the layout), ``name``, ``notes``, all
``inputs``, what is ``known`` of the body, the ``measured`` leg dimensions and
the ``spreads`` of the estimated ones.  Keys that this version does not know are
kept and written back.  A file of a newer layout is opened for reading only.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Final

from app.inputs import FIELDS, LEAD_FEET, Field, Inputs, model
from app.json_values import number, schema_of, section, text
from app.safe_files import RefusalError, contents, put_in_place, shown, told
from app.setup import FIGURES, KNOWN_FIELDS, LEG_NAMES, Known, Setup
from app.strict_json import brief, parsed, written

SCHEMA: Final = 1
"""Layout of the files that this version writes."""

LARGEST_SPREAD: Final = 1000.0
"""No standard error of a leg dimension (mm or degrees) comes near it."""

_SECTIONS: Final = {
    "inputs": ("lead_foot", *(each.name for each in FIELDS)),
    "known": ("figures", *(each.name for each in KNOWN_FIELDS)),
    "spreads": LEG_NAMES,
}
_KEYS: Final = ("schema", "name", "notes", "inputs", "known", "measured", "spreads")


@dataclass(frozen=True, slots=True)
class Document:
    """What one file holds.

    Attributes:
        setup: the set-up.
        notes: whatever the user wrote about it.
        schema: layout of the file that it came from.
        kept: what the file holds beyond this version's knowledge, in the
            file's own structure.  Written back as it was; not to be changed.
    """

    setup: Setup
    notes: str = ""
    schema: int = SCHEMA
    kept: Mapping[str, Any] = field(default_factory=dict)

    @property
    def read_only(self) -> bool:
        """Whether a newer version wrote it, so that saving could damage it."""
        return self.schema > SCHEMA


def opened(path: Path) -> Document:
    """The document in a file.

    Raises:
        FileError: the file cannot be read, or holds no sound set-up.
    """
    data = contents(path)
    with told("open", path):
        return document_in(data)


def save(path: Path, document: Document) -> None:
    """Write a document to a file, whole or not at all.

    Raises:
        FileError: it is read-only, could not be opened again, or the disk
            refuses.  The old file, if any, is untouched.
    """
    with told("save", path):
        if document.read_only:
            raise RefusalError("it was made by a newer version of Kneeline; save a copy instead")
        data = written(_as_json(document))
        # A set-up can contradict itself while it is edited; a file that says so is useless.
        document_in(data)
    put_in_place(path, data)


def as_copy(document: Document) -> Document:
    """The part of a document that this version knows, which it can save."""
    return Document(document.setup, document.notes)


def newer_notice(path: Path, document: Document) -> str:
    """What to tell about a file of a newer layout; empty for any other."""
    if not document.read_only:
        return ""
    return (
        f"{shown(path)} was made by a newer version of Kneeline and is open for reading only; "
        "a copy can be saved without what this version does not know"
    )


def document_in(data: bytes) -> Document:
    """The document that a file's bytes stand for.

    Raises:
        RefusalError: says what is wrong, where, and what it must be.
    """
    raw = parsed(data)
    if not isinstance(raw, dict):
        raise RefusalError(f"it holds {brief(raw)}, not a set-up")
    schema = schema_of(raw, "a set-up")
    try:
        return _document(raw, schema)
    except RefusalError as error:
        if schema <= SCHEMA:
            raise
        raise RefusalError(
            f"it was made by a newer version of Kneeline, and this one cannot read it: {error}"
        ) from error


def _document(raw: dict[str, Any], schema: int) -> Document:
    setup = Setup(
        inputs=_inputs(section(raw, "inputs")),
        known=_known(section(raw, "known")),
        measured=_measured(raw.get("measured", [])),
        spreads=_spreads(section(raw, "spreads")),
        name=text(raw, "name"),
    )
    return Document(setup, text(raw, "notes"), schema, _unknown(raw))


def _inputs(section: dict[str, Any]) -> Inputs:
    """Every input as the file gives it.

    None is filled in: a default in place of a lost measure is a wrong answer.

    Raises:
        RefusalError: an input is missing, of the wrong kind or out of its range, or
            the leg dimensions contradict each other.
    """
    for name in _SECTIONS["inputs"]:
        if name not in section:
            raise RefusalError(f"inputs.{name} is missing")
    lead_foot = section["lead_foot"]
    if lead_foot not in LEAD_FEET:
        raise RefusalError(f"inputs.lead_foot is {brief(lead_foot)}; it must be left or right")
    inputs = Inputs(lead_foot, **{each.name: _input(each, section) for each in FIELDS})
    try:
        model(inputs)
    except ValueError as error:
        raise RefusalError(str(error)) from error
    return inputs


def _input(entry: Field, section: dict[str, Any]) -> float:
    return number(f"inputs.{entry.name}", section[entry.name], entry.low, entry.high)


def _known(section: dict[str, Any]) -> Known:
    figures = section.get("figures", FIGURES[0])
    if figures not in FIGURES:
        raise RefusalError(
            f"known.figures is {brief(figures)}; it must be one of {', '.join(FIGURES)}"
        )
    lengths = {
        each.name: number(f"known.{each.name}", section[each.name], each.low, each.high)
        for each in KNOWN_FIELDS
        if section.get(each.name) is not None
    }
    return Known(figures, **lengths)


def _measured(names: Any) -> frozenset[str]:
    if not isinstance(names, list):
        raise RefusalError(f"measured is {brief(names)}; it must be a list of leg dimensions")
    for name in names:
        if name not in LEG_NAMES:
            raise RefusalError(f"measured names {brief(name)}, which is no leg dimension")
    return frozenset(names)


def _spreads(section: dict[str, Any]) -> tuple[tuple[str, float], ...]:
    return tuple(
        (name, number(f"spreads.{name}", value, 0.0, LARGEST_SPREAD))
        for name, value in section.items()
        if name in LEG_NAMES
    )


def _unknown(raw: dict[str, Any]) -> dict[str, Any]:
    """The keys that this version does not know, in their places."""
    kept = {key: value for key, value in raw.items() if key not in _KEYS}
    for key, names in _SECTIONS.items():
        beyond = {name: value for name, value in raw.get(key, {}).items() if name not in names}
        if beyond:
            kept[key] = beyond
    return kept


def _as_json(document: Document) -> dict[str, Any]:
    setup = document.setup
    whole: dict[str, Any] = {
        "schema": SCHEMA,
        "name": setup.name,
        "notes": document.notes,
        "inputs": {name: getattr(setup.inputs, name) for name in _SECTIONS["inputs"]},
        "known": {name: getattr(setup.known, name) for name in _SECTIONS["known"]},
        "measured": [name for name in LEG_NAMES if name in setup.measured],
        "spreads": dict(setup.spreads),
    }
    for key, value in document.kept.items():
        whole[key] = {**whole[key], **value} if key in _SECTIONS else value
    return whole
