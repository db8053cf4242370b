"""Whatever the tools and their pages say has gone through the catalogue."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import astuple, replace
from datetime import date

import pytest
from PySide6.QtWidgets import QApplication
from shown_texts import left_english, texts_in, texts_of

from app.findings import USUAL_LIMITS, findings_of
from app.frame import frame
from app.inputs import model
from app.scenes.bend_plot import scene_bend
from app.setup import Setup, edited, estimated
from app.tools.bend import bend_of, bend_words, flex_words, worst_words
from app.tools.comparison import comparison_of
from app.tools.fit_sheet_text import fit_sheet_text
from app.tools.needs import Mounts, needs_of
from app.tools.needs_words import (
    best_words,
    lift_words,
    margin_words,
    range_words,
    start_words,
    verdict_words,
    why_not,
)
from app.tools.range_needs import range_needs_of
from app.tools.trials import comfortable_words, next_words, outlook_of, share_words, with_trial
from app.trial_log import entry_of
from app.widgets.window import Window
from geometry import solve

BENT = {"front_angle_deg": 20.0, "rear_angle_deg": 5.0, "front_lift_deg": 2.5}


STRAIGHT = {"front_angle_deg": 0.0, "rear_angle_deg": 0.0}
OUT_OF_REACH = {"stance_length_mm": 800.0, "knee_bend_deg": 5.0, "hip_height_mm": 600.0}
STEEP = {"front_angle_deg": 90.0, "rear_angle_deg": 90.0}


@pytest.mark.parametrize("title", ["What it needs", "Through the bend", "Trials"])
def test_a_page_is_all_translated(window: Window, title: str) -> None:
    window.session.take("A trial", with_felt(window.session.setup))
    page = window.tray.open_page(title)
    window.show()
    QApplication.processEvents()
    assert not left_english(texts_of(page))


def with_felt(setup: Setup, felt: str = "bow-legged", cant_deg: float = 3.0) -> Setup:
    """A set-up with a trial in which both legs felt so."""
    tried = replace(setup.inputs, front_cant_deg=cant_deg, rear_lift_deg=-2.0)
    return with_trial(setup, entry_of(tried, "2026-01-31", (felt, felt), ("outside", "inside"), ""))


@pytest.mark.parametrize("changes", [{}, STRAIGHT, BENT, OUT_OF_REACH, STEEP])
def test_whatever_is_needed_is_said_in_translation(
    bracketed: None, changes: dict[str, float]
) -> None:
    setup = with_felt(edited(estimated(Setup(), stature_mm=1700.0), **changes))
    needs, best = needs_of(setup), range_needs_of(setup)
    said = [*best_words(best), range_words(best), margin_words(setup)]
    said += [tell(needs) for tell in (verdict_words, lift_words, start_words)]
    said += [why_not(needs.start, setup), why_not(Mounts(0.0, 0.0, 0.0, 0.0), setup)]
    assert not left_english(iter(said))


@pytest.mark.parametrize("changes", [{}, STRAIGHT, OUT_OF_REACH, {"flex_range_deg": 1.0}])
def test_the_bend_is_told_in_translation(bracketed: None, changes: dict[str, float]) -> None:
    inputs = edited(Setup(), **changes).inputs
    bend = bend_of(inputs)
    said = [bend_words(bend, inputs, USUAL_LIMITS), worst_words(bend), flex_words(bend)]
    assert not left_english(iter(said))
    assert not left_english(texts_in(scene_bend(inputs, (1.0, -2.0), USUAL_LIMITS)))


@pytest.mark.parametrize("felt", ["bow-legged", "even", "knock-kneed"])
@pytest.mark.parametrize("times", [1, 2, 4])
@pytest.mark.parametrize("cant_deg", [0.0, 5.0, 9.0])
def test_what_follows_from_trials_is_told_in_translation(
    bracketed: None, felt: str, times: int, cant_deg: float
) -> None:
    setup = edited(Setup(), **STRAIGHT)
    for _ in range(times):
        setup = with_felt(setup, felt, cant_deg)
    for leg in outlook_of(setup):
        said = (next_words(leg), share_words(leg), comfortable_words(leg))
        assert not left_english(iter(said))


@pytest.mark.parametrize("changes", [{}, BENT, OUT_OF_REACH])
def test_a_comparison_is_made_in_translation(bracketed: None, changes: dict[str, float]) -> None:
    other = replace(Setup(), inputs=replace(Setup().inputs, lead_foot="right"))
    made = comparison_of(frame(edited(Setup(), **changes)), frame(other))
    rows = [text for row in (*made.inputs, *made.knees) for text in row]
    assert not left_english(iter([*rows, made.sentence, made.other]))


def test_the_fit_sheet_is_written_in_translation(bracketed: None) -> None:
    setup = with_felt(replace(edited(Setup(), **BENT), measured=("knee_height_mm",)))
    found = findings_of(setup.inputs, solve(*model(setup.inputs)), USUAL_LIMITS)
    sheet = fit_sheet_text(setup, found, date(2026, 1, 31))
    assert not left_english(_flat(astuple(sheet)))


def _flat(told: object) -> Iterator[str]:
    if isinstance(told, str):
        yield told
    elif isinstance(told, tuple):
        for each in told:
            yield from _flat(each)
