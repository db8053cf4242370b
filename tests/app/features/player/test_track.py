"""Both legs along what is played, and the worst of it in words."""

from __future__ import annotations

from dataclasses import replace
from math import degrees

import numpy as np
import pytest

from app.features.player.examples import EXAMPLES
from app.features.player.model import (
    BOOT,
    KNEE,
    NO_POSTURE,
    Played,
    Sweep,
    Track,
    course_of,
    frames_of,
    seconds_of,
    track_of,
)
from app.features.player.scene import backdrop_of, dressed
from app.features.player.words import worst_words
from app.frame import Frame, frame
from app.rider.inputs import DEFAULTS, FIELD, Inputs, changed
from app.rider.movement import KeyPosture, Movement
from app.rider.setup import DEMO
from app.stance.findings import USUAL_LIMITS
from app.stance.settled import settled

TURNS = EXAMPLES["turns"].movement


def drawn(inputs: Inputs) -> Frame:
    return frame(replace(DEMO, inputs=inputs))


def track(played: Played, inputs: Inputs = DEFAULTS) -> Track:
    return track_of(inputs, played, USUAL_LIMITS)


def said(played: Played, inputs: Inputs = DEFAULTS) -> str:
    along = track(played, inputs)
    course = course_of(inputs, played)
    return worst_words(along, [(each, drawn(course(each.phase))) for each in along.worst])


@pytest.mark.parametrize(
    "played",
    [TURNS, Sweep("stance_length_mm", 600.0, 400.0), Sweep("left_knee_height_mm", 450.0, 520.0, 5)],
)
def test_the_curves_are_those_of_each_moment_solved_alone(played: Played) -> None:
    along = track(played)
    for place in range(0, len(along.moments), 7):
        legs = settled(along.moments[place].inputs).posture.legs
        for leg, off, flex in zip(
            legs, along.curves.off_plane[:, place], along.curves.boot_flex[:, place], strict=True
        ):
            assert off == pytest.approx(degrees(float(leg.off_plane)), abs=1e-9)
            assert flex == pytest.approx(degrees(float(leg.boot_flex)), abs=1e-9)


@pytest.mark.parametrize("name", [n for n in FIELD if FIELD[n].group != "answer"])
def test_every_input_of_the_panel_can_be_looked_through(name: str) -> None:
    value, step = DEFAULTS.value(name), FIELD[name].step
    assert np.isfinite(track(Sweep(name, value, value + step)).curves.off_plane).all()


def test_the_key_postures_themselves_are_looked_at() -> None:
    bends = [each.inputs.knee_bend_deg for each in track(TURNS).moments]
    assert max(bends) == 114.0


def test_the_worst_are_the_knee_and_the_boot_furthest_beyond_what_counts() -> None:
    along = track(TURNS)
    off, flex = np.abs(along.curves.off_plane), along.curves.boot_flex
    found = {each.what: each for each in along.worst}
    knee, boot = found[KNEE], found[BOOT]
    assert knee.share == pytest.approx(off.max() / USUAL_LIMITS.drifting_deg)
    assert boot.share == pytest.approx(np.abs(flex - 18.0).max() / 15.0)
    assert [each.share for each in along.worst] == sorted((knee.share, boot.share), reverse=True)
    assert (boot.end, boot.phase) == ("rear", 3.0 / 3.5)


@pytest.mark.parametrize(
    ("played", "words"),
    [
        (EXAMPLES["crouch"].movement,
         "The rear boot goes 12.9° past its front stop at the lowest point."),
        (Sweep("front_angle_deg", 20.0, 60.0), "The front knee is furthest out at 20.0°: 11.9°"),
        (Sweep("knee_bend_deg", 20.0, 60.0), "at 60.0°"),
    ],
)  # fmt: skip
def test_the_worst_is_said_with_leg_stop_and_moment(played: Played, words: str) -> None:
    assert words in said(played)


