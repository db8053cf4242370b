"""The page in a real browser, from its file and without a network: its legs, drawings and words
are the program's, and hands, keys and addresses move it.

Skipped where there is no Chromium; the project's own machine installs it.
"""

from __future__ import annotations

import json
import random
import re
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from math import degrees, isfinite, isnan
from pathlib import Path
from typing import Any

import pytest
from browser import COMMAND, DESKTOP, PHONE, WHY_NOT, Browser, Page, Screen, browser, page

from app.drawing.marks import Area, Dot, Line, Mark, Span
from app.drawing.theme import DARK, LIGHT
from app.features.webpage.document import web_page
from app.features.webpage.model import SLIDERS, TOLD, told_inputs
from app.features.webpage.telling import OF_THE_USER
from app.files.resources import ASSETS
from app.frame import frame
from app.rider.inputs import DEFAULTS, FIELD, OF_LEG, Inputs, changed
from app.rider.setup import DEMO, Setup, edited
from app.rider.trials import entry_of
from app.stance.answer import answer_of
from app.stance.findings import USUAL_LIMITS, findings_of
from app.stance.settled import settled
from app.words.language import NAMES, speaking
from app.words.lengths import Lengths
from app.words.sentences import plain, spoken
from app.words.units import fixed

pytestmark = pytest.mark.skipif(COMMAND is None, reason=WHY_NOT)

ON = date(2026, 1, 31)
STANCES = 2_000


@pytest.fixture(scope="module")
def chromium(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Browser]:
    with browser(tmp_path_factory.mktemp("profile")) as running:
        yield running


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("pages")


@pytest.fixture(scope="module")
def demo(folder: Path) -> Path:
    return written(DEMO, folder / "demo.html")


@pytest.fixture(scope="module")
def phone(chromium: Browser) -> Iterator[Page]:
    with page(chromium, PHONE) as shown:
        yield shown


@pytest.fixture(scope="module")
def desktop(chromium: Browser) -> Iterator[Page]:
    with page(chromium, DESKTOP) as shown:
        yield shown


def written(setup: Setup, file: Path, **told: Any) -> Path:
    file.write_bytes(web_page(setup, ON, **told))
    return file


def random_inputs(dice: random.Random) -> Inputs:
    """A stance from anywhere on the sliders, mostly near a rider's; the legs unequal."""
    changes: dict[str, Any] = {"lead_foot": dice.choice(("left", "right"))}
    for field in TOLD:
        names = [f"{side}_{field.name}" for side in ("left", "right")]
        for name in names if field.name in OF_LEG else [field.name]:
            usual, wide = DEFAULTS.value(field.name), 0.5 * (field.high - field.low)
            value = usual + wide * dice.uniform(-1.0, 1.0) * dice.choice((0.1, 0.3, 0.7))
            changes[name] = min(max(value, field.low), field.high)
    for side in ("left", "right"):
        hip, ankle = changes[f"{side}_hip_height_mm"], changes[f"{side}_ankle_height_mm"]
        share = dice.uniform(0.42, 0.58)
        knee = ankle + share * (hip - ankle)
        changes[f"{side}_knee_height_mm"] = min(max(knee, 200.0), 650.0)
    return changed(DEFAULTS, **changes)


def address(inputs: Inputs) -> str:
    """The address that sets every input, those of legs by their sides."""
    told = told_inputs(inputs)
    flat = {name: value for name, value in told.items() if not isinstance(value, dict)}
    flat |= {f"{s}_{name}": v for s in ("left", "right") for name, v in told[s].items()}
    return "&".join(f"{name}={value}" for name, value in flat.items())


@pytest.fixture(scope="module")
def stances() -> list[Inputs]:
    dice = random.Random(13)
    return [random_inputs(dice) for _ in range(STANCES)]


def solved_on_page(shown: Page, stances: list[Inputs]) -> list[list[float | None]]:
    """Both legs of each stance as the page solves what an address asks for."""
    addresses = json.dumps([address(each) for each in stances])
    told: list[list[float | None]] = shown.value(
        f"""{addresses}.map((hash) => {{
            const [made, refused] = asked(hash), solved = solve(made);
            if (refused.length) throw new Error(refused.join());
            return ENDS.flatMap((end) => {{
                const leg = solved[end];
                return [leg.offPlane, leg.kneeFlexion, leg.bootFlex, leg.wantedGive, leg.lean]
                    .map((angle) => angle / RADIANS).concat(leg.knee, leg.hip);
            }}).concat(solved.mass, solved.share, solved.rearAtFault, solved.leavesPlane);
        }})"""
    )
    return told


