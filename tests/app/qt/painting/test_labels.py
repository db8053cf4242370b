"""Figures and words of the drawings as they are painted: clear of limbs and of each other."""

from __future__ import annotations

from collections.abc import Iterator
from random import Random

import pytest
from PySide6.QtCore import QRectF
from PySide6.QtGui import QImage, QPainter, QPainterPath, QPainterPathStroker, QPolygonF, QTransform

from app.drawing.front import LOOKS
from app.drawing.marks import Area, Line, Mark, Window
from app.drawing.styles import Style, book
from app.drawing.theme import LIGHT
from app.files.resources import ASSETS, starting_points
from app.files.storage import opened
from app.frame import Frame, frame
from app.qt.painting.easel import Easel, box
from app.qt.painting.findings_painting import COMPACT, paint_findings
from app.qt.painting.lettering import load_fonts
from app.qt.painting.painting import paint_mark
from app.qt.painting.sheet_painting import placed
from app.qt.painting.viewport import Viewport
from app.rider.setup import Setup, edited
from app.stance.findings import BOOT_IN, BOOT_NEAR, IN_PLANE
from app.words.language import choose

SIZES = [(700, 632), (956, 730), (1600, 990)]


class Writing(Easel):
    """An easel that keeps where each text stands, from the base line to the capitals' height."""

    key = ""

    def keep_in(self, boxes: list[tuple[str, QPolygonF]]) -> None:
        self.boxes = boxes

    def put(self, x: float, y: float, text: str, look: Style, turn: float = 0.0) -> None:
        size = look.size * self.type_scale
        turned = QTransform().translate(x, y).rotate(turn)
        box = QRectF(0.0, -0.72 * size, self.width(text, look.size, look.weight), 0.72 * size)
        self.boxes.append((self.key, turned.map(QPolygonF(box))))


def closed(points: QPolygonF) -> QPainterPath:
    path = QPainterPath()
    path.addPolygon(points)
    path.closeSubpath()
    return path


def limb(mark: Mark, fit: Viewport) -> QPainterPath | None:
    """What no text may cross: limbs, and the bones seen from above."""
    if isinstance(mark, Area) and ".limb." in mark.role:
        return closed(fit.polygon(mark.points))
    if isinstance(mark, Line) and (mark.role.endswith(".plan") or mark.role.startswith("pelvis")):
        line, wide = QPainterPath(), QPainterPathStroker()
        line.addPolygon(fit.polygon(mark.points))
        wide.setWidth(2.0)
        return wide.createStroke(line)
    return None


def windows_of(shown: Frame) -> dict[str, Window]:
    return {key: scene.window for key, scene in shown.scenes.items()}


def boxes_of(shown: Frame, size: tuple[int, int], key: str) -> list[tuple[str, QPolygonF]]:
    """Where each text of a view stands, by its mark."""
    fit = placed(QRectF(0.0, 0.0, *size), windows_of(shown)).fits[key]
    boxes: list[tuple[str, QPolygonF]] = []
    image = QImage(8, 8, QImage.Format.Format_RGB32)
    with QPainter(image) as painter:
        easel = Writing(painter, LIGHT)
        easel.keep_in(boxes)
        for mark in shown.scenes[key].marks:
            easel.key = f"{key}: {mark.key}"
            paint_mark(easel, mark, fit, box(LIGHT)[mark.role])
    return boxes


def crossings(shown: Frame, size: tuple[int, int]) -> list[str]:
    """Texts that cross a limb or another text, view by view."""
    placing = placed(QRectF(0.0, 0.0, *size), windows_of(shown))
    found: list[str] = []
    for key in placing.layout.views:
        texts = [(name, closed(box)) for name, box in boxes_of(shown, size, key)]
        marks, fit = shown.scenes[key].marks, placing.fits[key]
        limbs = [(mark.key, path) for mark in marks if (path := limb(mark, fit))]
        for i, (name, text) in enumerate(texts):
            crossed = [other for other, path in (*texts[:i], *limbs) if path.intersects(text)]
            found += [f"{name} crosses {other}" for other in crossed]
    return found


@pytest.fixture(autouse=True)
def drafting_face(qapp: object) -> None:
    assert load_fonts(ASSETS / "fonts")


@pytest.mark.parametrize("size", SIZES)
def test_no_text_of_a_starting_point_crosses_a_limb_or_another_text(size: tuple[int, int]) -> None:
    for point in starting_points():
        assert crossings(frame(opened(point.path).setup), size) == [], point.title


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("lead_foot", ["left", "right"])
def test_no_text_crosses_a_limb_or_another_text_while_a_rider_explores(
    size: tuple[int, int], lead_foot: str
) -> None:
    random = Random(20)
    for _ in range(40):
        mean, split = random.uniform(5.0, 70.0), random.uniform(0.0, 15.0)
        stance = edited(
            Setup(),
            lead_foot=lead_foot,
            front_angle_deg=round(mean + split),
            rear_angle_deg=round(mean - split),
            stance_length_mm=random.uniform(350.0, 620.0),
            knee_bend_deg=random.uniform(25.0, 70.0),
            front_cant_deg=0.5 * random.randrange(-16, 17),
            rear_cant_deg=0.5 * random.randrange(-16, 17),
            hips_turned_deg=random.choice([0.0, 15.0, -15.0]),
        )
        assert crossings(frame(stance), size) == [], stance.inputs


