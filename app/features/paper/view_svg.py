"""Each view as a drawing of its own: SVG that other programs can edit."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QIODevice, QRectF, QSize
from PySide6.QtGui import QPainter
from PySide6.QtSvg import QSvgGenerator

from app.drawing.marks import Scene
from app.drawing.styles import Style
from app.drawing.theme import FONT_FAMILY, Theme, printed
from app.frame import Frame
from app.qt.painting.easel import Easel, brush
from app.qt.painting.page_painting import bytes_of, paint_view, paragraph, paragraph_height
from app.qt.painting.sheet_layout import TITLE_HEIGHT, drawing_area
from app.qt.painting.viewport import fitted
from app.stance.findings import CAUTION
from app.words.language import tr

PIXELS_PER_MM: Final = 0.55
"""How large the rider is drawn (logical px)."""
_LEAST_WIDTH: Final = 460.0
"""Room that call-outs and title take in any view (logical px)."""
_SMALL: Final = 11.0
_EDGE: Final = 10.0
_FACES: Final = f"'{FONT_FAMILY}', 'Barlow Semi Condensed', 'Arial Narrow', Arial, sans-serif"


def view_svgs(frame: Frame, theme: Theme) -> dict[str, bytes]:
    """Every view of a frame as the bytes of an SVG file, by the view's key."""
    return {key: view_svg(scene, frame.setup.called, theme) for key, scene in frame.scenes.items()}


def view_svg(scene: Scene, name: str, theme: Theme) -> bytes:
    """One view with its title and the caution, as the bytes of an SVG file.

    Args:
        scene: the view.
        name: what the set-up is called.
        theme: its colours.
    """
    theme = printed(theme)
    view = _view_of(scene)
    text = paragraph_height(tr(CAUTION), view.width() - 2.0 * _EDGE, _SMALL)
    size = QSize(round(view.width()), round(view.height() + text + 2.0 * _EDGE))
    whole = QRectF(0.0, 0.0, size.width(), size.height())
    # XML knows no control characters.
    plain = "".join(letter if letter.isprintable() else " " for letter in name)

    def write(device: QIODevice) -> None:
        made = QSvgGenerator(QSvgGenerator.SvgVersion.Svg11)
        made.setOutputDevice(device)
        made.setSize(size)
        made.setViewBox(whole)
        made.setResolution(96)
        made.setTitle(f"{scene.title}: {plain}")
        made.setDescription(f"{scene.text} {tr(CAUTION)}")
        with QPainter(made) as painter:
            painter.fillRect(whole, brush(theme.paper))
            _paint(Easel(painter, theme), scene, view, text)

    return _read_anywhere(bytes_of(write))


def _paint(easel: Easel, scene: Scene, view: QRectF, caution_height: float) -> None:
    """One view in an area, and the caution under it."""
    fit = fitted(scene.window, drawing_area(scene.key, view, 1.0))
    left, right = view.left() + _EDGE, view.right() - _EDGE
    fit = fit._replace(left=left, right=right, top=TITLE_HEIGHT + 4)
    paint_view(easel, scene, fit, view, scene.title)
    foot = QRectF(_EDGE, view.bottom() + _EDGE, view.width() - 2.0 * _EDGE, caution_height)
    paragraph(easel, foot, tr(CAUTION), Style(text=easel.theme.quiet, size=_SMALL))
    easel.finish()


def _read_anywhere(svg: bytes) -> bytes:
    """The drawing with faces to fall back on, narrow ones first so that words keep their room.

    A browser that does not have ours would else take one with serifs.
    """
    for family in (FONT_FAMILY, "Sans Serif"):
        names = f'font-family="{family}"'.encode()
        svg = svg.replace(names, f'font-family="{_FACES}"'.encode())
    return svg


def _view_of(scene: Scene) -> QRectF:
    """The area that a view needs at its scale, with the room around the drawing."""
    trial = QRectF(0.0, 0.0, 1000.0, 1000.0)
    inside = drawing_area(scene.key, trial, 1.0)
    width = PIXELS_PER_MM * scene.window.width + trial.width() - inside.width()
    height = PIXELS_PER_MM * scene.window.height + trial.height() - inside.height()
    return QRectF(0.0, 0.0, max(width, _LEAST_WIDTH), height)
