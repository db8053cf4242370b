"""The set-ups that come with the program."""

import pytest

from app.files.resources import ASSETS, SHARED, root_of, starting_points
from app.files.storage import opened
from app.rider.inputs import DEFAULTS
from app.stance.findings import BOOT_OUT, Limits, findings_of
from app.stance.settled import settled

POINTS = {point.path.stem: point for point in starting_points()}


def findings(name):
    inputs = opened(POINTS[name].path).setup.inputs
    return findings_of(settled(inputs), Limits())


def states(name):
    return [leg.state for leg in findings(name).legs.values()]


def test_the_menu_has_every_kind_of_stance_and_the_demo_rider_first():
    assert list(POINTS) == [
        "hard-boots", "soft-boots-forward", "soft-boots-duck", "in-line", "monoski", "neutral",
    ]  # fmt: skip
    assert opened(POINTS["hard-boots"].path).setup.inputs == DEFAULTS


@pytest.mark.parametrize("name", POINTS)
def test_a_starting_point_is_named_noted_and_reaches_a_posture(name):
    document = opened(POINTS[name].path)
    assert POINTS[name].title
    assert document.setup.name
    assert document.setup.notes.endswith(".")
    assert "no posture" not in states(name)


@pytest.mark.parametrize("name", POINTS)
def test_boots_stay_within_their_flex_at_a_starting_point(name):
    assert all(leg.boot != BOOT_OUT for leg in findings(name).legs.values())


def test_the_flags_of_the_starting_points_are_as_their_notes_say():
    assert states("hard-boots") == ["in plane", "a little out"]
    assert states("soft-boots-forward") == ["in plane", "a little out"]
    assert findings("hard-boots").legs["rear"].way == "bow-legged"
    assert findings("soft-boots-forward").legs["rear"].way == "bow-legged"
    for name in ("soft-boots-duck", "in-line", "monoski", "neutral"):
        assert states(name) == ["in plane", "in plane"], name


def test_nothing_has_to_give_in_the_neutral_stance():
    inputs = opened(POINTS["neutral"].path).setup.inputs
    assert inputs.stance_length_mm == inputs.neutral_spacing_mm
    assert findings("neutral").stance.front_straight_leg_cant_deg == 0.0
    assert all(abs(leg.wanted_give_deg) < 0.2 for leg in findings("neutral").legs.values())


def test_a_monoski_stance_has_its_whole_spacing_across_the_board():
    inputs = opened(POINTS["monoski"].path).setup.inputs
    assert (inputs.stance_length_mm, inputs.front_angle_deg, inputs.rear_angle_deg) == (0, 90, 90)
    about = findings("monoski").stance
    assert about.long_axes_apart_mm == pytest.approx(inputs.across_spacing_mm, abs=1e-9)


def test_resources_are_found_beside_the_package_and_inside_it(tmp_path):
    package = tmp_path / "app"
    package.mkdir()
    assert root_of(package) == tmp_path
    (package / "assets").mkdir()
    assert root_of(package) == package
    assert (ASSETS / "fonts").is_dir()
    assert all(point.path.parent == SHARED for point in starting_points())
