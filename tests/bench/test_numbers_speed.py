"""How fast the command line tells of riders: printed, nothing is asserted of time.

Aims on a common machine: `front,rear` of one rider within 100 ms once numpy is loaded, the
answer included; 200 riders within 10 s on two cores.
"""

from __future__ import annotations

import json
import os
import resource
import subprocess
import sys
import time
from pathlib import Path

import numpy as np
import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from app.files.storage import Document, save
from app.numbers import numbers
from app.numbers.question import Question
from app.rider.setup import Setup, edited, estimated

ROOT = Path(__file__).parents[2]
FEET = Question(only=frozenset({"front", "rear"}))
OF_THE_CORE = pytest.mark.benchmark(timer=time.process_time)
"""Time of the process itself, whoever else is at work on the machine."""


def riders(count: int) -> list[Setup]:
    """Riders of all sizes in all kinds of stances, always the same."""
    draw = np.random.default_rng(7).uniform
    found = []
    for i in range(count):
        setup = estimated(Setup(name=f"Rider {i}"), stature_mm=round(draw(1450.0, 1950.0)))
        front = round(draw(-5.0, 60.0))
        angles = {"front_angle_deg": front, "rear_angle_deg": front - round(draw(0.0, 20.0))}
        found.append(edited(setup, stance_length_mm=round(draw(430.0, 560.0)), **angles))
    return found


def started(*arguments: str, folder: Path) -> tuple[bytes, float, float]:
    """What the program prints; its time by the clock and that of its cores (s)."""
    before, begun = resource.getrusage(resource.RUSAGE_CHILDREN), time.perf_counter()
    done = subprocess.run(
        [sys.executable, "-m", "app", *arguments],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        stdout=subprocess.PIPE,
        check=True,
    )
    passed, after = time.perf_counter() - begun, resource.getrusage(resource.RUSAGE_CHILDREN)
    return done.stdout, passed, after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


@OF_THE_CORE
def test_front_and_rear_of_a_rider(benchmark: BenchmarkFixture) -> None:
    many = iter(riders(200) * 50)
    told = benchmark(lambda: numbers(next(many), FEET))
    assert list(told) == ["front", "rear"]
    if benchmark.stats is not None:
        print(f"\nfront,rear of a rider: median {1e3 * benchmark.stats.stats.median:.0f} ms")


@OF_THE_CORE
def test_all_numbers_of_a_rider(benchmark: BenchmarkFixture) -> None:
    many = iter(riders(50) * 50)
    assert len(benchmark(lambda: numbers(next(many)))) > 10
    if benchmark.stats is not None:
        print(f"\nall numbers of a rider: median {1e3 * benchmark.stats.stats.median:.0f} ms")


def test_200_riders_on_all_cores(benchmark: BenchmarkFixture, tmp_path: Path) -> None:
    if benchmark.disabled:
        pytest.skip("is measured only")
    for i, setup in enumerate(riders(200)):
        save(tmp_path / f"{i:03}.json", Document(setup))
    command = [".", "--numbers", "--only", "front,rear"]

    def run() -> tuple[bytes, float, float]:
        return started(*command, folder=tmp_path)

    out, passed, of_cores = benchmark.pedantic(run, rounds=1)
    assert len([json.loads(line) for line in out.splitlines()]) == 200
    print(f"\nfront,rear of 200 riders: {passed:.1f} s, {of_cores:.1f} s of all cores together")


@pytest.mark.parametrize(
    "command", ["--help", "--numbers --only pelvis", "--numbers --only front,rear", "--numbers"]
)
def test_a_whole_command(benchmark: BenchmarkFixture, tmp_path: Path, command: str) -> None:
    if benchmark.disabled:
        pytest.skip("is measured only")
    runs = benchmark.pedantic(
        lambda: min(started(*command.split(), folder=tmp_path)[2] for _ in range(5)), rounds=1
    )
    print(f"\nkneeline {command}: {1e3 * runs:.0f} ms of the cores, the best of five")
