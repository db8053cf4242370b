"""A set-up as the groups of values that stand in its file.

Each group is a table, at the end; before them come the readers that only they need.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import replace
from functools import partial
from itertools import pairwise
from typing import Any, Final

from app.files.inputs_json import INPUTS
from app.files.lesson_json import CarriedLesson
from app.files.parts_file import PartsRecord
from app.files.records import (
    Pairs,
    Reader,
    Record,
    group,
    list_of,
    number,
    number_of,
    numbers,
    one_of,
    refusal,
    text,
)
from app.files.safe_files import RefusalError
from app.rider.board import BOARD_FIELDS, BoardInputs
from app.rider.inputs import FIELD, SIDES
from app.rider.movement import MOST_POSTURES, MOVED, POSTURE_FIELDS, KeyPosture, Movement
from app.rider.parts import NO_PARTS, Parts
from app.rider.setup import (
    BOOT_NAMES,
    BOOTS,
    CUFFS,
    FIGURES,
    KNOWN_FIELDS,
    LEG_NAMES,
    LEGS,
    Known,
    Setup,
)
from app.rider.trials import HOLDS, NOT_SAID, PRESSURES, VERDICTS, Entry, is_date
from app.rider.wedge import FEET, HOLE_SPOT, HOLES, MOST_HOLES, SLOPES, WEDGE_FIELDS, WedgeInputs
from app.words.field import Field
from app.words.language import msgid, tr

LARGEST_SPREAD: Final = 1000.0
"""No standard error of a leg dimension (mm or degrees) comes near it."""


class SetupRecord(Record[Setup]):
    """A set-up among the values of its file."""

    def as_json(self, thing: Setup, unknown_keys: Mapping[str, Any]) -> dict[str, Any]:
        """The groups that stand for a set-up, with the unknown keys in their places."""
        marked = {
            "measured": [name for name in LEG_NAMES if name in thing.measured],
            "examples": [name for name in LEG_NAMES if name in thing.examples],
            "apart": sorted(thing.apart),
        }
        return (
            super().as_json(thing, unknown_keys)
            | marked
            | {"trials": _with_own_keys(_TRIAL, thing.trials)}
        )


class _MovementRecord(Record[Movement]):
    """A movement, whose postures keep unknown keys of their own."""

    def as_json(self, thing: Movement, unknown_keys: Mapping[str, Any]) -> dict[str, Any]:
        postures = _with_own_keys(_POSTURE, thing.postures)
        return super().as_json(thing, unknown_keys) | {"postures": postures}


class _CarriedList(PartsRecord):
    """The parts list that a set-up carries, if it carries one."""

    def __call__(self, name: str, raw: Any) -> Parts:
        if not group(name, raw):
            return NO_PARTS
        try:
            return super().__call__("", raw)
        except RefusalError as error:
            raise RefusalError(tr("the parts list: {reason}", reason=error)) from error


def _or_none(reader: Reader) -> Reader:
    return lambda name, value: None if value is None else reader(name, value)


def _front_and_rear(reader: Reader) -> Reader:
    no_pair = msgid("{name} is {value}; it must be a list of two, for the front and the rear leg")
    return list_of(reader, no_pair, fewest=2, most=2)


def _leg_dimensions(no_dimension: str, no_list: str) -> Reader:
    return list_of(one_of(LEG_NAMES, no_dimension), no_list, make=frozenset)


def _measurements(field: Field) -> Reader:
    no_list = msgid("{name} is {value}; it must be a list of measurements")
    return list_of(number_of(field), no_list, fewest=1)


def _truth(name: str, value: Any) -> bool:
    if not isinstance(value, bool):
        raise refusal(msgid("{name} is {value}; it must be true or false"), name, value)
    return value


def _day(name: str, value: Any) -> str:
    if not isinstance(value, str) or not is_date(value):
        raise refusal(msgid("{name} is {value}; it must be a day as 2026-01-31"), name, value)
    return value


def _keeping_own_keys(record: Record[Any]) -> Reader:
    """The reader of one of many with its own unknown keys: it has no name to find it by again."""

    def read(name: str, raw: Any) -> Any:
        thing, unknown = record(name, raw), record.unknown_keys(raw)
        return replace(thing, unknown_keys=json.dumps(unknown)) if unknown else thing

    return read


def _with_own_keys(record: Record[Any], things: Iterable[Any]) -> list[dict[str, Any]]:
    """What stands for many, each with the unknown keys that it was read with."""
    return [record.as_json(each, json.loads(each.unknown_keys or "{}")) for each in things]


def _postures(name: str, raw: Any) -> tuple[KeyPosture, ...]:
    """Key postures that can be joined: none at all, or two and more in the order of their times."""
    postures: tuple[KeyPosture, ...] = _POSTURES(name, raw)
    if len(postures) == 1:
        few = msgid("{name} has {value} posture; it must have none, or two and more")
        raise refusal(few, name, 1)
    for before, after in pairwise(postures):
        if after.at_s <= before.at_s:
            late = msgid("{name} has {value} s after {before} s; postures must come in time order")
            raise refusal(late, name, after.at_s, before=f"{before.at_s:g}")
    return postures


def _in_trial(number: str, key: str) -> str:
    trial = tr("trial {number}", number=number)
    return f"{trial}: {key}" if key else trial


_TRIED: Final = {
    "date": _day,
    "lead_foot": one_of(SIDES),
    "angles_deg": _front_and_rear(number_of(FIELD["front_angle_deg"])),
    "lifts_deg": _front_and_rear(number_of(FIELD["front_lift_deg"])),
    "cants_deg": _front_and_rear(number_of(FIELD["front_cant_deg"])),
    "stance_length_mm": number_of(FIELD["stance_length_mm"]),
    "across_spacing_mm": number_of(FIELD["across_spacing_mm"]),
    "felt": _front_and_rear(one_of(VERDICTS)),
}
_TRIAL: Final = Record(
    Entry,
    {
        **_TRIED,
        "pressure": _front_and_rear(one_of(PRESSURES)),
        "boots": _front_and_rear(one_of((*HOLDS, NOT_SAID))),
        "notes": text,
    },
    required=_TRIED,
    called=_in_trial,
)
_KNOWN: Final = {
    "figures": one_of(FIGURES),
    **{name: _or_none(reader) for name, reader in numbers(KNOWN_FIELDS).items()},
}
_HOLE_SPOTS: Final = list_of(
    list_of(
        number_of(HOLE_SPOT),
        msgid("{name} is {value}; it must be a pair of numbers"),
        fewest=2,
        most=2,
    ),
    msgid("{name} is {value}; it must be a list of pairs of numbers"),
    most=MOST_HOLES,
    too_many=msgid("{name} has {count} holes; {most} are the most"),
    called=lambda name, place: tr("{list}, hole {number},", list=name, number=place),
)
_WEDGE: Final = {
    "foot": one_of(FEET),
    "slopes": one_of(SLOPES),
    **numbers(WEDGE_FIELDS),
    "holes": one_of(HOLES),
    HOLE_SPOT.name: _HOLE_SPOTS,
}
_POSTURE: Final = Record(KeyPosture, numbers(POSTURE_FIELDS), required=["at_s", *MOVED])
_POSTURES: Final = list_of(
    _keeping_own_keys(_POSTURE),
    msgid("{name} is {value}; it must be a list of postures"),
    most=MOST_POSTURES,
    too_many=msgid("{name} has {count} postures; {most} are the most"),
    called=lambda name, place: f"{name}.{place}",
)
SETUP: Final = SetupRecord(
    # What a file does not name has no name, not the demo rider's.
    partial(Setup, name="", cuffs=""),
    {
        "name": text,
        "notes": text,
        "inputs": INPUTS,
        "known": Record(Known, _KNOWN),
        "measured": _leg_dimensions(
            msgid("measured names {value}, which is no leg dimension"),
            msgid("measured is {value}; it must be a list of leg dimensions"),
        ),
        "examples": _leg_dimensions(
            msgid("examples names {value}, which is no leg dimension"),
            msgid("examples is {value}; it must be a list of leg dimensions"),
        ),
        "apart": list_of(
            one_of((LEGS, BOOTS)),
            msgid("apart is {value}; it must be a list of legs and boots"),
            make=frozenset,
        ),
        "cuffs": one_of(CUFFS),
        "growing": _truth,
        "spreads": Pairs({name: number(0.0, LARGEST_SPREAD) for name in LEG_NAMES}),
        # The inputs say which value is in force: the mean, or what was typed since.
        "repeats": Pairs({name: _measurements(FIELD[name]) for name in LEG_NAMES + BOOT_NAMES}),
        "trials": list_of(
            _keeping_own_keys(_TRIAL),
            msgid("trials is {value}; it must be a list of trials"),
            called=lambda _, place: str(place),
        ),
        "board": Record(BoardInputs, numbers(BOARD_FIELDS)),
        "wedge": Record(WedgeInputs, _WEDGE),
        "parts": _CarriedList(),
        "movement": _MovementRecord(Movement, {"postures": _postures}),
        "lesson": CarriedLesson(),
    },
)
