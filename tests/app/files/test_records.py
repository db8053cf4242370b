"""A record nests: read, refused by its path, and written with what is not known at each level."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.files.records import Record, list_of, numbers, one_of, text
from app.files.safe_files import RefusalError
from app.words.field import adjustable, fields_of


@dataclass(frozen=True)
class Arm:
    """An invented record; no set-up has one."""

    # fmt: off
    length_mm: float = adjustable(600.0, "arms", "Length", "mm", 100.0, 900.0, 1.0, "Invented.")
    fingers: int = adjustable(5, "arms", "Fingers", "", 0, 6, 1, "Invented.")
    turn_deg: float = adjustable(
        0.0, "arms", "Turn", "deg", 5.0, 90.0, 1.0, "Invented.", zero_allowed=True
    )
    # fmt: on


@dataclass(frozen=True)
class Arms:
    left: Arm
    right: Arm


@dataclass(frozen=True)
class Puppet:
    arms: Arms
    name: str = "nobody"
    strings: tuple[str, ...] = ()


ARM = Record(Arm, numbers(fields_of(Arm)), required=("length_mm",))
STRINGS = list_of(one_of(("thin", "thick")), "{name} is {value}; strings!", most=2)
PUPPET = Record(
    Puppet,
    {
        "name": text,
        "arms": Record(Arms, {"left": ARM, "right": ARM}),
        "strings": STRINGS,
    },
)


def raw_puppet(**right: Any) -> dict[str, Any]:
    return {"arms": {"left": {"length_mm": 500}, "right": {"length_mm": 510} | right}}


def test_what_may_be_missing_takes_the_default_of_its_dataclass() -> None:
    assert PUPPET("", raw_puppet()) == Puppet(Arms(Arm(500.0), Arm(510.0)))


@given(lengths=st.tuples(st.floats(100.0, 900.0), st.floats(100.0, 900.0)), name=st.text())
def test_a_nested_record_comes_back_as_it_was_written(
    lengths: tuple[float, float], name: str
) -> None:
    puppet = Puppet(Arms(*map(Arm, lengths)), name, ("thin", "thick"))
    written = PUPPET.as_json(puppet, {}) | {"strings": ["thin", "thick"]}
    assert PUPPET("", written) == puppet


def test_unknown_keys_are_found_and_put_back_at_every_level() -> None:
    raw = raw_puppet(ring={"gold": True}) | {"hat": None}
    raw["arms"]["third"] = 3
    unknown = PUPPET.unknown_keys(raw)
    assert unknown == {"hat": None, "arms": {"third": 3, "right": {"ring": {"gold": True}}}}
    written = PUPPET.as_json(PUPPET("", raw), unknown)
    assert PUPPET.unknown_keys(written) == unknown
    assert list(written["arms"]) == ["left", "right", "third"]


@pytest.mark.parametrize(
    ("raw", "words"),
    [
        ({}, "arms.left.length_mm is missing"),
        ({"arms": []}, "arms is []; it must be a group of values in braces"),
        (raw_puppet(length_mm=99), "arms.right.length_mm is 99; it must lie between 100 and 900"),
        (raw_puppet(fingers=2.5), "arms.right.fingers is 2.5; it must be a whole number"),
        (raw_puppet(turn_deg=-1), "arms.right.turn_deg is -1; it must lie between 0 and 90"),
        (raw_puppet(turn_deg=1), "arms.right.turn_deg is 1; it must lie between 5 and 90"),
        (raw_puppet() | {"strings": ["thin"] * 3}, 'strings is ["thin", "thin", "thin"]; strings!'),
        (
            raw_puppet() | {"strings": ["red"]},
            'strings is "red"; it must be one of thin, thick',
        ),
    ],
)
def test_a_value_is_refused_by_its_path(raw: dict[str, Any], words: str) -> None:
    with pytest.raises(RefusalError) as refused:
        PUPPET("", raw)
    assert str(refused.value) == words
