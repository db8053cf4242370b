"""Legs, drawings, words and numbers of the page are the program's, in a real browser."""

from __future__ import annotations

import json
import random
from math import degrees, isfinite, isnan
from pathlib import Path
from typing import Any

import pytest
from browser import Page
from web_pages import address, random_inputs, written

from app.drawing.marks import Area, Dot, Line, Mark, Span
from app.features.webpage.model import SLIDERS
from app.files.resources import ASSETS
from app.frame import frame
from app.rider.inputs import DEFAULTS, FIELD, Inputs, changed
from app.rider.setup import DEMO, Setup
from app.stance.findings import USUAL_LIMITS, findings_of
from app.stance.settled import settled
from app.words.language import NAMES, speaking
from app.words.lengths import Lengths
from app.words.sentences import plain, spoken
from app.words.units import fixed

STANCES = 2_000


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
    some += stances[:60]
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
    assert compared > 4_000


# Words and numbers


@pytest.mark.parametrize("language", NAMES)
def test_the_page_says_of_every_leg_what_the_program_says(
    desktop: Page, folder: Path, stances: list[Inputs], language: str
) -> None:
    some = [*stances[:80], DEFAULTS]
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