@pytest.mark.parametrize(
    ("flex_range", "words"),
    [
        (27.0, "The rear boot goes 1.0° past its front stop at the lowest point."),
        (28.0, "The rear boot reaches its front stop at the lowest point."),
        (28.4, "The rear boot comes within 0.4° of its front stop at the lowest point."),
    ],
)
def test_a_boot_is_past_at_or_near_its_stop_as_its_finding_says(
    flex_range: float, words: str
) -> None:
    # The rear boot flexes to 46.0 degrees there, from 18 at rest.
    crouch = Movement(
        (KeyPosture(0.0, 60.0, 0.0, 0.0, 35.0), KeyPosture(1.0, 80.0, 0.0, 0.0, 45.0))
    )
    inputs = changed(DEFAULTS, flex_range_deg=flex_range, side_give_deg=20.0)
    assert words in said(crouch, inputs)
    deepest = drawn(course_of(inputs, crouch)(1.0)).findings.legs["rear"]
    assert f"{abs(deepest.boot_left_deg):.1f}" == f"{abs(28.0 - flex_range):.1f}"


def test_where_nothing_is_at_fault_that_is_said() -> None:
    neutral = changed(DEFAULTS, front_angle_deg=0.0, rear_angle_deg=0.0, stance_length_mm=260.0)
    words = said(Movement((KeyPosture(0.0, 30.0), KeyPosture(1.0, 40.0))), neutral)
    assert "Both knees stay in their planes." in words
    assert "or more to their stops" in words


def test_where_no_posture_settles_that_is_the_worst() -> None:
    along = track(Sweep("knee_bend_deg", 60.0, 5.0))
    assert [each.what for each in along.worst] == [NO_POSTURE]
    assert said(Sweep("knee_bend_deg", 60.0, 5.0)).startswith("No posture settles at ")


def test_a_place_in_the_plots_leads_to_its_phase_up_and_down() -> None:
    for sweep in (Sweep("front_angle_deg", 20.0, 60.0), Sweep("front_angle_deg", 60.0, 20.0)):
        along = track(sweep)
        for phase in (0.0, 0.25, 1.0):
            x = along.along(phase, course_of(DEFAULTS, sweep)(phase))
            assert along.phase_at(x) == pytest.approx(phase, abs=1e-6)
    assert track(TURNS).phase_at(1.75) == pytest.approx(0.5)


def test_frames_are_thirty_a_second_or_one_for_each_step() -> None:
    assert frames_of(TURNS) == 106
    assert frames_of(Sweep("front_angle_deg", 20.0, 60.0, 8)) == 9
    assert seconds_of(TURNS) == 3.5


def test_every_moment_lies_within_the_windows_that_stay() -> None:
    for played in (TURNS, Sweep("stance_length_mm", 300.0, 700.0)):
        course = course_of(DEFAULTS, played)
        stays = backdrop_of(course, drawn, None)
        for i in range(31):
            live = drawn(course(i / 30))
            for key, scene in dressed(live, stays, 1.0, ghost=False, traces=False).scenes.items():
                assert scene.window == stays.windows[key]
                wanted = live.scenes[key].window
                # A window reaches on in steps of 10 mm, of 50 at most.
                joined = scene.window.joined(wanted)
                assert joined.width - scene.window.width <= 10.0
                assert joined.height - scene.window.height <= 50.0


def test_traces_reach_as_far_as_it_was_played() -> None:
    course = course_of(DEFAULTS, TURNS)
    stays = backdrop_of(course, drawn, drawn(course(0.3)))

    def points(passed: float) -> int:
        made = dressed(drawn(course(passed)), stays, passed, ghost=True, traces=True)
        paths = [m for m in made.scenes["above"].marks if m.key == "front.left.knee"]
        return sum(len(path.points) for path in paths)  # type: ignore[union-attr]

    assert [points(passed) for passed in (0.0, 0.5, 1.0)] == [0, 21, 41]
