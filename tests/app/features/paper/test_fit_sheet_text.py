"""The words of the fit sheet, and the diagram on it."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from both_sides import repeats_of_both

from app.features.paper.fit_sheet_text import (
    MOST_TRIALS,
    FitSheetText,
    Measure,
    Pair,
    PartsOfFoot,
    PartsUnder,
    fit_sheet_text,
    trial_line,
)
from app.frame import frame
from app.rider.setup import LEGS, Setup, edited, estimated
from app.rider.spreads import spread_of
from app.rider.trials import Entry, entry_of
from app.stance.findings import CAUTION
from app.words.lengths import Lengths
from app.words.sentences import plain

DAY = date(2026, 1, 31)
RIDER = edited(estimated(Setup(name="Kim"), stature_mm=1745.0), knee_height_mm=495.0)


def text_of(setup: Setup, unit: str = "mm") -> FitSheetText:
    return fit_sheet_text(frame(setup, lengths=Lengths(unit)), DAY)


def measures_of(setup: Setup, unit: str = "mm") -> dict[str, Measure]:
    return {each.name: each for each in text_of(setup, unit).measures}


def trial(
    setup: Setup, day: str, notes: str = "", pressure: tuple[str, str] = ("even",) * 2
) -> Entry:
    return entry_of(setup.inputs, day, ("even", "bow-legged"), pressure, notes)


def test_each_leg_dimension_stands_there_once_with_its_origin_and_spread() -> None:
    measures = measures_of(RIDER)
    assert len(measures) == len(RIDER.names_told(LEGS)) == 7
    assert measures["Knee height"] == Measure("Knee height", "495 mm", "measured", "± 5 mm")
    hip = measures["Hip height"]
    assert hip.origin == "estimated"
    assert hip.spread == f"± {plain(spread_of(RIDER, 'hip_height_mm'))} mm"
    assert measures["Knee tracking"][1:] == ("over the toes", "default", "± 3.0°")


def test_repeats_are_counted_and_tell_the_spread() -> None:
    setup = replace(RIDER, repeats=repeats_of_both(knee_height_mm=(494.0, 496.0, 495.0)))
    assert measures_of(setup)["Knee height"][2:] == ("measured 3 times", "± 1 mm")


def test_of_the_demo_rider_no_spread_is_claimed() -> None:
    assert {each[2:] for each in measures_of(Setup()).values()} == {("default", "–")}


def test_lengths_are_written_in_the_unit_that_the_user_reads() -> None:
    assert measures_of(RIDER, "cm")["Knee height"].value == "49.5 cm"
    assert Pair("Stance length", "19.88 in") in text_of(RIDER, "in").stance


def test_mounts_are_told_in_words_for_each_foot() -> None:
    mounts = text_of(edited(RIDER, front_cant_deg=2.5, rear_lift_deg=-3.0)).mounts
    assert mounts[0] == ("Binding angle", "43.0°", "38.0°")
    assert mounts[1] == ("Lift", "no lift", "3.0° heel lift")
    assert mounts[2] == ("Cant", "2.5° inward cant", "no cant")


def test_an_across_spacing_is_told_only_where_there_is_one() -> None:
    assert [pair.name for pair in text_of(RIDER).stance] == ["Stance length"]
    across = text_of(edited(RIDER, across_spacing_mm=100.0)).stance
    assert across[1] == Pair("Across spacing", "100 mm")


def test_findings_say_state_reason_and_every_flag() -> None:
    setup = edited(Setup(), forward_lean_deg=0.0, flex_range_deg=2.0)
    legs = frame(setup).findings.legs
    for said, leg in zip(text_of(setup).findings, legs.values(), strict=True):
        assert said.name == f"{leg.name.capitalize()} leg: {leg.spoken}"
        assert leg.sentence in said.value
        assert all(flag in said.value for flag in leg.flags)
    assert any(leg.flags for leg in legs.values())


def test_the_latest_trials_come_first_and_the_others_are_counted() -> None:
    trials = tuple(trial(RIDER, f"2026-01-{day:02}") for day in range(1, 8))
    text = text_of(replace(RIDER, trials=trials))
    assert [line[:10] for line in text.trials] == [f"2026-01-{d:02}" for d in (7, 6, 5, 4)]
    assert len(text.trials) == MOST_TRIALS
    assert text.earlier == 3


def test_a_trial_in_a_line_tells_stance_mounts_feeling_and_note() -> None:
    setup = edited(RIDER, front_cant_deg=2.0)
    assert trial_line(trial(setup, "2026-01-03", "steep\nand icy")) == (
        "2026-01-03 · 43.0° / 38.0° · 505 mm · 2.0° inward, no lift / flat: no cant, no lift · "
        "felt front even, rear bow-legged · steep and icy"
    )
    pressed = trial_line(trial(setup, "2026-01-03", "x" * 200, ("inside", "even")))
    assert "pressed front inside, rear even" in pressed
    assert pressed.endswith("x…")
    assert len(pressed) < 240


def test_notes_are_told_in_their_lines_without_empty_ones() -> None:
    noted = replace(RIDER, notes="left  knee\n\n \r\n\tnew liners ")
    assert text_of(noted).notes == "left knee\nnew liners"
    assert text_of(RIDER).notes == ""
    endless = text_of(replace(RIDER, notes="x" * 250)).notes
    assert [len(piece) for piece in endless.split()] == [100, 100, 50]


def test_the_rest_is_there_too() -> None:
    feet = (PartsOfFoot("front", ("Turn it.",)), PartsOfFoot("rear", ("Mount it flat.",)))
    parts = PartsUnder(feet)
    text = fit_sheet_text(frame(RIDER), DAY, parts)
    assert (text.title, text.lead_foot, text.day) == ("Kim", "left", "2026-01-31")
    assert text.caution == CAUTION
    assert text.parts == parts
    assert Pair("Hips turned", "with the feet") in text.posture
    assert Pair("Side give", "4.0°") in text.boots


def test_a_sheet_looks_at_no_more_of_very_long_texts_than_it_has_room_for() -> None:
    big = "words " * 700_000
    trial = entry_of(Setup().inputs, "2026-01-31", ("even", "even"), ("even", "even"), big)
    told = fit_sheet_text(frame(Setup(name=big, notes=big, trials=(trial,))), date(2026, 1, 31))
    assert told.notes.endswith("… (4,180,000 more letters)")
    assert told.title.endswith(" more letters)")
    assert max(len(told.title), len(told.trials[0])) < 400
