"""A foot dragged far: what it changes stays in sight, and letting go moves nothing at once."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.drawing.marks import Span
from app.handles import centre_of
from app.qt.motion import set_reduced
from app.qt.painting import painting
from app.session import Session
from app.window.window import Window

LEFT = Qt.MouseButton.LeftButton
SIZES = [(1024, 700), (1280, 800)]
FAR = 140
"""How far the hand goes, more than the window has room for (px)."""
NO_JUMP = 0.03
"""By what share of itself a scale may change from one painted moment to the next."""


@pytest.fixture
def window(qtbot: QtBot) -> Window:
    made = Window(Session())
    qtbot.addWidget(made)
    made.show()
    return made


@pytest.fixture
def spans(monkeypatch: pytest.MonkeyPatch) -> set[str]:
    """The keys of the dimensions that were painted since this was last emptied."""
    keys: set[str] = set()
    plain = painting._paint_span

    def watch(easel: object, mark: Span, *told: object) -> None:
        keys.add(mark.key)
        plain(easel, mark, *told)  # type: ignore[arg-type]

    monkeypatch.setattr(painting, "_paint_span", watch)
    return keys


@pytest.fixture
def still() -> Iterator[None]:
    """Nothing moves by itself meanwhile."""
    set_reduced(True)
    yield
    set_reduced(False)


def hold(window: Window, foot: str) -> QPoint:
    """Press on the middle of a foot in the plan; where that is."""
    at = window.sheet.fit("above").point(centre_of(window.session.inputs, foot)).toPoint()
    QTest.mousePress(window.sheet, LEFT, pos=at)
    return at


def go_to(window: Window, at: QPoint) -> float:
    """Move there with the button held, and let the window be painted; the scale of the plan."""
    QTest.mouseMove(window.sheet, at)
    QApplication.processEvents()
    window.sheet.repaint()
    return window.sheet.fit("above").scale


def out_of_sight(window: Window) -> list[str]:
    """Keys of the dimensions that reach out of the view from above."""
    sheet = window.sheet
    frame, placing = sheet._frame, sheet._placing
    assert frame is not None
    assert placing is not None
    view, fit = placing.layout.views["above"], sheet.fit("above")
    spans = [mark for mark in frame.scenes["above"].marks if isinstance(mark, Span)]
    return [
        span.key
        for span in spans
        if not all(view.contains(fit.point(end)) for end in (span.start, span.end))
    ]


@pytest.mark.parametrize(
    ("foot", "angles"), [("front", (45.0, 38.0)), ("rear", (15.0, -9.0)), ("front", (80.0, 75.0))]
)
@pytest.mark.parametrize("page", [None, 0])
@pytest.mark.parametrize("size", SIZES)
def test_what_a_foot_changes_is_seen_whole_and_letting_go_moves_nothing(
    window: Window,
    spans: set[str],
    size: tuple[int, int],
    page: int | None,
    foot: str,
    angles: tuple[float, float],
) -> None:
    window.session.edit(front_angle_deg=angles[0], rear_angle_deg=angles[1])
    window.resize(*size)
    if page is not None:
        window.tray.toggle(page)
    QApplication.processEvents()
    away = -1 if foot == "front" else 1
    at = hold(window, foot)
    scales = [window.sheet.fit("above").scale]
    for far in range(1, FAR + 1):
        spans.clear()
        scales.append(go_to(window, at + QPoint(0, away * far)))
        assert out_of_sight(window) == [], window.session.inputs.stance_length_mm
        assert "length" in spans
    assert window.session.inputs.stance_length_mm == 800.0
    jumps = [round(b / a - 1.0, 3) for a, b in pairwise(scales) if abs(b / a - 1.0) >= NO_JUMP]
    assert jumps == []
    held = window.sheet.fit("above")
    spans.clear()
    QTest.mouseRelease(window.sheet, LEFT, pos=at + QPoint(0, away * FAR))
    QTest.mouseMove(window.sheet, QPoint(2, 2))
    QApplication.processEvents()
    window.sheet.repaint()
    assert window.sheet.fit("above") == held
    assert "length" in spans, "what was changed can be read afterwards too"


def test_a_foot_that_came_back_lets_the_drawing_glide_to_its_scale(
    window: Window, qtbot: QtBot
) -> None:
    window.resize(*SIZES[0])
    QApplication.processEvents()
    before = window.sheet.fit("above").scale
    at = hold(window, "front")
    there = go_to(window, at + QPoint(0, -FAR))
    assert go_to(window, at) == there < before
    seen = [there]
    window.sheet._glide.valueChanged.connect(lambda _: seen.append(window.sheet.fit("above").scale))
    QTest.mouseRelease(window.sheet, LEFT, pos=at)
    qtbot.waitUntil(lambda: window.sheet.fit("above").scale == before)
    assert len(seen) > 2
    assert seen == sorted(seen)


@pytest.mark.usefixtures("still")
def test_where_motion_is_unwelcome_it_is_there_at_once(window: Window) -> None:
    window.resize(*SIZES[0])
    QApplication.processEvents()
    before = window.sheet.fit("above").scale
    at = hold(window, "front")
    go_to(window, at + QPoint(0, -FAR))
    go_to(window, at)
    QTest.mouseRelease(window.sheet, LEFT, pos=at)
    QApplication.processEvents()
    assert window.sheet.fit("above").scale == before


def test_a_hand_that_holds_still_changes_nothing_more(window: Window) -> None:
    window.resize(*SIZES[0])
    QApplication.processEvents()
    at = hold(window, "front")
    go_to(window, at + QPoint(0, -30))
    length = window.session.inputs.stance_length_mm
    for _ in range(5):
        go_to(window, at + QPoint(0, -30))
    assert window.session.inputs.stance_length_mm == length
    go_to(window, at)
    assert window.session.inputs.stance_length_mm == pytest.approx(505.0, abs=5.0)
