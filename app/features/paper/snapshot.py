"""A picture of the stance that can leave the program: drawings, numbers, flags, caution."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QColor, QGuiApplication, QImage, QPainter
from PySide6.QtWidgets import QApplication

from app.drawing.styles import Style
from app.drawing.theme import LIGHT, Theme, printed
from app.features.paper.fit_sheet_text import lift_and_cant
from app.files.resources import ASSETS
from app.frame import Frame, frame
from app.qt.painting.easel import Easel
from app.qt.painting.lettering import load_fonts
from app.qt.painting.page_painting import bytes_of, paragraph, shortened
from app.qt.painting.sheet_painting import paint_sheet, placed
from app.rider.inputs import Inputs, LegInputs
from app.rider.setup import Setup
from app.rider.sharing import without_rider
from app.stance.answer import answer_of
from app.stance.answer_words import both_words
from app.stance.findings import CAUTION
from app.words.language import msgid, tr
from app.words.lengths import IN_MM, Lengths
from app.words.sentences import plain

WIDTH, HEIGHT = 1400.0, 1000.0
"""Size of the picture at scale 1 (logical px)."""
_HEADER, _FOOTER, _EDGE = 96.0, 82.0, 24.0
_LEADS = {"left": msgid("Left foot in front"), "right": msgid("Right foot in front")}
_MOUNTS = {"front": msgid("front {mount}"), "rear": msgid("rear {mount}")}


def snapshot_image(
    shown: Frame, theme: Theme, scale: float, on: date, *, rider: bool = True
) -> QImage:
    """The picture of a frame.

    Args:
        shown: the frame.
        theme: the colours on the screen.
        scale: device pixels to each logical one.
        on: the day on the picture.
        rider: whether it tells the name, and the measures of the body.

    Raises:
        MemoryError: there is not enough memory for a picture that large.
    """
    image = painted_picture(theme, scale, lambda easel: paint_picture(easel, shown, on, rider))
    # 1 inch is 96 logical pixels, so that the picture prints at its natural size.
    per_metre = round(96.0 * scale / 0.0254)
    image.setDotsPerMeterX(per_metre)
    image.setDotsPerMeterY(per_metre)
    return image


def painted_picture(theme: Theme, scale: float, paint: Callable[[Easel], object]) -> QImage:
    """A picture of the usual size, with what is painted on an easel of so many logical pixels.

    Raises:
        MemoryError: there is not enough memory for a picture that large.
    """
    theme = printed(theme)
    image = QImage(round(WIDTH * scale), round(HEIGHT * scale), QImage.Format.Format_RGB32)
    if image.isNull():
        text = tr("there is no memory for a picture at scale {scale}", scale=f"{scale:g}")
        raise MemoryError(text)
    image.fill(QColor(theme.paper))
    with QPainter(image) as painter:
        painter.scale(scale, scale)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        paint(Easel(painter, theme))
    return image


def paint_picture(easel: Easel, shown: Frame, on: date, rider: bool) -> None:
    """Paint header, sheet and caution into a rectangle of the picture's size."""
    _paint_header(easel, shown, on, rider)
    sheet = QRectF(_EDGE - 10.0, _HEADER, WIDTH - 2.0 * _EDGE + 20.0, HEIGHT - _HEADER - _FOOTER)
    windows = {key: scene.window for key, scene in shown.scenes.items()}
    paint_sheet(easel, placed(sheet, windows), shown)
    foot = QRectF(_EDGE, HEIGHT - _FOOTER + 8.0, WIDTH - 2.0 * _EDGE, _FOOTER - 16.0)
    paragraph(easel, foot, tr(CAUTION), Style(text=easel.theme.quiet, size=12.5))


