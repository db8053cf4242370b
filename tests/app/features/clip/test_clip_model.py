"""What a clip shows: as many moments as it is long, in even times, at one scale."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.features.clip.model import FRAMES_PER_S, MOST_FRAMES, SECONDS, Extras, drawn, film_of
from app.features.player.examples import EXAMPLES
from app.features.player.model import Sweep
from app.frame import frame
from app.rider.inputs import FIELD, InputError
from app.rider.setup import Setup
from app.start.commands import CLIP_ENDINGS, LONGEST_CLIP, SHORTEST_CLIP, USUAL_CLIP
from app.words.lengths import Lengths

ANGLE = Sweep("front_angle_deg", 30.0, 60.0)
TURNS = EXAMPLES["turns"].movement


@pytest.mark.parametrize("seconds", [1.0, 1.37, 3.5, 4.0, 12.0, 47.11, 60.0])
@pytest.mark.parametrize("back", [False, True])
def test_its_times_are_whole_ticks_of_a_gif_even_and_together_exact(
    seconds: float, back: bool
) -> None:
    film = film_of(Setup(), ANGLE, Extras(seconds, back))
    times = film.durations_ms
    assert len(times) == len(film.moments) == len(film.said) <= MOST_FRAMES
    assert len(times) == pytest.approx(min(MOST_FRAMES, FRAMES_PER_S * seconds), abs=1.5)
    assert sum(times) == round(1000 * seconds)
    assert all(time % 10 == 0 for time in times)
    assert max(times) - min(times) <= 10


def test_four_seconds_are_eighty_pictures_of_fifty_thousandths() -> None:
    assert film_of(Setup(), ANGLE, Extras(4.0)).durations_ms == (50,) * 80


def test_it_begins_and_ends_with_the_values_asked_for_whatever_their_grid() -> None:
    film = film_of(Setup(), Sweep("front_angle_deg", 30.03, 59.98), Extras())
    values = [moment.inputs.front_angle_deg for moment in film.moments]
    assert (values[0], values[-1]) == (30.03, 59.98)
    assert values == sorted(values)


@pytest.mark.parametrize("name", ["front_angle_deg", "stance_length_mm", "hip_height_mm"])
def test_each_value_between_stands_on_the_grid_of_its_slider(name: str) -> None:
    field = FIELD[name]
    low, high = field.low + 0.4 * (field.high - field.low), field.high
    film = film_of(Setup(), Sweep(name, low, high), Extras())
    for moment in film.moments[1:-1]:
        steps = moment.inputs.value(name) / field.fine_step
        assert steps == pytest.approx(round(steps), abs=1e-6)


def test_there_and_back_shows_neither_end_twice() -> None:
    film = film_of(Setup(), ANGLE, Extras(4.0, back=True))
    values = [moment.inputs.front_angle_deg for moment in film.moments]
    assert len(values) == 80
    assert (values.count(30.0), values.count(60.0)) == (1, 1)
    assert values[film.turns_at - 1] == 60.0
    assert values[film.turns_at :] == values[film.turns_at - 2 : 0 : -1]


def test_a_movement_takes_its_own_time_and_says_it() -> None:
    film = film_of(Setup(), TURNS, Extras(title="Two linked turns", about="Not measured."))
    assert sum(film.durations_ms) == round(1000 * TURNS.seconds)
    assert (film.title, film.about) == ("Two linked turns", "Not measured.")
    assert (film.said[0], film.said[-1]) == ("0.0 s of 3.5 s", "3.5 s of 3.5 s")


def test_what_stands_under_a_picture_is_the_value_that_it_shows() -> None:
    film = film_of(Setup(), Sweep("front_cant_deg", -2.0, 2.0), Extras())
    assert film.title == "Front cant: 2.0° outward cant to 2.0° inward cant"
    assert film.said[0] == "Front cant: 2.0° outward cant"
    inches = film_of(Setup(), Sweep("stance_length_mm", 400.0, 508.0), Extras(), Lengths("in"))
    assert inches.said[-1] == "Stance length: 20.00 in"


def test_all_its_drawings_are_at_one_scale_with_room_for_each() -> None:
    film = film_of(Setup(), Sweep("stance_length_mm", 300.0, 700.0), Extras(2.0, back=True))
    shown = list(drawn(film, frame))
    assert len(shown) == 40
    for key, scene in shown[0].scenes.items():
        assert {each.scenes[key].window for each in shown} == {scene.window}
        for moment in film.moments:
            own = frame(replace(film.setup, inputs=moment.inputs)).scenes[key].window
            assert scene.window.joined(own) == scene.window


def test_traces_grow_and_stay_when_it_comes_back() -> None:
    film = film_of(Setup(), ANGLE, Extras(2.0, back=True))
    counts = [len(each.scenes["above"].marks) for each in drawn(film, frame)]
    there = counts[: film.turns_at]
    assert there[-1] > there[0]
    assert max(counts[film.turns_at :]) >= there[-1] - 2


@pytest.mark.parametrize(
    ("played", "extras", "said"),
    [
        (Sweep("knee_bend_deg", 40.0, 40.0), Extras(), "nothing moves"),
        (Sweep("knee_bend_deg", 40.0, 400.0), Extras(), "400"),
        (ANGLE, Extras(0.5), "must take from 1.0 s to 60.0 s"),
        (ANGLE, Extras(61.0), "a clip of 61.0 s"),
    ],
)
def test_what_cannot_be_shown_is_said(played: Sweep, extras: Extras, said: str) -> None:
    with pytest.raises(InputError, match=said):
        film_of(Setup(), played, extras)


def test_the_command_line_knows_the_same_lengths_and_kinds() -> None:
    from app.features.clip.encoding import ENDINGS  # noqa: PLC0415

    assert (SECONDS.low, SECONDS.high) == (SHORTEST_CLIP, LONGEST_CLIP)
    assert sum(film_of(Setup(), ANGLE, Extras()).durations_ms) == 1000 * USUAL_CLIP
    assert set(CLIP_ENDINGS) == set(ENDINGS)
