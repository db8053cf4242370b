"""A picture of the stance that can leave the program: drawings, numbers, flags, caution."""

from __future__ import annotations

from datetime import date

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QGuiApplication, QImage, QPainter
from PySide6.QtWidgets import QApplication

from app.findings import CAUTION
from app.frame import Frame, frame
from app.inputs import FIELD, Inputs
from app.language import tr
from app.resources import ASSETS
from app.setup import Setup
from app.styles import Style
from app.theme import LIGHT, Theme, printed
from app.units import figure, unit_of
from app.widgets.easel import Easel, pen
from app.widgets.lettering import font
from app.widgets.fonts import load_fonts
from app.widgets.sheet import paint_sheet, placed
from app.words import length_words, plain, spoken

WIDTH, HEIGHT = 1400.0, 1000.0
"""Size of the picture at scale 1 (logical px)."""
_HEADER, _FOOTER, _EDGE = 74.0, 82.0, 24.0


def snapshot_image(shown: Frame, theme: Theme, scale: float, on: date) -> QImage:
    """The picture of a frame, ``scale`` device pixels to each logical one.

    Raises:
        MemoryError: there is not enough memory for a picture that large.
    """
    image = QImage(round(WIDTH * scale), round(HEIGHT * scale), QImage.Format.Format_RGB32)
    if image.isNull():
        raise MemoryError(f"there is no memory for a picture at scale {scale:g}")
    theme = printed(theme)
    image.fill(QColor(theme.paper))
    # 1 inch is 96 logical pixels, so that the picture prints at its natural size.
    per_metre = round(96.0 * scale / 0.0254)
    image.setDotsPerMeterX(per_metre)
    image.setDotsPerMeterY(per_metre)
    with QPainter(image) as painter:
        painter.scale(scale, scale)
        paint_picture(Easel(painter, theme), shown, on)
    return image


def paint_picture(easel: Easel, shown: Frame, on: date) -> None:
    """Paint header, sheet and caution into a rectangle of the picture's size."""
    easel.painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    _paint_header(easel, shown, on)
    sheet = QRectF(_EDGE - 10.0, _HEADER, WIDTH - 2.0 * _EDGE + 20.0, HEIGHT - _HEADER - _FOOTER)
    windows = {key: scene.window for key, scene in shown.scenes.items()}
    paint_sheet(easel, placed(sheet, windows), shown)
    easel.painter.setFont(font(12.5, 400))
    easel.painter.setPen(pen(easel.theme.quiet, 1.0, ()))
    easel.painter.drawText(
        QRectF(_EDGE, HEIGHT - _FOOTER + 8.0, WIDTH - 2.0 * _EDGE, _FOOTER - 16.0),
        int(Qt.TextFlag.TextWordWrap | Qt.AlignmentFlag.AlignLeft),
        tr(CAUTION),
    )


def _paint_header(easel: Easel, shown: Frame, on: date) -> None:
    theme, setup = easel.theme, shown.setup
    title = Style(text=theme.ink, size=22.0, weight=600)
    small = Style(text=theme.quiet, size=13.5)
    easel.write(QPointF(_EDGE, 36.0), setup.name, title)
    dated = f"Kneeline · {on.isoformat()}"
    width = easel.width(dated, small.size, small.weight)
    easel.write(QPointF(WIDTH - _EDGE - width, 36.0), dated, small)
    line = summary(setup.inputs, shown.length_unit)
    easel.write(QPointF(_EDGE, 60.0), line, small._replace(text=theme.ink))


def summary(inputs: Inputs, length_unit: str = "mm") -> str:
    """The stance in one line."""
    mounts = (
        f"{name} "
        + " and ".join(
            dict.fromkeys(
                spoken(FIELD[f"{name}_{what}_deg"], getattr(inputs, f"{name}_{what}_deg"))
                for what in ("lift", "cant")
            )
        )
        for name in ("front", "rear")
    )
    across, unit = inputs.across_spacing_mm, unit_of("mm", length_unit)
    heights = [
        figure(round(each, 1), unit)
        for each in (inputs.hip_height_mm, inputs.knee_height_mm, inputs.ankle_height_mm)
    ]
    parts = [
        f"{inputs.lead_foot} foot in front",
        f"{plain(inputs.front_angle_deg)}° / {plain(inputs.rear_angle_deg)}°",
        f"stance length {length_words(inputs.stance_length_mm, length_unit)}",
        *([f"across {length_words(across, length_unit)}"] if across else []),
        *mounts,
        f"hip {heights[0]}, knee {heights[1]}, ankle {heights[2]}{unit.suffix}",
        f"legs hang {length_words(inputs.neutral_spacing_mm, length_unit)} apart",
        f"boots {plain(inputs.forward_lean_deg)}° ± {plain(inputs.flex_range_deg)}°, "
        f"side give {plain(inputs.side_give_deg)}°",
    ]
    text = " · ".join(parts)
    return text[:1].upper() + text[1:]


def png_bytes(image: QImage) -> bytes:
    """A picture as the bytes of a PNG file."""
    data = QByteArray()
    buffer = QBuffer(data)
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    if not image.save(buffer, "PNG"):  # type: ignore[call-overload]
        raise OSError("the picture cannot be turned into a PNG file")
    buffer.close()
    return bytes(data.data())


def snapshot_png(setup: Setup, scale: float, on: date | None = None) -> bytes:
    """A PNG of a set-up, made without a window; starts Qt where it is not running."""
    app = QGuiApplication.instance() or QApplication(["kneeline"])
    load_fonts(ASSETS / "fonts")
    image = snapshot_image(frame(setup), LIGHT, scale, on or date.today())
    del app
    return png_bytes(image)
