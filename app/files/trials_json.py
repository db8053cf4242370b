"""Trials as a list in a set-up file."""

from __future__ import annotations

import json
from collections.abc import Callable, Sequence
from typing import Any, Final, TypeVar

from app.files.json_values import no_group, number, one_of, text
from app.files.safe_files import RefusalError
from app.files.strict_json import brief
from app.rider.inputs import FIELD
from app.rider.trials import PRESSURES, VERDICTS, Entry, is_date
from app.words.field import Field
from app.words.language import tr

_T = TypeVar("_T")

_PAIRS: Final = {
    "angles_deg": FIELD["front_angle_deg"],
    "lifts_deg": FIELD["front_lift_deg"],
    "cants_deg": FIELD["front_cant_deg"],
}
"""Numbers of the front and of the rear foot; both feet have the same range."""
_PLACES: Final = ("stance_length_mm", "across_spacing_mm")
_MUST: Final = ("date", *_PAIRS, *_PLACES, "felt")
_KEYS: Final = (*_MUST, "pressure", "notes")


def trials_in(raw: Any) -> tuple[Entry, ...]:
    """The trials that a file's list stands for.

    Raises:
        RefusalError: it is no list, or says which trial cannot be taken, and why.
    """
    if not isinstance(raw, list):
        raise RefusalError(tr("trials is {value}; it must be a list of trials", value=brief(raw)))
    return tuple(_entry(tr("trial {number}", number=i), each) for i, each in enumerate(raw, 1))


def trials_as_json(trials: Sequence[Entry]) -> list[dict[str, Any]]:
    """The list that stands for the trials in a file."""
    return [
        {name: getattr(trial, name) for name in _KEYS}
        | (json.loads(trial.unknown_keys) if trial.unknown_keys else {})
        for trial in trials
    ]


def _entry(which: str, raw: Any) -> Entry:
    if not isinstance(raw, dict):
        raise RefusalError(no_group(which, raw))
    for name in _MUST:
        if name not in raw:
            raise RefusalError(tr("{name} is missing", name=f"{which}: {name}"))
    pairs = {name: _numbers(f"{which}: {name}", raw[name], _PAIRS[name]) for name in _PAIRS}
    places = {name: _place(f"{which}: {name}", raw[name], FIELD[name]) for name in _PLACES}
    pressure = raw.get("pressure", ["even", "even"])
    unknown = {key: value for key, value in raw.items() if key not in _KEYS}
    return Entry(
        _date(which, raw["date"]),
        pairs["angles_deg"],
        places["stance_length_mm"],
        places["across_spacing_mm"],
        pairs["lifts_deg"],
        pairs["cants_deg"],
        felt=_words(f"{which}: felt", raw["felt"], VERDICTS),
        pressure=_words(f"{which}: pressure", pressure, PRESSURES),
        notes=_notes(which, raw),
        unknown_keys=json.dumps(unknown) if unknown else "",
    )


def _date(which: str, value: Any) -> str:
    if not isinstance(value, str) or not is_date(value):
        raise RefusalError(
            tr(
                "{name} is {value}; it must be a day as 2026-01-31",
                name=f"{which}: date",
                value=brief(value),
            )
        )
    return value


def _notes(which: str, raw: dict[str, Any]) -> str:
    try:
        return text(raw, "notes")
    except RefusalError as error:
        raise RefusalError(f"{which}: {error}") from error


def _place(where: str, value: Any, field: Field) -> float:
    return number(where, value, field.low, field.high)


def _numbers(where: str, value: Any, field: Field) -> tuple[float, float]:
    return _pair(where, value, lambda one: number(where, one, field.low, field.high))


def _words(where: str, value: Any, words: Sequence[str]) -> tuple[str, str]:
    return _pair(where, value, lambda one: one_of(where, one, words))


def _pair(where: str, value: Any, taken: Callable[[Any], _T]) -> tuple[_T, _T]:
    """What stands in a list for the front and for the rear leg."""
    if not isinstance(value, list) or len(value) != 2:
        raise RefusalError(
            tr(
                "{name} is {value}; it must be a list of two, for the front and the rear leg",
                name=where,
                value=brief(value),
            )
        )
    return taken(value[0]), taken(value[1])
