"""A set-up as the groups of values that stand in its file."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Final

from app.files.json_values import number, one_of, section, text
from app.files.parts_file import beyond_list, list_as_json, list_in
from app.files.safe_files import RefusalError
from app.files.strict_json import brief
from app.files.trials_json import trials_as_json, trials_in
from app.rider.board import BOARD_FIELDS, USUAL_BOARD, ZERO_ALLOWED, BoardInputs
from app.rider.inputs import FIELD, FIELDS, LEAD_FEET, Inputs, model
from app.rider.parts import NO_PARTS, Parts
from app.rider.setup import BOOT_NAMES, FIGURES, KNOWN_FIELDS, LEG_NAMES, Known, Setup
from app.rider.wedge import (
    AS_LOW_AS_CAN_BE,
    HOLE_SPOT,
    HOLES,
    MOST_HOLES,
    SLOPES,
    USUAL_WEDGE,
    WEDGE_FIELDS,
    WedgeInputs,
)
from app.words.field import Field
from app.words.language import tr
from app.words.reasons import reason_phrase

LARGEST_SPREAD: Final = 1000.0
"""No standard error of a leg dimension (mm or degrees) comes near it."""

SECTIONS: Final = {
    "inputs": ("lead_foot", *(each.name for each in FIELDS)),
    "known": ("figures", *(each.name for each in KNOWN_FIELDS)),
    "spreads": LEG_NAMES,
    "repeats": (*LEG_NAMES, *BOOT_NAMES),
    "board": tuple(each.name for each in BOARD_FIELDS),
    "wedge": (
        "foot",
        "slopes",
        *(each.name for each in WEDGE_FIELDS),
        "holes",
        HOLE_SPOT.name,
    ),
}
"""Groups of values by their key, with the names that this version knows in them."""

_KEYS: Final = ("name", "notes", "measured", "trials", "parts", *SECTIONS)


def setup_in(raw: dict[str, Any]) -> Setup:
    """The set-up that the groups of a file stand for.

    Raises:
        RefusalError: says what is wrong, where, and what it must be.
    """
    return Setup(
        inputs=_inputs(section(raw, "inputs")),
        known=_known(section(raw, "known")),
        measured=_measured(raw.get("measured", [])),
        spreads=_spreads(section(raw, "spreads")),
        name=text(raw, "name"),
        notes=text(raw, "notes"),
        repeats=_repeats(section(raw, "repeats")),
        trials=trials_in(raw.get("trials", [])),
        board=_board(section(raw, "board")),
        wedge=_wedge(section(raw, "wedge")),
        parts=_parts(section(raw, "parts")),
    )


def setup_as_json(setup: Setup) -> dict[str, Any]:
    """The groups that stand for a set-up in a file."""
    return {
        "name": setup.name,
        "notes": setup.notes,
        "inputs": {name: getattr(setup.inputs, name) for name in SECTIONS["inputs"]},
        "known": {name: getattr(setup.known, name) for name in SECTIONS["known"]},
        "measured": [name for name in LEG_NAMES if name in setup.measured],
        "spreads": dict(setup.spreads),
        "repeats": dict(setup.repeats),
        "trials": trials_as_json(setup.trials),
        "board": {name: getattr(setup.board, name) for name in SECTIONS["board"]},
        "wedge": {name: getattr(setup.wedge, name) for name in SECTIONS["wedge"]},
        "parts": list_as_json(setup.parts, {}),
    }


def with_unknown(whole: dict[str, Any], setup: Setup, kept: Mapping[str, Any]) -> dict[str, Any]:
    """The groups of a set-up, and in their places the keys that :func:`unknown_in` found."""
    whole = dict(whole)
    for key, value in kept.items():
        if key == "parts":
            whole[key] = list_as_json(setup.parts, value)
        else:
            whole[key] = {**whole[key], **value} if key in SECTIONS else value
    return whole


def unknown_in(raw: dict[str, Any], others: tuple[str, ...]) -> dict[str, Any]:
    """The keys that this version does not know, in their places.

    Args:
        raw: all that the file holds, of which :func:`setup_in` made a set-up.
        others: keys of the file that are known though not part of the set-up.
    """
    kept = {key: value for key, value in raw.items() if key not in (*_KEYS, *others)}
    for key, names in SECTIONS.items():
        beyond = {name: value for name, value in raw.get(key, {}).items() if name not in names}
        if beyond:
            kept[key] = beyond
    if raw.get("parts"):
        beyond = beyond_list(raw["parts"], _parts(raw["parts"]))
        if beyond:
            kept["parts"] = beyond
    return kept


def _inputs(section: dict[str, Any]) -> Inputs:
    """Every input as the file gives it.

    None is filled in: a default in place of a lost measure is a wrong answer.

    Raises:
        RefusalError: an input is missing, of the wrong kind or out of its range, or
            the leg dimensions contradict each other.
    """
    for name in SECTIONS["inputs"]:
        if name not in section:
            raise RefusalError(tr("{name} is missing", name=f"inputs.{name}"))
    lead_foot = section["lead_foot"]
    if lead_foot not in LEAD_FEET:
        raise RefusalError(
            tr("inputs.lead_foot is {value}; it must be left or right", value=brief(lead_foot))
        )
    inputs = Inputs(lead_foot, **{each.name: _input(each, section) for each in FIELDS})
    try:
        model(inputs)
    except ValueError as error:
        raise RefusalError(reason_phrase(error)) from error
    return inputs


def _input(entry: Field, section: dict[str, Any]) -> float:
    return number(f"inputs.{entry.name}", section[entry.name], entry.low, entry.high)


def _known(section: dict[str, Any]) -> Known:
    figures = one_of("known.figures", section.get("figures", FIGURES[0]), FIGURES)
    lengths = {
        each.name: number(f"known.{each.name}", section[each.name], each.low, each.high)
        for each in KNOWN_FIELDS
        if section.get(each.name) is not None
    }
    return Known(figures, **lengths)


def _measured(names: Any) -> frozenset[str]:
    if not isinstance(names, list):
        raise RefusalError(
            tr("measured is {value}; it must be a list of leg dimensions", value=brief(names))
        )
    for name in names:
        if name not in LEG_NAMES:
            raise RefusalError(
                tr("measured names {value}, which is no leg dimension", value=brief(name))
            )
    return frozenset(names)


def _spreads(section: dict[str, Any]) -> tuple[tuple[str, float], ...]:
    return tuple(
        (name, number(f"spreads.{name}", value, 0.0, LARGEST_SPREAD))
        for name, value in section.items()
        if name in LEG_NAMES
    )


def _repeats(section: dict[str, Any]) -> tuple[tuple[str, tuple[float, ...]], ...]:
    """The repeat measurements of each dimension of legs and boots.

    Which value is in force is said by the inputs: the mean, unless the rider
    typed another since.
    """
    return tuple(
        (name, _measurements(f"repeats.{name}", values, FIELD[name]))
        for name, values in section.items()
        if name in SECTIONS["repeats"]
    )


def _measurements(where: str, values: Any, field: Field) -> tuple[float, ...]:
    if not isinstance(values, list) or not values:
        raise RefusalError(
            tr(
                "{name} is {value}; it must be a list of measurements",
                name=where,
                value=brief(values),
            )
        )
    return tuple(number(where, value, field.low, field.high) for value in values)


def _board(section: dict[str, Any]) -> BoardInputs:
    """What overhang depends on, as far as the file says; else as it usually is."""
    return BoardInputs(
        **{
            each.name: _size(
                f"board.{each.name}",
                each,
                section.get(each.name, getattr(USUAL_BOARD, each.name)),
                may_be_nothing=each.name in ZERO_ALLOWED,
            )
            for each in BOARD_FIELDS
        }
    )


def _wedge(section: dict[str, Any]) -> WedgeInputs:
    """What a wedge is made to, as far as the file says; else as it usually is."""
    given = {name: section.get(name, getattr(USUAL_WEDGE, name)) for name in SECTIONS["wedge"]}
    return WedgeInputs(
        foot=one_of("wedge.foot", given["foot"], ("front", "rear")),
        slopes=one_of("wedge.slopes", given["slopes"], tuple(SLOPES)),
        holes=one_of("wedge.holes", given["holes"], tuple(HOLES)),
        hole_spots_mm=_hole_spots(given[HOLE_SPOT.name]),
        **{
            each.name: _size(
                f"wedge.{each.name}",
                each,
                given[each.name],
                may_be_nothing=each.name == AS_LOW_AS_CAN_BE,
            )
            for each in WEDGE_FIELDS
        },
    )


def _hole_spots(places: Any) -> tuple[tuple[float, float], ...]:
    """The places of typed holes, each a list of two numbers."""
    where = f"wedge.{HOLE_SPOT.name}"
    if not isinstance(places, list | tuple):
        raise RefusalError(
            tr(
                "{name} is {value}; it must be a list of pairs of numbers",
                name=where,
                value=brief(places),
            )
        )
    if len(places) > MOST_HOLES:
        raise RefusalError(
            tr(
                "{name} has {count} holes; {most} are the most",
                name=where,
                count=len(places),
                most=MOST_HOLES,
            )
        )
    return tuple(
        _hole_spot(tr("{list}, hole {number},", list=where, number=i + 1), place)
        for i, place in enumerate(places)
    )


def _hole_spot(where: str, place: Any) -> tuple[float, float]:
    if not isinstance(place, list | tuple) or len(place) != 2:
        raise RefusalError(
            tr("{name} is {value}; it must be a pair of numbers", name=where, value=brief(place))
        )
    ahead, outer = (number(where, value, HOLE_SPOT.low, HOLE_SPOT.high) for value in place)
    return ahead, outer


def _size(where: str, field: Field, value: Any, *, may_be_nothing: bool) -> float:
    if may_be_nothing and number(where, value, 0.0, field.high) == 0.0:
        return 0.0
    return number(where, value, field.low, field.high)


def _parts(section: dict[str, Any]) -> Parts:
    """The parts list, where the file has one."""
    if not section:
        return NO_PARTS
    try:
        return list_in(section)
    except RefusalError as error:
        raise RefusalError(tr("the parts list: {reason}", reason=error)) from error