def solved_here(inputs: Inputs) -> list[float]:
    posture = settled(inputs).posture
    told: list[float] = []
    for leg in posture.legs:
        angles = (leg.off_plane, leg.knee_flexion, leg.boot_flex, leg.wanted_give, leg.lean)
        told += [degrees(float(each)) for each in angles]
        told += [*map(float, leg.knee_centre), *map(float, leg.hip_centre)]
    share = float(posture.front_share)
    fault = [] if posture.exists else [float(posture.rear_at_fault), float(posture.leaves_plane)]
    return [*told, *map(float, posture.mass_centre), share, *(fault or [0.0, 0.0])]


def test_the_page_settles_2000_stances_as_the_program_does(
    desktop: Page, demo: Path, stances: list[Inputs]
) -> None:
    desktop.open(demo)
    here = [solved_here(each) for each in stances]
    there = solved_on_page(desktop, stances)
    stand = [row for row in here if not isnan(row[0])]
    assert len(stand) > 1_000
    assert len(stand) < STANCES - 50  # those that do not stand are compared too
    for one, other in zip(here, there, strict=True):
        for a, b in zip(one, other, strict=True):
            assert isnan(a) if b is None else abs(a - b) < 1e-6


def flat_points(mark: Mark | dict[str, Any]) -> list[float]:
    if isinstance(mark, dict):
        points = mark.get("points") or [mark[k] for k in ("at", "start", "end") if k in mark]
        return [part for point in points for part in point]
    if isinstance(mark, Line | Area):
        return [part for point in mark.points for part in point]
    points = (mark.at,) if isinstance(mark, Dot) else (mark.start, mark.end)  # type: ignore[union-attr]
    return [part for point in points for part in point]


LEFT_OUT = ("across_axis", "short_axes")
"""Of the plan: lines for which a phone has no room."""


def test_the_page_draws_the_same_marks_as_the_program(
    desktop: Page, demo: Path, stances: list[Inputs]
) -> None:
    desktop.open(demo)
    some = [DEFAULTS, changed(DEFAULTS, stance_length_mm=0.0, across_spacing_mm=140.0)]
    some += stances[:120]
    told = desktop.value(
        f"""{json.dumps([address(each) for each in some])}.map((hash) => {{
            const shown = shownOf(asked(hash)[0]);
            return {{
                above: fromAbove(shown), front: fromTheFront(shown), side: fromTheSide(shown),
            }};
        }})"""
    )
    compared = 0
    for inputs, views in zip(some, told, strict=True):
        scenes = frame(Setup(inputs=inputs)).scenes
        for key, view in views.items():
            ours = [
                mark
                for mark in scenes[key].marks
                if isinstance(mark, Line | Area | Dot | Span) and not mark.key.endswith(LEFT_OUT)
            ]
            assert sorted((m.key, m.role) for m in ours) == sorted(
                (m["key"], m["role"]) for m in view["marks"]
            )
            by_key = sorted(view["marks"], key=lambda m: (m["key"], flat_points(m)))
            for one, other in zip(
                sorted(ours, key=lambda m: (m.key, flat_points(m))), by_key, strict=True
            ):
                assert flat_points(one) == pytest.approx(flat_points(other), abs=1e-6), one.key
                compared += 1
    assert compared > 5_000


# Words and numbers


@pytest.mark.parametrize("language", NAMES)
def test_the_page_says_of_every_leg_what_the_program_says(
    desktop: Page, folder: Path, stances: list[Inputs], language: str
) -> None:
    some = [*stances[:150], DEFAULTS]
    with speaking(language, ASSETS / "texts"):
        desktop.open(written(DEMO, folder / f"{language}.html"))
        told = desktop.value(
            f"""{json.dumps([address(each) for each in some])}.map((hash) => {{
                inputs = asked(hash)[0];
                const shown = show();
                return [...ENDS.map((end) => byId(`${{end}}-off-plane`).textContent),
                    ...ENDS.map((end) => shown.legs[end].boot),
                    ...TOLD.sliders.map(({{name}}) =>
                        byId(`${{name}}-said`).textContent)];
            }})"""
        )
        for inputs, said in zip(some, told, strict=True):
            legs = findings_of(settled(inputs), USUAL_LIMITS).legs.values()
            values = [spoken(FIELD[name], inputs.value(name)) for name in SLIDERS]
            stands = all(isfinite(leg.off_plane_deg) for leg in legs)
            boots = [leg.boot if stands else said[2 + i] for i, leg in enumerate(legs)]
            assert said == [*(leg.spoken for leg in legs), *boots, *values]
        assert desktop.value("document.documentElement.lang") == language


