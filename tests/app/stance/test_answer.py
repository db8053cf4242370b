"""The answer in degrees: what it depends on, and what it does not."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.rider.setup import Setup, edited
from app.rider.trials import entry_of
from app.stance.answer import answer_of
from app.stance.own import outlook_of

CROSSED = edited(
    Setup(), front_angle_deg=21.0, rear_angle_deg=3.0, front_cant_deg=4.0, rear_cant_deg=4.0
)
TRIAL = entry_of(CROSSED.inputs, "2026-01-10", ("knock-kneed", "even"), ("even", "even"), "")


@pytest.mark.parametrize("trials", [(), (TRIAL,)], ids=["without trials", "with a trial"])
def test_the_answer_does_not_depend_on_the_posture_in_hand(trials: tuple) -> None:
    asked = replace(CROSSED, trials=trials)
    postures = [
        {"knee_bend_deg": bend, "hips_turned_deg": turned}
        for bend, turned in ((30.0, 0.0), (90.0, 0.0), (45.0, 20.0))
    ]
    answers = [answer_of(edited(asked, **posture)) for posture in postures]
    assert {answer.mounts for answer in answers} == {answer_of(asked).mounts}
    assert {foot.trials for answer in answers for foot in answer.feet} == {len(trials)}


def test_what_trials_tell_is_what_the_answer_begins_with() -> None:
    asked = edited(replace(CROSSED, trials=(TRIAL,)), knee_bend_deg=80.0)
    told = [leg.cant.put_deg for leg in outlook_of(asked)]
    assert told == [foot.begin.cant_deg for foot in answer_of(asked).feet]
