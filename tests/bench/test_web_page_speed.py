"""How long the web page takes to be made, and to solve and draw one step of a slider.

Measured, never asserted.  Aim: a step well under 16 ms on a phone, which is some five times
slower than a desktop (common practice, no source).
"""

from __future__ import annotations

from datetime import date
from pathlib import Path
from statistics import median

import pytest
from browser import COMMAND, PHONE, WHY_NOT, browser, page
from pytest_benchmark.fixture import BenchmarkFixture
from web_pages import written

from app.features.webpage.document import web_page
from app.rider.setup import DEMO

STEPS = """(() => {
    const take = (what) => { const t = performance.now(); what(); return performance.now() - t; };
    const times = {solve: [], show: []};
    for (let i = 0; i < 400; i += 1) {
        inputs = {...inputs, rear_angle_deg: -20 + 0.1 * i};
        times.solve.push(take(() => { for (let k = 0; k < 20; k += 1) solve(inputs); }) / 20);
        times.show.push(take(() => { show(); document.body.getBoundingClientRect(); }));
    }
    return times;
})()"""


def test_making_the_page(benchmark: BenchmarkFixture) -> None:
    benchmark.pedantic(lambda: web_page(DEMO, date(2026, 1, 31)), rounds=30, warmup_rounds=2)


@pytest.mark.skipif(COMMAND is None, reason=WHY_NOT)
def test_one_step_of_a_slider_on_the_page(benchmark: BenchmarkFixture, tmp_path: Path) -> None:
    with browser(tmp_path) as running, page(running, PHONE) as shown:
        shown.open(written(DEMO, tmp_path / "page.html"))
        times = benchmark.pedantic(lambda: shown.value(STEPS), rounds=1, warmup_rounds=1)
    for what, taken in times.items():
        benchmark.extra_info[f"{what}_ms"] = round(median(taken), 3)
        benchmark.extra_info[f"{what}_p95_ms"] = round(sorted(taken)[int(0.95 * len(taken))], 3)
