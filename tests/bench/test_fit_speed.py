"""How fast a rider is fitted: medians are printed, nothing is asserted of time.

Aims on one core of a common machine: full fit with margins 6 ms, map of
120 x 100 stances 80 ms, sweep through the bend within a frame.
"""

from __future__ import annotations

import numpy as np
import pytest
from fit_riders import demo
from pytest_benchmark.fixture import BenchmarkFixture

from geometry.fitting.answer import USUAL_TERMS
from geometry.fitting.certainty import certainty_of
from geometry.fitting.fit import fit_of
from geometry.fitting.margins import margins_of
from geometry.fitting.proposal import Proposal, proposal_of
from geometry.fitting.stance_map import stance_map_of
from geometry.fitting.sweep import riding_range

SPREADS = {
    **dict.fromkeys(("hip_height", "knee_height", "ankle_height", "foot_length"), 5.0),
    **dict.fromkeys(("hip_spacing", "neutral_spacing", "stance_length", "sole_thickness"), 4.0),
    **dict.fromkeys(("front_angle", "rear_angle", "forward_lean", "side_give"), 0.01),
    **dict.fromkeys(("flex_range", "knee_bend", "hips_turned", "knee_tracking"), 0.02),
    **{"hip_shift": 15.0, "back_lean": 0.05, "cuff_offset": 0.01},
}


def told(benchmark: BenchmarkFixture, what: str) -> None:
    if benchmark.stats is not None:
        print(f"\n{what}: median {1e3 * benchmark.stats.stats.median:.2f} ms")


@pytest.mark.parametrize("angles", [(43.0, 38.0), (90.0, 90.0)])
def test_full_fit_with_margins(benchmark: BenchmarkFixture, angles: tuple[float, float]) -> None:
    setup = demo(*angles)
    margins = benchmark(lambda: margins_of(setup, fit_of(*setup), SPREADS))
    told(benchmark, f"fit with margins of {len(SPREADS)} inputs at {angles}")
    assert margins.front.full_cant > 0.0


def test_map_of_120_by_100_stances(benchmark: BenchmarkFixture) -> None:
    angles, ratios = np.radians(np.linspace(0.0, 90.0, 120)), np.linspace(1.2, 2.4, 100)
    cants = benchmark(stance_map_of, demo(43.0, 38.0), angles, ratios)
    told(benchmark, "map of 120 x 100 stances")
    assert cants.cant.shape == (100, 120)


def test_limits_of_the_bend(benchmark: BenchmarkFixture) -> None:
    over = benchmark(riding_range, *demo(43.0, 38.0))
    told(benchmark, "tallest and deepest posture")
    assert over.bends[0] < over.bends[-1]


def test_answer_with_its_ranges(benchmark: BenchmarkFixture) -> None:
    setup = demo(43.0, 38.0)

    def both() -> Proposal:
        sure = certainty_of(setup, USUAL_TERMS, SPREADS)
        return proposal_of(setup, USUAL_TERMS, found=sure.answer)

    found = benchmark(both)
    told(benchmark, "answer with ranges of both feet")
    assert found.mounts.cant.shape == (2, 1)