@pytest.fixture
def german() -> Iterator[None]:
    choose("de", ASSETS / "texts")
    yield
    choose("en", ASSETS / "texts")


@pytest.mark.parametrize("size", SIZES)
def test_no_german_text_crosses_a_limb_or_another_text(german: None, size: tuple[int, int]) -> None:
    for point in starting_points():
        assert crossings(frame(opened(point.path).setup), size) == [], point.title


@pytest.mark.parametrize("size", SIZES)
def test_the_titles_stay_within_their_views(size: tuple[int, int]) -> None:
    expect_titles_within(size)


@pytest.mark.parametrize("size", SIZES)
def test_the_german_titles_stay_within_their_views(german: None, size: tuple[int, int]) -> None:
    expect_titles_within(size)


def expect_titles_within(size: tuple[int, int]) -> None:
    look = book(LIGHT)["title"]
    image = QImage(8, 8, QImage.Format.Format_RGB32)
    for towards in LOOKS:
        scenes = frame(Setup(), towards).scenes
        windows = {key: scene.window for key, scene in scenes.items()}
        views = placed(QRectF(0.0, 0.0, *size), windows).layout.views
        with QPainter(image) as painter:
            easel = Easel(painter, LIGHT)
            for key, scene in scenes.items():
                room = views[key].width() - 6.0
                assert easel.width(scene.title, look.size, look.weight) <= room, scene.title


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize("width", [680.0, 936.0, 1580.0])
def test_the_words_of_low_cards_end_within_their_card(language: str, width: float) -> None:
    choose(language, ASSETS / "texts")
    boxes: list[tuple[str, QPolygonF]] = []
    image = QImage(8, 8, QImage.Format.Format_RGB32)
    with QPainter(image) as painter:
        easel = Writing(painter, LIGHT)
        easel.keep_in(boxes)
        for stance in (Setup(), edited(Setup(), front_angle_deg=0.0, rear_angle_deg=90.0)):
            paint_findings(easel, QRectF(0.0, 0.0, width, COMPACT), frame(stance))
    choose("en", ASSETS / "texts")
    # Three cards 10 apart, and 12 free before a card's right edge.
    card = (width - 20.0) / 3.0
    ends = [box.boundingRect().right() % (card + 10.0) for _, box in boxes]
    # Name and line of three cards, for each of two stances.
    assert len(ends) == 12
    assert max(ends) <= card - 12.0 + 1.0


def test_a_card_whose_sign_is_of_the_boot_names_the_boot() -> None:
    said: list[str] = []

    class Told(Easel):
        def put(self, x: float, y: float, text: str, look: Style, turn: float = 0.0) -> None:  # noqa: ARG002
            said.append(text)

    image = QImage(8, 8, QImage.Format.Format_RGB32)
    with QPainter(image) as painter:
        easel = Told(painter, LIGHT)
        shown = frame(edited(Setup(), front_lift_deg=1.0, rear_cant_deg=1.5))
        paint_findings(easel, QRectF(0.0, 0.0, 936.0, COMPACT), shown)
    front, rear = shown.findings.legs.values()
    assert (front.boot, rear.boot) == (BOOT_IN, BOOT_NEAR)
    assert rear.state == IN_PLANE
    assert front.spoken in said
    assert f"{rear.spoken}; boot near its stop" in said


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("apart_mm", [0.0, 60.0, 150.0, 300.0, 450.0, 620.0])
def test_the_words_under_the_feet_stay_apart_and_in_their_view(
    size: tuple[int, int], apart_mm: float
) -> None:
    square = {"front_angle_deg": 0.0, "rear_angle_deg": 0.0}
    canted = {"front_cant_deg": -7.5, "rear_cant_deg": -7.5}
    shown = frame(edited(Setup(), stance_length_mm=apart_mm, **square, **canted))
    front, rear = (box for key, box in boxes_of(shown, size, "front") if key.endswith(".cant"))
    view = placed(QRectF(0.0, 0.0, *size), windows_of(shown)).layout.views["front"]
    assert not front.boundingRect().intersects(rear.boundingRect())
    assert view.contains(front.boundingRect().united(rear.boundingRect()))


def test_the_rear_angle_stays_clear_of_a_figure_where_that_foot_is_turned_far_more() -> None:
    random = Random(11)
    for _ in range(40):
        turned = random.uniform(20.0, 45.0)
        stance = edited(
            Setup(),
            front_angle_deg=0.0,
            rear_angle_deg=turned,
            stance_length_mm=random.uniform(380.0, 600.0),
        )
        assert crossings(frame(stance), SIZES[0]) == [], stance.inputs


def test_the_stance_length_stays_clear_of_a_deep_crouch_with_the_right_foot_in_front() -> None:
    for bend in range(60, 96, 5):
        stance = edited(Setup(), lead_foot="right", knee_bend_deg=float(bend))
        assert crossings(frame(stance), SIZES[0]) == [], bend
