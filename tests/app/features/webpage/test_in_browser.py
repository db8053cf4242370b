"""The page in a real browser, from its file and without a network: its legs, drawings and words
are the program's, and hands, keys and addresses move it.

Skipped where there is no Chromium; the project's own machine installs it.
"""

from __future__ import annotations

import json
import random
from collections.abc import Iterator
from datetime import date
from math import degrees, isnan
from pathlib import Path
from typing import Any

import pytest
from browser import COMMAND, DESKTOP, PHONE, WHY_NOT, Browser, Page, Screen, browser, page

from app.drawing.marks import Area, Dot, Line, Mark, Span
from app.features.webpage.document import web_page
from app.features.webpage.model import SLIDERS, TOLD, told_inputs
from app.features.webpage.words import ENDS
from app.files.resources import ASSETS
from app.frame import frame
from app.rider.inputs import DEFAULTS, FIELD, OF_LEG, Inputs, changed
from app.rider.setup import DEMO, Setup, edited
from app.stance.answer import answer_of
from app.stance.findings import USUAL_LIMITS, findings_of
from app.stance.settled import settled
from app.words.language import NAMES, choose
from app.words.lengths import Lengths
from app.words.sentences import plain, spoken
from app.words.units import fixed, shortest

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
            return {{above: fromAbove(shown), front: fromTheFront(shown), side: fromTheSide(shown)}};
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