def _paint_header(easel: Easel, shown: Frame, on: date, rider: bool) -> None:
    theme, setup = easel.theme, shown.setup
    title = Style(text=theme.ink, size=22.0, weight=600)
    small = Style(text=theme.quiet, size=13.5)
    dated = f"Kneeline · {on.isoformat()}"
    width = easel.width(dated, small.size, small.weight)
    called = setup.called if rider else without_rider(setup).called
    name = shortened(easel, called, title, WIDTH - 3.0 * _EDGE - width)
    easel.write(QPointF(_EDGE, 36.0), name, title)
    easel.write(QPointF(WIDTH - _EDGE - width, 36.0), dated, small)
    line = summary(setup.inputs, shown.lengths, body=rider)
    easel.write(QPointF(_EDGE, 60.0), line, small._replace(text=theme.ink))
    easel.write(QPointF(_EDGE, 82.0), begin_words(shown), small._replace(text=theme.ink))


def begin_words(shown: Frame) -> str:
    """What both feet begin with, in one line."""
    answer = answer_of(shown.setup, shown.limits)
    front, rear = (both_words(foot.begin) for foot in answer.feet)
    if not answer.exists:
        return tr("Nothing to begin with: no posture settles.")
    return tr("Begin with: front {front}; rear {rear}", front=front, rear=rear)


def summary(inputs: Inputs, lengths: Lengths = IN_MM, *, body: bool = True) -> str:
    """The stance in one line, with the measures of the body or without."""
    across = inputs.across_spacing_mm
    parts = [
        tr(_LEADS[inputs.lead_foot]),
        f"{plain(inputs.front_angle_deg)}° / {plain(inputs.rear_angle_deg)}°",
        tr("stance length {length}", length=lengths.text(inputs.stance_length_mm)),
        *([tr("across {length}", length=lengths.text(across))] if across else []),
        *(
            tr(words, mount=both_words(lift_and_cant(inputs, foot)))
            for foot, words in _MOUNTS.items()
        ),
        *(_body(inputs, lengths) if body else ()),
        _boots(inputs),
    ]
    return " · ".join(parts)


def _body(inputs: Inputs, lengths: Lengths) -> list[str]:
    """Heights of hip, knee and ankle, of either leg where they differ, and natural spacing."""
    front, rear = (_leg_heights(leg, lengths) for leg in (inputs.front, inputs.rear))
    natural = tr("natural spacing {length}", length=lengths.text(inputs.neutral_spacing_mm))
    if front == rear:
        return [front, natural]
    return [tr("front {heights}", heights=front), tr("rear {heights}", heights=rear), natural]


def _leg_heights(leg: LegInputs, lengths: Lengths) -> str:
    heights = (leg.hip_height_mm, leg.knee_height_mm, leg.ankle_height_mm)
    hip, knee, ankle = (lengths.number(each) for each in heights)
    ankle += lengths.unit.suffix
    return tr("hip {hip}, knee {knee}, ankle {ankle}", hip=hip, knee=knee, ankle=ankle)


def _boots(inputs: Inputs) -> str:
    """What both boots allow; of either one where they differ."""
    front, rear = (
        tr(
            "{lean}° ± {range}°, side give {give}°",
            lean=plain(leg.forward_lean_deg),
            range=plain(leg.flex_range_deg),
            give=plain(leg.side_give_deg),
        )
        for leg in (inputs.front, inputs.rear)
    )
    if front == rear:
        return tr("boots {boot}", boot=front)
    return tr("boots: front {front}, rear {rear}", front=front, rear=rear)


def png_bytes(image: QImage) -> bytes:
    """A picture as the bytes of a PNG file."""
    data = bytes_of(lambda device: image.save(device, "PNG"))  # type: ignore[call-overload]
    if not data:
        raise OSError(tr("the picture cannot be turned into a PNG file"))
    return data


def snapshot_png(
    setup: Setup, scale: float, on: date | None = None, *, rider: bool = True
) -> bytes:
    """A PNG of a set-up, made without a window; starts Qt where it is not running."""
    app = QGuiApplication.instance() or QApplication(["kneeline"])
    load_fonts(ASSETS / "fonts")
    image = snapshot_image(frame(setup), LIGHT, scale, on or date.today(), rider=rider)
    del app
    return png_bytes(image)