@pytest.mark.parametrize(
    "value", [0.25, 0.75, -0.25, 1.05, 2.5, 3.5, 0.125, -0.04, 1e-9, 99.95, 0.35]
)
def test_a_number_is_rounded_as_in_the_program(desktop: Page, demo: Path, value: float) -> None:
    desktop.open(demo)
    there = desktop.value(
        f"[fixed({value}, 1), plain({value}), plain({value}, 0), fixed({value}, 2)]"
    )
    assert there == [fixed(value, 1), plain(value), plain(value, 0), fixed(value, 2)]


def test_lengths_are_written_in_the_unit_chosen(desktop: Page, folder: Path) -> None:
    desktop.open(written(DEMO, folder / "inches.html", lengths=Lengths("in")))
    said = "byId('stance_length_mm-said').textContent"
    assert desktop.value(said) == Lengths("in").shown(505.0, "mm")
    assert "19.9 in" in desktop.value("byId('drawn-above').textContent")


# The answer


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


def off_plane(shown: Page) -> list[float]:
    found: list[float] = shown.value(
        "ENDS.map((end) => Number(byId(`${end}-off-plane`).dataset.value))"
    )
    return found


def here(inputs: Inputs) -> list[float]:
    return [degrees(float(leg.off_plane)) for leg in settled(inputs).posture.legs]


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


# Screens


SCREENS = (PHONE, Screen(320, 568, touch=True), Screen(844, 390, touch=True), DESKTOP,
           Screen(1024, 700), Screen(1920, 1080))  # fmt: skip


@pytest.mark.parametrize("screen", SCREENS)
@pytest.mark.parametrize("language", NAMES)
def test_nothing_is_too_small_or_beside_the_screen(
    desktop: Page, folder: Path, screen: Screen, language: str
) -> None:
    with speaking(language, ASSETS / "texts"):
        file = written(DEMO, folder / f"{language}.html")
    desktop.show_on(screen)
    desktop.open(file, "front_angle_deg=10&stance_length_mm=600")
    assert desktop.value("document.documentElement.scrollWidth") == screen.width
    small = desktop.value(
        """[...document.querySelectorAll('body *')].filter((part) => part.checkVisibility()
            && [...part.childNodes].some((node) => node.nodeType === 3 && node.data.trim())
            && parseFloat(getComputedStyle(part).fontSize) < 16).map((part) => part.outerHTML)"""
    )
    assert small == []
    targets = desktop.value(
        """[...document.querySelectorAll('button, input[type=range], .choice label')]
            .filter((part) => part.checkVisibility())
            .map((part) => part.getBoundingClientRect()).map((box) => [box.width, box.height])"""
    )
    assert len(targets) >= 3 * len(SLIDERS)
    assert min(min(each) for each in targets) >= 24.0
    outside = desktop.value(
        """[...document.querySelectorAll('svg.drawn')].filter((svg) => svg.checkVisibility())
            .flatMap((svg) => { const all = svg.getBoundingClientRect();
                return [...svg.querySelectorAll('text')].filter((word) => {
                    const box = word.getBoundingClientRect();
                    return box.left < all.left - 1 || box.right > all.right + 1
                        || box.top < all.top - 1 || box.bottom > all.bottom + 1;
                }).map((word) => word.textContent); })"""
    )
    desktop.show_on(DESKTOP)
    assert outside == []


def test_every_control_has_a_name(desktop: Page, demo: Path) -> None:
    desktop.open(demo)
    nodes = desktop.ask("Accessibility.getFullAXTree")["nodes"]
    named = {"slider", "button", "radio", "image", "heading", "region"}
    found = [
        (node["role"]["value"], node.get("name", {}).get("value", ""))
        for node in nodes
        if not node.get("ignored") and node.get("role", {}).get("value") in named
    ]
    assert len([role for role, _ in found if role == "slider"]) == len(SLIDERS)
    assert [role for role, name in found if not name] == []
    names = [name for role, name in found if role == "button"]
    assert len({*names}) == len(names)


