"""Hands, keys and addresses move the page in a real browser; the answer is the saved one."""

from __future__ import annotations

import json
from math import isnan
from pathlib import Path
from typing import Any

import pytest
from browser import Page
from web_pages import here, off_plane, written

from app.features.webpage.model import SLIDERS
from app.rider.inputs import DEFAULTS, changed
from app.rider.setup import DEMO, edited
from app.stance.answer import answer_of


def test_the_answer_is_that_of_the_saved_stance_and_says_so_once_a_slider_moves(
    desktop: Page, folder: Path
) -> None:
    setup = edited(DEMO, front_angle_deg=10.0, rear_angle_deg=5.0, stance_length_mm=560.0)
    desktop.open(written(setup, folder / "wide.html"))
    answer = answer_of(setup)
    values = {
        f"{f.name}-{k}": getattr(f.begin, f"{k}_deg") for f in answer.feet for k in ("cant", "lift")
    }
    read = "(id) => Number(byId(id).dataset.value)"
    assert desktop.value(f"{json.dumps([*values])}.map({read})") == [*values.values()]
    assert desktop.value("byId('moved').checkVisibility()") is False
    desktop.click("#rear_angle_deg-more")
    assert desktop.value("byId('moved').checkVisibility()") is True
    assert desktop.value(f"{json.dumps([*values])}.map({read})") == [*values.values()]
    desktop.click("#as-saved")
    assert desktop.value("byId('moved').checkVisibility()") is False
    assert off_plane(desktop) == pytest.approx(here(setup.inputs), abs=1e-6)


def test_what_to_begin_with_is_put_on_by_one_button(desktop: Page, folder: Path) -> None:
    setup = edited(DEMO, front_angle_deg=10.0, rear_angle_deg=5.0, stance_length_mm=560.0)
    desktop.open(written(setup, folder / "wide.html"))
    desktop.click("#put-on")
    mounts = answer_of(setup).mounts._asdict()
    assert off_plane(desktop) == pytest.approx(here(changed(setup.inputs, **mounts)), abs=1e-6)
    assert desktop.value("byId('put-on').disabled") is True


# Addresses


@pytest.mark.parametrize(
    "changes",
    [
        {"front_angle_deg": 30.0},
        {"front_angle_deg": 10.0, "rear_angle_deg": -9.0, "stance_length_mm": 560.0},
        {"lead_foot": "right", "right_hip_height_mm": 850.0, "knee_bend_deg": 60.0},
        {"hip_height_mm": 900.0, "left_hip_height_mm": 870.0, "rear_lift_deg": -2.5},
    ],
)
def test_an_address_sets_inputs_by_their_names(
    desktop: Page, demo: Path, changes: dict[str, Any]
) -> None:
    desktop.open(demo, "&".join(f"{name}={value}" for name, value in changes.items()))
    assert off_plane(desktop) == pytest.approx(here(changed(DEFAULTS, **changes)), abs=1e-6)
    assert desktop.value("byId('refused').textContent") == ""


def test_another_address_is_followed_at_once(desktop: Page, demo: Path) -> None:
    desktop.open(demo, "front_angle_deg=30")
    desktop.value(
        "new Promise((done) => { addEventListener('hashchange', done, {once: true});"
        "location.hash = '#rear_angle_deg=20'; }).then(() => 0)"
    )
    assert off_plane(desktop) == pytest.approx(
        here(changed(DEFAULTS, rear_angle_deg=20.0)), abs=1e-6
    )


@pytest.mark.parametrize(
    ("fragment", "said"),
    [
        ("front_angle_deg=300", "front_angle_deg = “300”, which cannot be taken: −60 to 90 only"),
        ("front_angle_deg=", "front_angle_deg = “”, which cannot be taken"),
        ("lead_foot=both", "lead_foot = “both”, which cannot be taken: left, right only"),
        ("shoe_size=44", "names “shoe_size”, which is no input here"),
        ("left_front_angle_deg=3", "names “left_front_angle_deg”, which is no input here"),
        ("constructor=3", "names “constructor”, which is no input here"),
        ("__proto__=3", "names “__proto__”, which is no input here"),
        ("hip_height_mm=400", "ankle, knee and hip do not stand above one another"),
        ("%3Cimg%20src=x%20onerror=hacked=1%3E=3", "which is no input here"),
    ],
)
def test_what_an_address_cannot_ask_for_is_told_and_changes_nothing(
    desktop: Page, demo: Path, fragment: str, said: str
) -> None:
    desktop.open(demo, fragment)
    assert said in desktop.value("byId('refused').textContent")
    assert off_plane(desktop) == pytest.approx(here(DEFAULTS), abs=1e-6)
    assert desktop.value("typeof hacked") == "undefined"
    assert desktop.complaints() == []


