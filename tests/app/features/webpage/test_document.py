"""The page as a file: what stands in it, what does not, and what it may do."""

from __future__ import annotations

import json
import re
from base64 import b64encode
from dataclasses import replace
from datetime import date
from hashlib import sha256
from html.parser import HTMLParser
from typing import Any

import pytest

from app.features.webpage.document import SCRIPTS, web_page
from app.features.webpage.look import HATCHED, ROLES, class_of
from app.features.webpage.model import SLIDERS
from app.features.webpage.telling import NAME, NOTES, OF_THE_USER, TRIALS
from app.files.resources import ASSETS
from app.frame import frame
from app.rider.inputs import DEFAULTS
from app.rider.setup import DEMO, Setup, edited
from app.rider.trials import entry_of
from app.stance.answer import answer_of
from app.stance.answer_words import left_words, mend_words, range_words
from app.stance.findings import CAUTION
from app.stance.mending import mending_of
from app.words.language import NAMES, speaking, tr

ON = date(2026, 1, 31)
TRIAL = entry_of(DEFAULTS, "2026-01-30", ("even", "even"), ("even", "even"), "wobbly lane")
OWN = replace(DEMO, name="Ibex of the north", notes="left knee since May", trials=(TRIAL,))
WORDS_OF = {NAME: "Ibex of the north", NOTES: "left knee since May", TRIALS: "wobbly lane"}


class Parts(HTMLParser):
    """Reads a page: its words outside scripts and styles, its parts and what is in them."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.words: list[str] = []
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.raw: dict[str, list[str]] = {"script": [], "style": []}
        self._in = ""
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))
        self._in = tag

    def handle_endtag(self, tag: str) -> None:  # noqa: ARG002
        self._in = ""

    def handle_data(self, data: str) -> None:
        self.raw.get(self._in, self.words).append(data)


def page_of(setup: Setup, **told: Any) -> str:
    return web_page(setup, ON, **told).decode("utf-8")


@pytest.mark.parametrize("telling", [(), (NAME,), (NOTES,), (TRIALS,), OF_THE_USER])
def test_the_page_tells_of_the_users_own_only_what_is_asked_for(telling: tuple[str, ...]) -> None:
    page = page_of(OWN, telling=telling)
    assert {what for what, words in WORDS_OF.items() if words in page} == {*telling}


def test_the_script_is_told_the_inputs_and_nothing_else_of_the_set_up() -> None:
    told = json.loads(Parts(page_of(OWN, telling=OF_THE_USER)).raw["script"][0])
    assert {*told} == {
        *("saved", "begin", "constants", "shape", "limits", "states", "boot_near", "ranges"),
        *("unit", "sliders", "lifts", "words", "decimal_mark", "hatched"),
    }
    assert told["saved"]["left"]["hip_height_mm"] == 880.0
    assert [each["name"] for each in told["sliders"]] == [*SLIDERS]
    assert not any(words in json.dumps(told) for words in WORDS_OF.values())


@pytest.mark.parametrize("language", NAMES)
def test_the_answer_and_the_caution_stand_in_the_page_in_every_language(language: str) -> None:
    with speaking(language, ASSETS / "texts"):
        parts = Parts(page_of(DEMO))
        said = " ".join(parts.words)
        assert tr(CAUTION) in said
        for foot in answer_of(DEMO).feet:
            assert range_words("cant", foot) in said
            assert range_words("lift", foot) in said
    assert ("html", {"lang": language}) in parts.tags


def test_what_stays_out_is_told_with_what_would_mend_it_as_on_paper() -> None:
    held = edited(
        DEMO, front_angle_deg=0.0, rear_angle_deg=0.0, stance_length_mm=540.0, largest_cant_deg=3.0
    )
    answer = answer_of(held)
    mend = mending_of(held, answer)["front"]
    said = " ".join(Parts(page_of(held)).words)
    assert mend_words(mend) in said
    assert left_words(answer.front, mend) in said


def test_what_a_user_typed_ends_no_script_and_opens_no_part() -> None:
    hostile = "</script><script>x=1</script><!--<svg onload=x>$title{}'\"&amp;"
    setup = replace(DEMO, name=hostile, notes=hostile, trials=(replace(TRIAL, notes=hostile),))
    parts, plain = (
        Parts(page_of(setup, telling=OF_THE_USER)),
        Parts(page_of(OWN, telling=OF_THE_USER)),
    )
    assert [tag for tag, _ in parts.tags] == [tag for tag, _ in plain.tags]
    assert parts.raw["script"] == plain.raw["script"]
    assert hostile in "".join(parts.words)


def test_only_its_own_script_and_style_may_run_and_nothing_be_fetched() -> None:
    page = page_of(DEMO)
    parts = Parts(page)
    (policy,) = (at["content"] for tag, at in parts.tags if at.get("http-equiv"))
    allowed = dict(re.findall(r"(script|style)-src 'sha256-([^']+)'", policy or ""))
    for kind, text in (("script", parts.raw["script"][-1]), ("style", "".join(parts.raw["style"]))):
        assert allowed[kind] == b64encode(sha256(text.encode()).digest()).decode()
    assert (policy or "").startswith("default-src 'none'; ")
    assert {*re.findall(r"https?://[^\s\"']+", page)} == {"http://www.w3.org/2000/svg"}
    assert not any({"src", "href", "style", "onclick", "onload"} & {*at} for _, at in parts.tags)


def test_the_page_is_small_enough_to_send() -> None:
    assert len(web_page(DEMO, ON)) < 120_000


def test_a_stance_without_a_posture_has_no_answer_to_put_on_and_says_why() -> None:
    setup = edited(DEMO, stance_length_mm=800.0, hip_height_mm=450.0, knee_height_mm=240.0)
    assert not answer_of(setup).exists
    page = page_of(setup)
    assert 'id="put-on"' not in page
    assert page.count('data-value=""') == 4


def test_every_mark_that_a_script_draws_has_a_rule_in_either_theme() -> None:
    roles = {
        mark.role
        for changes in ({}, {"front_angle_deg": 10.0, "front_lift_deg": 5.0})
        for key in ("above", "front", "side")
        for mark in frame(edited(DEMO, **changes)).scenes[key].marks
        if hasattr(mark, "points") or hasattr(mark, "radius")
    }
    style = "".join(Parts(page_of(DEMO)).raw["style"])
    for role in roles - {"front.across", "rear.across"}:
        assert role in ROLES
        assert style.count(f".{class_of(role)} {{") == 2
    assert {*HATCHED} == {"front.mount", "rear.mount", "wedge.a little out"}


def test_every_script_that_is_there_is_in_the_page() -> None:
    assert {path.name for path in (ASSETS / "web").glob("*.js")} == {*SCRIPTS}


def test_half_a_letter_and_endless_notes_make_a_page_all_the_same() -> None:
    page = page_of(replace(DEMO, notes="\ud800 and on " * 10_000), telling=(NOTES,))
    assert "? and on" in page
    assert len(page) < 150_000
