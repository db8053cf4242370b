"""How long a clip takes, and how large it is.  Measured, never asserted.

Aims on two cores of a common machine: 80 pictures of the whole sheet at 1000 px within 4 s;
GIF 4.5 MB, WebP 3.5 MB.  Run with ``sh tests/run.sh --benchmark-only tests/bench``.
"""

from __future__ import annotations

from datetime import date

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from app.features.clip.encoding import ENDINGS
from app.features.clip.making import Look, Studio, clip_file
from app.features.clip.model import Extras, film_of, strip_of
from app.features.paper.handout import handout_of, handout_pdf
from app.features.player.model import Sweep
from app.files.resources import ASSETS
from app.frame import frame
from app.qt.painting.lettering import load_fonts
from app.rider.setup import Setup
from geometry.fitting.steps import finished

DAY = date(2026, 1, 31)
FILM = film_of(Setup(), Sweep("front_angle_deg", 0.0, 60.0), Extras(4.0))


@pytest.fixture(autouse=True)
def drafting_face(qapp: object) -> None:
    load_fonts(ASSETS / "fonts")


@pytest.mark.parametrize("ending", ENDINGS)
def test_eighty_pictures_of_the_whole_sheet(benchmark: BenchmarkFixture, ending: str) -> None:
    file = benchmark.pedantic(
        lambda: clip_file(strip_of(FILM, frame), Look(), ending, DAY), rounds=3
    )
    benchmark.extra_info["MB"] = round(len(file) / 1e6, 2)


def test_a_size_foretold(benchmark: BenchmarkFixture) -> None:
    benchmark.pedantic(
        lambda: finished(Studio(strip_of(FILM, frame), Look(), DAY).foretold(".gif")), rounds=3
    )


def test_a_handout(benchmark: BenchmarkFixture) -> None:
    shown = frame(Setup())
    benchmark.pedantic(lambda: handout_pdf(handout_of(shown, DAY), "A4"), rounds=3)
