"""Changing a parts list: what was typed, taken or refused in words."""

from __future__ import annotations

from dataclasses import replace
from typing import Any, Final

from app.files.parts_file import MOST_PARTS
from app.rider.parts import KINDS, LIST_FIELDS, NO_PARTS, PART_FIELDS, PartEntry, Parts, model
from app.words.bounds import in_one_line
from app.words.field import Field
from app.words.language import msgid, tr, within
from app.words.lengths import IN_MM, Lengths
from app.words.reasons import reason_phrase
from app.words.units import COUNTS, ReadingError, amount, reading, span, unit_of
from geometry.hardware.parts import Kind
from geometry.reasons import ImpossibleError

COLUMNS: Final = {
    "name": msgid("Name"),
    "kind": msgid("Kind"),
    "slope_deg": msgid("Slope"),
    "bearing_step_deg": msgid("Step"),
    "thickness_mm": msgid("Thickness"),
    "count": msgid("How many"),
}
"""What the table says of a part: names in :class:`PartEntry`, and the headings."""

KIND_WORDS: Final = dict(
    zip(
        KINDS,
        (msgid("can be turned"), msgid("along the foot"), msgid("across the foot")),
        strict=True,
    )
)
"""How the kinds are called in English, by their names in files."""

STACKS: Final = tuple(range(int(LIST_FIELDS[0].low), int(LIST_FIELDS[0].high) + 1))
"""How many parts may be allowed on each other."""

ROWS: Final = tuple(each for each in LIST_FIELDS if each.unit)
"""The measures of a list, as controls take them."""

NEW_PART: Final = PartEntry(msgid("new part"), Kind.TURNABLE.value, 3.0, 10.0)
_FIELD: Final = {each.name: each for each in PART_FIELDS}
_STEP: Final = "bearing_step_deg"
_USUAL_STEP_DEG: Final = NEW_PART.bearing_step_deg
_NONE: Final = "–"


class RefusedError(ValueError):
    """What was typed cannot be taken; the message says why, in one sentence."""


def refusal_words(error: RefusedError | ImpossibleError, lengths: Lengths = IN_MM) -> str:
    """The sentence of a refusal, its lengths in the unit asked for."""
    reason = reason_phrase(error, lengths)
    if isinstance(error, ImpossibleError):
        return tr("Not taken: {reason}.", reason=reason)
    return reason


def short_refusal(error: RefusedError | ImpossibleError, lengths: Lengths = IN_MM) -> str:
    """The same in a few words, for the place in which it was typed."""
    cause = error.__cause__
    return str(cause) if isinstance(cause, ReadingError) else reason_phrase(error, lengths)


def help_of(name: str) -> str:
    """What a column is about."""
    if name in _FIELD:
        return _FIELD[name].help
    if name == "kind":
        return tr("Whether the part can be turned, or is a fixed slope along or across the foot.")
    return tr("What you call the part, without its slope.")


def cell(entry: PartEntry, name: str) -> str:
    """What the table shows of a part."""
    value = getattr(entry, name)
    if name == "kind":
        return tr(KIND_WORDS[value])
    if name == _STEP and entry.kind != Kind.TURNABLE.value:
        return _NONE
    if name not in _FIELD:
        return str(value)
    unit = _FIELD[name].unit
    return amount(value, unit_of(unit)) if unit else str(value)


def can_be_typed(entry: PartEntry, name: str) -> bool:
    """Whether a cell has a meaning: a fixed slope has no step of turning."""
    return name != _STEP or entry.kind == Kind.TURNABLE.value


def with_cell(parts: Parts, row: int, name: str, typed: str) -> Parts:
    """The list with what was typed into one cell of its table.

    Raises:
        RefusedError: it cannot be taken.
        ImpossibleError: it contradicts the rest of the list.
    """
    entry = parts.parts[row]
    changes: dict[str, Any] = {name: _read(name, typed)}
    if name == "kind" and changes[name] != Kind.TURNABLE.value:
        # A file holds no step of turning for it, so none can be kept.
        changes[_STEP] = _USUAL_STEP_DEG
    listed = list(parts.parts)
    listed[row] = replace(entry, **changes)
    return with_values(parts, parts=tuple(listed))


