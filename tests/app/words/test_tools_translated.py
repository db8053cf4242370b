"""Whatever the tools and their pages say has gone through the catalogue."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import astuple, replace
from datetime import date

import pytest
from PySide6.QtWidgets import QApplication
from shown_texts import left_english, texts_in, texts_of

from app.features.answer.model import told_of
from app.features.answer.words import (
    alone_words,
    details_words,
    mounts_words,
    reserve_words,
    why_not,
)
from app.features.answer.words import (
    share_words as weight_words,
)
from app.features.bend.model import bend_of, bend_words, flex_words, most_words
from app.features.bend.scene import scene_bend
from app.features.board.model import flags, overhang_of, overhang_scenes, verdict
from app.features.compare.model import comparison_of
from app.features.growing.model import ahead_of, compared, shrunk
from app.features.map import words as map_words
from app.features.map.place import full_cants, place_of
from app.features.map.words import length_without_cant_words, place_words, step_words
from app.features.measuring.model import (
    agreement_words,
    finding_words,
    guide_of,
    in_force_words,
    reading_label,
    with_repeat,
)
from app.features.measuring.scene import scene_measuring
from app.features.paper.fit_sheet_text import fit_sheet_text
from app.features.parts.combining import (
    combinations_of,
    row_texts,
    setting_words,
    turned,
    turned_words,
    wanted_words,
)
from app.features.trials.model import likely_words, next_words, with_trial
from app.features.trials.model import row_texts as trial_texts
from app.frame import frame
from app.rider.board import BoardInputs
from app.rider.parts import PartEntry, Parts
from app.rider.setup import BOOT_NAMES, LEG_NAMES, Setup, edited, estimated
from app.rider.trials import entry_of
from app.stance.answer_words import (
    bench_steps,
    bench_words,
    boot_words,
    knee_words,
    left_words,
    source_words,
    why_words,
)
from app.stance.answer_words import (
    next_words as next_step_words,
)
from app.stance.findings import USUAL_LIMITS
from app.stance.needs import Mounts, needs_of
from app.stance.own import outlook_of
from app.window.window import Window

BENT = {"front_angle_deg": 20.0, "rear_angle_deg": 5.0, "front_lift_deg": 2.5}


STRAIGHT = {"front_angle_deg": 0.0, "rear_angle_deg": 0.0}
OUT_OF_REACH = {"stance_length_mm": 800.0, "knee_bend_deg": 5.0, "hip_height_mm": 600.0}
STEEP = {"front_angle_deg": 90.0, "rear_angle_deg": 90.0}


PAGES = (
    "Begin with",
    "Through the bend",
    "Stance map",
    "Parts",
    "Board",
    "Trials",
    "Measuring",
    "Growing",
)


@pytest.mark.parametrize("title", PAGES)
def test_a_page_is_all_translated(window: Window, title: str) -> None:
    window.session.take("A trial", with_felt(window.session.setup))
    page = window.tray.open_page(title)
    window.show()
    QApplication.processEvents()
    assert not left_english(texts_of(page))


def with_felt(setup: Setup, felt: str = "bow-legged", cant_deg: float = 3.0) -> Setup:
    """A set-up with a trial in which both legs felt so."""
    tried = replace(setup.inputs, front_cant_deg=cant_deg, rear_lift_deg=-2.0)
    entry = entry_of(
        tried, "2026-01-31", (felt, felt), ("outside", "inside"), boots=("calf", "even")
    )
    return with_trial(setup, entry)


@pytest.mark.parametrize("changes", [{}, STRAIGHT, BENT, OUT_OF_REACH, STEEP])
def test_whatever_is_needed_is_said_in_translation(
    bracketed: None, changes: dict[str, float]
) -> None:
    setup = with_felt(edited(estimated(Setup(), stature_mm=1700.0), **changes))
    told = told_of(setup, USUAL_LIMITS)
    answer, inputs = told.answer, setup.inputs
    said = [weight_words(told), mounts_words(answer.mounts), why_not(answer.mounts, setup)]
    said += [why_not(Mounts(0.0, 0.0, 0.0, 0.0), setup), *bench_steps(answer, inputs)]
    said += [text for row in reserve_words(told) for text in row]
    said += [text for part in details_words(told, needs_of(setup)) for text in part]
    for foot in answer.feet:
        said += [tell(foot) for tell in (source_words, next_step_words)]
        said += [tell(each, answer) for each in (foot.now, foot.then) for tell in THROUGH]
        said += [why_words(foot, answer, inputs), left_words(foot, told.mends.get(foot.name))]
        said += [alone_words(told, foot), bench_words(foot, inputs)]
    assert not left_english(iter(said))


THROUGH = (knee_words, boot_words)
"""What is said of a leg over the riding bend."""


@pytest.mark.parametrize("changes", [{}, STRAIGHT, OUT_OF_REACH, {"flex_range_deg": 1.0}])
def test_the_bend_is_told_in_translation(bracketed: None, changes: dict[str, float]) -> None:
    inputs = edited(Setup(), **changes).inputs
    bend = bend_of(inputs)
    said = [bend_words(bend, inputs, USUAL_LIMITS), most_words(inputs, USUAL_LIMITS)]
    said.append(flex_words(bend))
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
        said = [text(own) for own in leg.both for text in (next_words, likely_words)]
        assert not left_english(iter(said))
    assert not left_english(iter(trial_texts(setup.trials[0], "left")[1:-1]))


@pytest.mark.parametrize("changes", [{}, BENT, OUT_OF_REACH])
def test_a_comparison_is_made_in_translation(bracketed: None, changes: dict[str, float]) -> None:
    other = replace(Setup(), inputs=replace(Setup().inputs, lead_foot="right"))
    made = comparison_of(frame(edited(Setup(), **changes)), frame(other))
    rows = [text for row in (*made.inputs, *made.knees) for text in row]
    assert not left_english(iter([*rows, made.sentence, made.other]))


def test_the_fit_sheet_is_written_in_translation(bracketed: None) -> None:
    setup = with_felt(replace(edited(Setup(), **BENT), measured=("knee_height_mm",)))
    sheet = fit_sheet_text(frame(setup), date(2026, 1, 31))
    assert not left_english(_flat(astuple(sheet)))


def _flat(told: object) -> Iterator[str]:
    if isinstance(told, str):
        yield told
    elif isinstance(told, tuple):
        # A foot is a key, "front" or "rear", which the sheet draws as a word and in a colour.
        keys = [name == "foot" for name in getattr(told, "_fields", ())] or [False] * len(told)
        for each, is_key in zip(told, keys, strict=True):
            yield from _flat("" if is_key else each)


@pytest.mark.parametrize("kept", ["turnable", "along", "across"])
@pytest.mark.parametrize("turning", [True, False])
def test_what_to_set_is_told_in_translation(bracketed: None, kept: str, turning: bool) -> None:
    listed = tuple(PartEntry("×", kept, slope, 10.0) for slope in (3.0, 6.0))
    setup = replace(edited(Setup(), **BENT), parts=Parts("×", listed, turns_with_binding=turning))
    found = combinations_of(setup)
    said = [wanted_words(found.wanted), found.shortfall]
    for each in found.ranked:
        said += [words for _, words in setting_words((each.front, each.rear), found.setup)]
        said += [turned_words(one) for one in turned(each, found.parts)]
        said += row_texts(1, each)
    assert not left_english(iter(said))


@pytest.mark.parametrize("changes", [{}, STRAIGHT, OUT_OF_REACH])
def test_the_map_is_told_in_translation(bracketed: None, changes: dict[str, float]) -> None:
    setup = edited(Setup(), **changes)
    place, inputs = place_of(setup), setup.inputs
    said = [place_words(place, inputs), map_words.needs_words(full_cants(inputs), place)]
    said += [step_words(inputs), length_without_cant_words(1.2, inputs)]
    assert not left_english(iter([*said, map_words.margin_words(place)]))


@pytest.mark.parametrize("wanted_edge_deg", [40.0, 75.0])
@pytest.mark.parametrize("waist_width_mm", [180.0, 250.0, 330.0])
@pytest.mark.parametrize("plate_height_mm", [0.0, 20.0])
def test_what_the_boots_do_is_told_in_translation(
    bracketed: None, wanted_edge_deg: float, waist_width_mm: float, plate_height_mm: float
) -> None:
    sizes = BoardInputs(waist_width_mm, plate_height_mm, wanted_edge_deg=wanted_edge_deg)
    overhang = overhang_of(replace(edited(Setup(), front_lift_deg=8.0), board=sizes))
    assert not left_english(iter([verdict(overhang), *flags(overhang)]))
    for scene in overhang_scenes(overhang).values():
        assert not left_english(texts_in(scene))


@pytest.mark.parametrize("name", LEG_NAMES + BOOT_NAMES)
def test_measuring_is_told_in_translation(bracketed: None, name: str) -> None:
    value, share = Setup().inputs.value(name), guide_of(name).share
    once = with_repeat(Setup(), name, value / share)
    twice = with_repeat(once, name, value / share + 9.0)
    for setup in (Setup(), estimated(Setup(), stature_mm=1700.0), once, twice):
        said = (*agreement_words(setup, name), in_force_words(setup, name))
        assert not left_english(iter((*said, finding_words(setup, name), reading_label(name))))
    assert not left_english(texts_in(scene_measuring(name)))


def test_growing_is_told_in_translation(bracketed: None) -> None:
    then = edited(Setup(), rear_cant_deg=-2.0, front_lift_deg=3.0, knee_height_mm=520.0)
    now = estimated(edited(Setup(), **STRAIGHT), stature_mm=1700.0)
    ahead = ahead_of(now, 12.0, 1.0, "either")
    rows = [text for row in compared(now, then, ahead) for text in row]
    assert not left_english(iter([*rows, ahead.words, *shrunk(now, then)]))
