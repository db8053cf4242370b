"""Whatever the window shows has gone through the catalogue."""

from __future__ import annotations

import pytest
from shown_texts import left_english, texts_of

from app.files.settings import Settings
from app.qt.painting.findings_painting import leg_figures, stance_figures, stance_sentence
from app.rider.setup import Setup, edited
from app.stance.findings import USUAL_LIMITS, findings_of
from app.stance.settled import settled
from app.window.settings_dialog import SettingsDialog
from app.window.window import Window

BENT = {"front_angle_deg": 20.0, "rear_angle_deg": 5.0, "front_lift_deg": 2.5}


def test_the_controls_are_all_translated(window: Window) -> None:
    assert not left_english(texts_of(window.panel))


def test_the_bar_and_its_menus_are_all_translated(window: Window) -> None:
    menus = (window.files, window.pictures, window.compare.menu)
    for part in (window.bar, *menus, *window.tray.tabs):
        assert not left_english(texts_of(part))


def test_the_settings_are_all_translated(bracketed: None) -> None:
    assert not left_english(texts_of(SettingsDialog(Settings())))


def test_the_cards_of_the_findings_are_all_translated(window: Window) -> None:
    shown = window.shown()
    assert shown is not None
    figures = stance_figures(shown.frame)
    for leg in shown.frame.findings.legs.values():
        figures += leg_figures(leg, shown.frame.setup.inputs.leg(leg.name))
    assert not left_english(iter([figure.name for figure in figures]))
    assert not left_english(iter([stance_sentence(shown.frame)]))


@pytest.mark.parametrize(
    "changes",
    [
        {},
        BENT,
        {"front_cant_deg": 9.0},
        {"front_lift_deg": -14.0, "rear_lift_deg": 14.0},
        {"hips_turned_deg": 40.0},
        {"hip_shift_mm": 90.0},
        {"flex_range_deg": 1.0},
        {"stance_length_mm": 800.0, "knee_bend_deg": 5.0, "hip_height_mm": 600.0},
    ],
)
def test_whatever_is_found_of_a_leg_is_translated(
    bracketed: None, changes: dict[str, float]
) -> None:
    inputs = edited(Setup(), **changes).inputs
    for leg in findings_of(settled(inputs), USUAL_LIMITS).legs.values():
        told = (leg.headline, leg.word, leg.way, leg.sentence, *leg.flags)
        assert not left_english(iter(told))
