"""The page on screens of every size, light and dark, in a real browser; what must not happen."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from browser import DESKTOP, PHONE, Browser, Page, Screen, page
from web_pages import here, off_plane, written

from app.drawing.theme import DARK, LIGHT
from app.features.webpage.model import SLIDERS
from app.features.webpage.telling import OF_THE_USER
from app.files.resources import ASSETS
from app.rider.inputs import DEFAULTS
from app.rider.setup import DEMO, edited
from app.rider.trials import entry_of
from app.stance.answer import answer_of
from app.words.language import NAMES, speaking

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