@pytest.mark.parametrize("theme", [LIGHT, DARK])
def test_the_page_is_light_or_dark_as_the_reader_likes(
    desktop: Page, demo: Path, theme: Any
) -> None:
    desktop.show_on(DESKTOP._replace(dark=theme.dark))
    desktop.open(demo)
    found = desktop.value(
        """[getComputedStyle(document.body).backgroundColor,
            getComputedStyle(document.querySelector('.front-bone-near')).stroke,
            getComputedStyle(document.querySelector('#rear-off-plane')).color]"""
    )
    desktop.show_on(DESKTOP)
    assert found == [rgb(theme.panel), rgb(theme.front), rgb(theme.accent_text)]


def rgb(colour: str) -> str:
    return f"rgb({', '.join(str(part) for part in bytes.fromhex(colour[1:]))})"


@pytest.mark.parametrize("calm", [True, False])
def test_legs_move_to_a_stance_only_where_motion_is_wanted(
    desktop: Page, folder: Path, calm: bool
) -> None:
    setup = edited(DEMO, front_angle_deg=10.0, rear_angle_deg=5.0, stance_length_mm=560.0)
    desktop.show_on(DESKTOP._replace(calm=calm))
    desktop.open(written(setup, folder / "wide.html"))
    aim = answer_of(setup).front.begin.cant_deg
    cants = desktop.value(
        """new Promise((done) => {
            const seen = [];
            byId('put-on').click();
            const look = () => { seen.push(inputs.front_cant_deg);
                if (inputs.front_cant_deg === TOLD.begin.front_cant_deg) done(seen);
                else requestAnimationFrame(look); };
            look();
        })"""
    )
    desktop.show_on(DESKTOP)
    assert cants[-1] == aim
    assert (len(cants) == 1) is calm
    assert cants == sorted(cants)


# What must not happen


HOSTILE = (
    "</script><script>hacked=1</script><img src=x onerror=hacked=2>\"'&lt;${hacked=3}$title\u2028"
)


def test_what_a_user_typed_is_shown_letter_for_letter(desktop: Page, folder: Path) -> None:
    trial = entry_of(DEFAULTS, "2026-01-31", ("even", "even"), ("even", "even"), HOSTILE[:50])
    setup = replace(DEMO, name=HOSTILE[:70], notes=HOSTILE, trials=(trial,))
    desktop.open(written(setup, folder / "hostile.html", telling=OF_THE_USER))
    assert desktop.complaints() == []
    assert desktop.value("typeof hacked") == "undefined"
    assert desktop.value("document.querySelectorAll('img').length") == 0
    assert desktop.value("document.querySelector('.told-too').textContent") == HOSTILE
    assert desktop.value("document.querySelector('h1').textContent") == setup.called
    assert "</script><script>" in desktop.value("document.querySelector('.trials').textContent")
    assert off_plane(desktop) == pytest.approx(here(DEFAULTS), abs=1e-6)


def test_the_page_asks_for_nothing_and_lets_nothing_else_run(desktop: Page, demo: Path) -> None:
    desktop.open(demo)
    assert desktop.complaints() == []
    desktop.value(
        """(() => { const script = document.createElement('script');
            script.textContent = 'hacked = 1'; document.body.append(script);
            const picture = document.createElement('img');
            picture.src = 'https://example.invalid/a.png'; document.body.append(picture); })()"""
    )
    desktop.value("new Promise((done) => setTimeout(done, 50)).then(() => 0)")
    assert desktop.value("typeof hacked") == "undefined"
    refused = [re.sub(r"\s+", " ", each) for each in desktop.complaints()]
    assert len([each for each in refused if "Content Security Policy" in each]) >= 2


def test_the_answer_and_the_caution_stand_there_without_scripts(
    chromium: Browser, demo: Path
) -> None:
    with page(chromium, PHONE) as shown:
        shown.ask("Emulation.setScriptExecutionDisabled", value=True)
        shown.open(demo)
        text = shown.text()
    assert "not medical advice" in text
    assert "need JavaScript" in text
    assert re.search(r"1\.0° toe lift", text)
