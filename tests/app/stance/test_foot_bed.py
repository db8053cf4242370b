"""How the foot lies inside the boot, in words and in the view from the side."""

from __future__ import annotations

import pytest

from app.drawing.marks import Callout
from app.frame import frame
from app.rider.inputs import DEFAULTS, changed
from app.rider.setup import Setup, edited
from app.stance.foot_bed import bed_slope_deg, bed_words, beds_words


@pytest.mark.parametrize(
    ("lift", "ramp", "words"),
    [(6.0, 6.0, "level"), (-6.0, 6.0, "heel 12° high"), (6.0, 2.5, "toes 3.5° high")],
)
def test_the_ramp_of_the_boot_raises_the_heel_on_top_of_the_mount(
    lift: float, ramp: float, words: str
) -> None:
    inputs = changed(DEFAULTS, rear_lift_deg=lift, boot_ramp_deg=ramp)
    assert bed_slope_deg(inputs, "rear") == lift - ramp
    assert bed_words(inputs, "rear") == words


def test_each_foot_lies_in_its_own_boot() -> None:
    inputs = changed(DEFAULTS, lead_foot="right", left_boot_ramp_deg=3.0, rear_lift_deg=-6.0)
    assert beds_words(inputs) == "front level, rear heel 9° high"
    assert beds_words(DEFAULTS) == "level"


def test_the_side_view_tells_it_where_a_ramp_was_typed() -> None:
    def told(setup: Setup) -> tuple[str, str]:
        scene = frame(setup).scenes["side"]
        called = {mark.key: mark.word for mark in scene.marks if isinstance(mark, Callout)}
        return called["rear.bend_callout"].split(",")[-1], scene.text

    line, text = told(edited(Setup(), boot_ramp_deg=6.0, rear_lift_deg=-6.0))
    assert line == "heel 12° high"
    assert text.endswith("Inside the boots: front heel 6° high, rear heel 12° high.")
    assert told(Setup())[0].startswith("knee bend")