def test_a_stance_without_a_posture_says_why(desktop: Page, demo: Path) -> None:
    desktop.open(demo, "stance_length_mm=800&knee_bend_deg=5")
    assert isnan(here(changed(DEFAULTS, stance_length_mm=800.0, knee_bend_deg=5.0))[0])
    assert desktop.value("byId('front-off-plane').dataset.value") == ""
    assert "cannot reach" in desktop.value("byId('why-not').textContent")
    assert "no posture" in desktop.value("byId('drawn-front').textContent")
    assert "NaN" not in desktop.value("document.querySelector('main').innerHTML")


# Hands


def value_of(shown: Page, name: str) -> float:
    found: float = shown.value(f"inputs.{name}")
    return found


def test_a_finger_moves_a_slider_and_taps_its_buttons(phone: Page, demo: Path) -> None:
    phone.open(demo)
    phone.tap("#stance_length_mm-more")
    assert value_of(phone, "stance_length_mm") == 510.0
    phone.tap("#stance_length_mm-less")
    phone.tap("#stance_length_mm-less")
    assert value_of(phone, "stance_length_mm") == 500.0
    phone.drag_finger("#knee_bend_deg", 0.4, 0.7)
    bend = value_of(phone, "knee_bend_deg")
    assert 70.0 < bend < 90.0
    stance = changed(DEFAULTS, stance_length_mm=500.0, knee_bend_deg=bend)
    assert off_plane(phone) == pytest.approx(here(stance), abs=1e-6)


def test_a_finger_chooses_a_view_on_a_phone(phone: Page, demo: Path) -> None:
    phone.open(demo)
    seen = "['above', 'front', 'side'].filter((v) => byId(`drawn-${v}`).checkVisibility())"
    assert phone.value(seen) == ["front"]
    for view in ("above", "side", "front"):
        phone.tap(f"label[for=see-{view}]")
        assert phone.value(seen) == [view]
        assert phone.value(f"document.querySelectorAll('#drawn-{view} path').length") > 10


def test_everything_can_be_done_by_keys(desktop: Page, demo: Path) -> None:
    desktop.open(demo)
    desktop.key("Tab", 9)
    reached = []
    for _ in range(20):
        reached.append(desktop.value("document.activeElement.id"))
        desktop.key("Tab", 9)
    assert reached[: 3 * len(SLIDERS)] == [
        f"{name}{part}" for name in SLIDERS for part in ("-less", "", "-more")
    ]
    assert "put-on" in reached
    desktop.value("byId('front_angle_deg').focus()")
    desktop.key("ArrowRight", 39)
    assert value_of(desktop, "front_angle_deg") == 44.0
    desktop.key("Tab", 9)
    desktop.key("Enter", 13, "\r")
    assert value_of(desktop, "front_angle_deg") == 45.0
    assert desktop.value("byId('front_angle_deg').getAttribute('aria-valuetext')") == "45.0°"


def test_the_view_is_chosen_by_keys_on_a_narrow_screen(phone: Page, demo: Path) -> None:
    phone.open(demo)
    phone.value("byId('see-front').focus()")
    phone.key("ArrowRight", 39)
    assert phone.value("byId('views').dataset.shown") == "side"


def test_a_slider_between_its_steps_does_not_alter_what_was_saved(
    desktop: Page, folder: Path
) -> None:
    odd = edited(DEMO, front_angle_deg=43.37, stance_length_mm=497.3)
    desktop.open(written(odd, folder / "odd.html"))
    assert off_plane(desktop) == pytest.approx(here(odd.inputs), abs=1e-6)
    assert desktop.value("byId('moved').hidden") is True
    desktop.click("#rear_angle_deg-more")
    moved = changed(odd.inputs, rear_angle_deg=39.0)
    assert off_plane(desktop) == pytest.approx(here(moved), abs=1e-6)
