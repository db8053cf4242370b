"""How long it takes to rank parts and to search the reachable stances.  Measured, never asserted.

Run with ``sh tests/run.sh --benchmark-only tests/bench``.
"""

from __future__ import annotations

import math
from itertools import pairwise
from time import perf_counter

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from app.files.parts_file import parts_opened
from app.files.resources import SHARED
from app.rider.inputs import DEFAULTS, model
from app.rider.parts import model as parts_model
from geometry.fitting.answer import USUAL_TERMS
from geometry.fitting.inputs import PostureInputs
from geometry.hardware.candidates import StanceLimits
from geometry.hardware.combinations import combinations_for
from geometry.hardware.parts import Inserts, Kind, Part, PartsList
from geometry.hardware.reachable import Reachable, reachable_stances

ROUND_WEDGES = parts_model(parts_opened(SHARED / "parts-round-wedges.json").parts)


@pytest.fixture
def setup() -> PostureInputs:
    return PostureInputs(*model(DEFAULTS))


def half_a_million() -> tuple[PartsList, StanceLimits]:
    """A pair of 6 deg wedges in steps of 10 deg: 517,482 candidates, every one of them tried."""
    wedge = Part("wedge", Kind.TURNABLE, math.radians(6.0))
    parts = PartsList((wedge,), 1, math.radians(3.0), Inserts(20.0, 440.0, 560.0))
    front, rear, splay = (
        (math.radians(least), math.radians(most))
        for least, most in ((30.0, 60.0), (15.0, 54.0), (0.0, 15.0))
    )
    return parts, StanceLimits(front, rear, (440.0, 540.0), splay)


def test_half_a_million_candidates(benchmark: BenchmarkFixture, setup: PostureInputs) -> None:
    """Asked for: 2 s at most on 2 cores."""
    parts, limits = half_a_million()
    gaps: list[float] = []

    def search() -> Reachable:
        times = [perf_counter()]
        result = None
        for progress in reachable_stances(setup, USUAL_TERMS, parts, limits):
            times.append(perf_counter())
            result = progress.result
        gaps.extend(later - earlier for earlier, later in pairwise(times))
        assert result is not None
        return result

    found = benchmark.pedantic(search, rounds=5)
    benchmark.extra_info["candidates"] = found.searched
    benchmark.extra_info["longest_wait_for_progress_ms"] = round(1e3 * max(gaps), 1)


def test_ranking_the_round_wedges(benchmark: BenchmarkFixture, setup: PostureInputs) -> None:
    """All stacks of two kinds of round wedges, up to two high, for both feet."""
    benchmark(combinations_for, setup, USUAL_TERMS, ROUND_WEDGES)
