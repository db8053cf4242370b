"""All results for one set-up as plain values under fixed names, for programs to read.

Lengths are mm and angles degrees, as the ends of the names say, and unrounded.  Points
are [x, y, z] in the axes of the geometry: x to the nose, y to the toe side, z up,
from midway between the binding centres.  Cants are positive inward, lifts toe up,
off-plane angles knock-kneed; a margin or an error is the standard error of the value
that it is named after.  What there is no answer for is null, and "reason" says why.

Each further module tells one section; :mod:`app.numbers.question` says what can be
asked beside the set-up.
"""

from __future__ import annotations

import json
from dataclasses import asdict
from typing import Any, Final

from app.features.answer.model import told_of
from app.features.bend.model import bend_of
from app.features.board.model import overhang_of
from app.numbers.answer import answer_numbers, beside_answer_numbers
from app.numbers.hardware import Searching, parts_numbers, reachable_numbers, wedge_numbers
from app.numbers.kits import kits_numbers
from app.numbers.question import Question
from app.numbers.rider import body_numbers, growth_numbers, trials_numbers
from app.numbers.stance import (
    bend_numbers,
    curves_numbers,
    leg_numbers,
    map_numbers,
    need_numbers,
    place_numbers,
    reach_numbers,
)
from app.numbers.values import number
from app.rider.setup import Setup
from app.stance.findings import USUAL_LIMITS, findings_of
from app.stance.needs import needs_of
from app.stance.settled import settled

USUAL: Final = Question()
"""Nothing is asked beside the set-up."""


def _in_silence(done: float) -> None:
    """Nobody wants to know how far a search is."""


def numbers(
    setup: Setup, question: Question = USUAL, searching: Searching = _in_silence
) -> dict[str, Any]:
    """All results for one set-up, ready for JSON; None where there is no answer.

    Args:
        setup: the set-up.
        question: what is asked beside it.
        searching: is told how far a search is that takes seconds, from 0 to 1.

    Raises:
        ImpossibleError: what is asked contradicts itself.
        ValueError: the leg dimensions contradict each other.
    """
    return {
        **_settled(setup),
        "inputs": asdict(setup.inputs),
        "body": body_numbers(setup),
        "bend": bend_numbers(bend_of(setup.inputs), USUAL_LIMITS),
        "place": place_numbers(setup),
        "parts": parts_numbers(setup, question),
        "wedges": wedge_numbers(setup),
        "trials": trials_numbers(setup, question),
        "growth": growth_numbers(setup, question),
        **_further(setup, question, searching),
    }


def as_json(setup: Setup, question: Question = USUAL, searching: Searching = _in_silence) -> str:
    """The numbers as JSON text of several lines; arguments as in :func:`numbers`.

    Raises:
        ImpossibleError: what is asked contradicts itself.
        ValueError: the leg dimensions contradict each other.
    """
    told = numbers(setup, question, searching)
    return json.dumps(told, indent=2, ensure_ascii=False, allow_nan=False)


def _settled(setup: Setup) -> dict[str, Any]:
    """The legs where they settle, and what each binding needs."""
    stood = settled(setup.inputs)
    posture, findings = stood.posture, findings_of(stood, USUAL_LIMITS)
    needs, told = needs_of(setup), told_of(setup, USUAL_LIMITS)
    boots = overhang_of(setup).boots
    legs = ((posture.front, needs.front), (posture.rear, needs.rear))
    feet = {
        foot.name: {
            **leg_numbers(leg, findings.legs[foot.name]),
            **need_numbers(foot),
            **answer_numbers(told.answer.foot(foot.name)),
            **reach_numbers(boots[foot.name].reach),
        }
        for leg, foot in legs
    }
    return {
        **feet,
        "stance": {
            **{name: number(value) for name, value in asdict(findings.stance).items()},
            **{
                f"{foot.name}_straight_leg_cant_margin_deg": number(foot.straight_leg.margin_deg)
                for foot in needs.feet
            },
        },
        "pelvis": {
            "depth_mm": number(posture.depth),
            "height_mm": number(posture.height),
            "mass_centre_mm": [number(each) for each in posture.mass_centre],
        },
        "answer": beside_answer_numbers(told),
    }


def _further(setup: Setup, question: Question, searching: Searching) -> dict[str, Any]:
    """The sections that are told only where they are asked for."""
    told: dict[str, Any] = {}
    if "reachable" in question.sections:
        told["reachable"] = reachable_numbers(setup, question, searching)
    if "curves" in question.sections:
        told["curves"] = curves_numbers(bend_of(setup.inputs))
    if "kits" in question.sections:
        told["kits"] = kits_numbers(setup, question)
    if "map" in question.sections:
        told["map"] = map_numbers(setup.inputs)
    return told