def with_part_added(parts: Parts) -> Parts:
    """The list with one more part, which its owner will describe.

    Raises:
        RefusedError: the list is full.
    """
    if len(parts.parts) >= MOST_PARTS:
        raise RefusedError(tr("A list holds {most} sorts of parts at most.", most=MOST_PARTS))
    titles = {entry.title for entry in parts.parts}
    name = tr(NEW_PART.name)
    names = (name, *(f"{name} {i}" for i in range(2, MOST_PARTS + 2)))
    fresh = (replace(NEW_PART, name=each) for each in names)
    added = next(entry for entry in fresh if entry.title not in titles)
    # With a part on it the list must not be called the one without any.
    title = tr("My parts") if parts.name == NO_PARTS.name else parts.name
    return with_values(parts, parts=(*parts.parts, added), name=title)


def without_part(parts: Parts, row: int) -> Parts:
    """The list without one of its parts."""
    return with_values(parts, parts=parts.parts[:row] + parts.parts[row + 1 :])


def with_values(parts: Parts, /, **changes: Any) -> Parts:
    """The list with other values.

    Raises:
        ImpossibleError: they contradict each other.
    """
    changed = replace(parts, **changes)
    model(changed)
    return changed


def shown_name(parts: Parts) -> str:
    """The name of a list; that of the one a set-up begins with, in the user's language."""
    return tr(NO_PARTS.name) if parts.name == NO_PARTS.name else in_one_line(parts.name)


def list_words(parts: Parts) -> str:
    """What is to be said of the list as a whole; "" where nothing is."""
    if not parts.parts:
        return tr(
            "There are no parts on the list, so soles can only stand flat. Start from one of "
            "the examples, or add the parts that you have."
        )
    if not any(entry.count for entry in parts.parts):
        return tr("There are none of these parts: type how many you have.")
    if not parts.largest_stack:
        return tr("The largest stack is 0, so no part is used: allow one at least.")
    return ""


def step_words(before: Parts, after: Parts, lengths: Lengths = IN_MM) -> str:
    """What was changed, for the history."""
    return _part_words(before.parts, after.parts) or _list_words(before, after, lengths)


def _part_words(old: tuple[PartEntry, ...], new: tuple[PartEntry, ...]) -> str:
    """What was changed of the parts; "" where nothing was."""
    if len(new) > len(old):
        return tr("Part added: {part}", part=new[-1].title)
    if len(new) < len(old):
        gone = next(entry for entry in old if entry not in new)
        return tr("Part removed: {part}", part=gone.title)
    for one, other in zip(old, new, strict=True):
        for name, heading in COLUMNS.items():
            if getattr(one, name) != getattr(other, name):
                return f"{one.title}: {within(tr(heading))} {cell(other, name)}"
    return ""


def _list_words(before: Parts, after: Parts, lengths: Lengths) -> str:
    """What was changed of the list itself."""
    for each in ROWS:
        value = getattr(after, each.name)
        if getattr(before, each.name) != value:
            return f"{each.label}: {lengths.shown(value, each.unit)}"
    if before.largest_stack != after.largest_stack:
        return f"{LIST_FIELDS[0].label}: {after.largest_stack}"
    if before.turns_with_binding != after.turns_with_binding:
        if after.turns_with_binding:
            return tr("Parts turn with the binding: yes")
        return tr("Parts turn with the binding: no")
    return tr("Name of the parts list: {name}", name=shown_name(after))


def _read(name: str, typed: str) -> Any:
    """The value that was typed into a cell."""
    if name == "kind":
        return next((kind for kind, words in KIND_WORDS.items() if tr(words) == typed), typed)
    if name not in _FIELD:
        if not typed.strip():
            raise RefusedError(tr("Name: a part without a name cannot be told from others."))
        return typed.strip()
    field = _FIELD[name]
    try:
        return _number(field, typed)
    except ReadingError as error:
        raise RefusedError(
            tr(
                "{name}: “{typed}” was not taken: {reason}.",
                name=field.label,
                typed=typed.strip(),
                reason=error,
            )
        ) from error


def _number(field: Field, typed: str) -> float | int:
    if not field.unit:
        return _count(typed, int(field.low), int(field.high))
    unit = unit_of(field.unit)
    value = reading(typed, unit)
    if not field.low <= value <= field.high:
        raise ReadingError(tr("{range} only", range=span(field.low, field.high, unit)))
    return value


def _count(typed: str, low: int, high: int) -> int:
    try:
        count = reading(typed, COUNTS)
    except ReadingError:
        count = low - 1
    if not (low <= count <= high and count.is_integer()):
        raise ReadingError(tr("a whole number from {low} to {high} only", low=low, high=high))
    return int(count)
