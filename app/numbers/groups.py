"""The groups of the numbers, each loaded with what it needs when it is asked for.

Who asks for two feet only would else wait longest for the search for parts to be loaded.
"""

# ruff: noqa: PLC0415

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import asdict
from typing import Any, Final, NamedTuple, TypeAlias

from app.numbers.question import Question
from app.rider.setup import Setup

Searching: TypeAlias = Callable[[float], None]
"""What is told how far a search is, from 0 to 1."""


class Asked(NamedTuple):
    """What is asked of whom, and who is told how far a search is."""

    setup: Setup
    question: Question
    searching: Searching


Group: TypeAlias = dict[str, Any]


def group_of(name: str, asked: Asked) -> Group:
    """One group of the numbers, one of :data:`app.numbers.question.GROUPS`.

    Raises:
        ImpossibleError: what is asked contradicts itself.
        ValueError: the leg dimensions contradict each other.
    """
    return _MAKERS[name](asked)


def _front(asked: Asked) -> Group:
    from app.numbers.feet import foot_numbers

    return foot_numbers(asked.setup, "front")


def _rear(asked: Asked) -> Group:
    from app.numbers.feet import foot_numbers

    return foot_numbers(asked.setup, "rear")


def _stance(asked: Asked) -> Group:
    from app.numbers.feet import stance_numbers

    return stance_numbers(asked.setup)


def _pelvis(asked: Asked) -> Group:
    from app.numbers.feet import pelvis_numbers

    return pelvis_numbers(asked.setup)


def _answer(asked: Asked) -> Group:
    from app.features.answer.model import told_of
    from app.numbers.answer import beside_answer_numbers
    from app.stance.findings import USUAL_LIMITS

    return beside_answer_numbers(told_of(asked.setup, USUAL_LIMITS))


def _inputs(asked: Asked) -> Group:
    return asdict(asked.setup.inputs)


def _body(asked: Asked) -> Group:
    from app.numbers.rider import body_numbers

    return body_numbers(asked.setup)


def _bend(asked: Asked) -> Group:
    from app.features.bend.model import bend_of
    from app.numbers.stance import bend_numbers
    from app.stance.findings import USUAL_LIMITS

    inputs = asked.setup.inputs
    return bend_numbers(bend_of(inputs), inputs, USUAL_LIMITS)


def _place(asked: Asked) -> Group:
    from app.numbers.stance import place_numbers

    return place_numbers(asked.setup)


def _parts(asked: Asked) -> Group:
    from app.numbers.hardware import parts_numbers

    return parts_numbers(asked.setup, asked.question)


def _wedges(asked: Asked) -> Group:
    from app.numbers.hardware import wedge_numbers

    return wedge_numbers(asked.setup)


def _trials(asked: Asked) -> Group:
    from app.numbers.rider import trials_numbers

    return trials_numbers(asked.setup, asked.question)


def _growth(asked: Asked) -> Group:
    from app.numbers.rider import growth_numbers

    return growth_numbers(asked.setup, asked.question)


def _reachable(asked: Asked) -> Group:
    from app.numbers.hardware import reachable_numbers

    return reachable_numbers(*asked)


def _curves(asked: Asked) -> Group:
    from app.features.bend.model import bend_of
    from app.numbers.stance import curves_numbers

    return curves_numbers(bend_of(asked.setup.inputs))


def _map(asked: Asked) -> Group:
    from app.numbers.stance import map_numbers

    return map_numbers(asked.setup.inputs)


def _kits(asked: Asked) -> Group:
    from app.numbers.kits import kits_numbers

    return kits_numbers(asked.setup, asked.question)


_MAKERS: Final[Mapping[str, Callable[[Asked], Group]]] = {
    "front": _front,
    "rear": _rear,
    "stance": _stance,
    "pelvis": _pelvis,
    "answer": _answer,
    "inputs": _inputs,
    "body": _body,
    "bend": _bend,
    "place": _place,
    "parts": _parts,
    "wedges": _wedges,
    "trials": _trials,
    "growth": _growth,
    "reachable": _reachable,
    "curves": _curves,
    "map": _map,
    "kits": _kits,
}
