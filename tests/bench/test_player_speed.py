"""How long one frame of what is played takes, on all views and plots.  Measured, never asserted.

Aim: 60 frames a second at 1280 × 800 with the 95th percentile within 12 ms, at twice the
resolution within 16 ms (QT_SCALE_FACTOR=2).
"""

from __future__ import annotations

from itertools import cycle

import pytest
from paced import paced, painted
from pytest_benchmark.fixture import BenchmarkFixture
from pytestqt.qtbot import QtBot
from shown_windows import shown_window

from app.features.player.page import PlayerPage
from app.frame import frame
from app.rider.setup import DEMO
from app.window.lifecycle import WindowThreadGC


@pytest.mark.parametrize("beside", ["Motion", "Stance map", "Through the bend", "All round"])
@pytest.mark.parametrize("kind", ["sweep", "turns"])
def test_one_frame_until_the_window_is_painted(
    benchmark: BenchmarkFixture, qtbot: QtBot, kind: str, beside: str
) -> None:
    """With the worst moment behind it and all traces, and each of the pages that move along."""
    window = shown_window(qtbot)
    WindowThreadGC(window)
    page = window.tray.open_page("Motion")
    assert isinstance(page, PlayerPage)
    page.kind.chosen.emit(kind)
    page.player.pause()
    page.player.seek(1.0)
    window.tray.open_page(beside)
    if beside == "Stance map":
        qtbot.wait(1500)
    phases = cycle([i / 239 for i in range(240)])

    def show() -> None:
        page.player._show_at(next(phases))
        painted()

    paced(benchmark, show)


def test_looking_through_what_is_played(benchmark: BenchmarkFixture, qtbot: QtBot) -> None:
    """What is done once whenever something else is played."""
    window = shown_window(qtbot)
    page = window.tray.open_page("Motion")
    assert isinstance(page, PlayerPage)
    player, live = page.player, frame(DEMO)
    looked = cycle(["facing", "nose"])
    benchmark.pedantic(
        lambda: player.follow(live, frame, next(looked), dragging=False), rounds=10, warmup_rounds=1
    )
