"""The sheet as a painting: views with their titles, findings, and what is said over them."""

from __future__ import annotations

from itertools import pairwise
from typing import NamedTuple

from PySide6.QtCore import QPointF, QRectF, Qt

from app.drawing.marks import Callout, Label, Scene, Window
from app.drawing.styles import Style, book
from app.frame import Frame
from app.qt.painting.easel import SMOOTH, Easel, brush, pen
from app.qt.painting.findings_painting import HEIGHT, paint_findings
from app.qt.painting.lettering import font
from app.qt.painting.painting import paint_scene
from app.qt.painting.sheet_layout import Layout, fits_of, is_crowded, is_low, laid_out
from app.qt.painting.viewport import Viewport
from app.words.language import msgid, tr


class Placing(NamedTuple):
    """Where everything stands on a sheet of one size."""

    layout: Layout
    fits: dict[str, Viewport]


def placed(
    area: QRectF, windows: dict[str, Window], type_scale: float = 1.0, findings: float = HEIGHT
) -> Placing:
    """Where the views with these windows stand on a sheet, over findings of some height."""
    layout = laid_out(area, findings * type_scale, type_scale)
    return Placing(layout, fits_of(layout, windows, type_scale))


LEAST_DIMENSIONED = 0.18
"""Scale (logical px to the mm) below which plan and front view go without their dimensions."""
LEFT_OUT = {
    "above": frozenset({"dimension", "projection", "word", "why.span"}),
    "front": frozenset({"front.slope", "rear.slope"}),
}
"""Roles of the marks that are left out then, by view: their text would cover what it measures."""
STAYS = {
    "stance_length_mm": frozenset({"length", "length.projection"}),
    "across_spacing_mm": frozenset({"across", "across.projection"}),
}
"""Keys of the dimensions that stand beside the board, by what they measure."""
LEAST_FIGURE = 40.0
"""How long they are at least (logical px), so that their figures have room along them."""
LEAST_DRAWN = 0.05
"""Scale below which a leg would be no more than a dot among words: only those are shown."""
LOW = frozenset({"word"})
"""Roles that are left out of a low plan, which stands beside its title."""


def paint_sheet(
    easel: Easel,
    placing: Placing,
    frame: Frame,
    lit: frozenset[str] = frozenset(),
    *,
    presented: bool = False,
) -> None:
    """Paint every view with its title, and the findings under them."""
    title = book(easel.theme)["title"]
    _paint_rules(easel, placing.layout)
    easel.painter.setRenderHint(SMOOTH)
    low = LOW if is_low(placing.layout) else frozenset()
    for key, area in placing.layout.views.items():
        base = area.top() + 1.25 * title.size * easel.type_scale
        easel.put(area.left() + 6.0, base, frame.scenes[key].title, title)
        fit = placing.fits[key]
        crowded = key == "front" and (
            is_crowded(area.height(), easel.type_scale)
            or _cants_touch(easel, frame.scenes["front"], fit)
        )
        if fit.scale < LEAST_DRAWN:
            paint_scene(easel, _words_alone(frame.scenes[key]), fit)
        elif fit.scale < LEAST_DIMENSIONED or crowded:
            kept = _dimensions_kept(frame, fit.scale) if key == "above" else frozenset[str]()
            paint_scene(easel, frame.scenes[key], fit, lit, LEFT_OUT.get(key, low), kept=kept)
        else:
            paint_scene(easel, frame.scenes[key], fit, lit, low)
    paint_findings(easel, placing.layout.findings, frame, presented=presented)
    easel.finish()


def _cants_touch(easel: Easel, scene: Scene, fit: Viewport) -> bool:
    """Whether the cants under both feet, as large as they are written, would overlap."""
    look = book(easel.theme)["front.slope"]
    ends = sorted(
        (fit.xy(mark.at)[0] + mark.shift[0], 0.5 * easel.width(mark.text, look.size, look.weight))
        for mark in scene.marks
        if isinstance(mark, Label) and mark.key.endswith(".cant")
    )
    return any(b - a < half + other for (a, half), (b, other) in pairwise(ends))


def _words_alone(scene: Scene) -> Scene:
    """What is said over a drawing, pointing at nothing."""
    said = [mark._replace(target=None) for mark in scene.marks if isinstance(mark, Callout)]
    return scene._replace(marks=tuple(said))


def _dimensions_kept(frame: Frame, scale: float) -> frozenset[str]:
    """Keys of the dimensions for which even a small plan has room."""
    lengths = {name: abs(getattr(frame.setup.inputs, name)) for name in STAYS}
    kept = [STAYS[name] for name, mm in lengths.items() if scale * mm >= LEAST_FIGURE]
    return frozenset().union(*kept)


def _paint_rules(easel: Easel, layout: Layout) -> None:
    """Thin lines between the views."""
    colour = easel.theme.rule
    left = min(area.left() for area in layout.views.values())
    top = min(area.top() for area in layout.views.values())
    for area in layout.views.values():
        if area.left() > left + 1.0:
            easel.bar(area.left(), area.top() + 4.0, 1.0, area.height() - 8.0, colour)
        if area.top() > top + 1.0:
            easel.bar(area.left() + 6.0, area.top(), area.width() - 12.0, 1.0, colour)


PLAYER = "player"
"""In place of a foot: the keys are the player's."""
KEYS = {
    "": msgid("space selects a foot"),
    PLAYER: msgid("space plays and pauses, arrows go a frame"),
    "front": msgid("arrows turn and move the front foot, W tells why, space takes the next"),
    "rear": msgid("arrows turn and move the rear foot, W tells why, space takes the next"),
}
"""What the keys do, by the foot selected, or as the player has them."""


def paint_focus(easel: Easel, sheet: QRectF, plan: QRectF, selected: str) -> None:
    """A frame that says the keys speak to the sheet, and in the plan's column what they do."""
    easel.painter.setBrush(Qt.BrushStyle.NoBrush)
    easel.painter.setPen(pen(easel.theme.ink, 1.5, ()))
    easel.painter.drawRect(sheet.adjusted(1.5, 1.5, -1.5, -1.5))
    look = Style(text=easel.theme.quiet, size=12.0)
    text = tr(KEYS[selected])
    top = plan.top() + 1.7 * book(easel.theme)["title"].size * easel.type_scale
    area = QRectF(plan.left() + 6.0, top, plan.width() - 16.0, 0.0)
    area.setHeight(easel.lines_height(area.width(), text, look))
    easel.clear(area)
    easel.write_lines(area, text, look)
    easel.finish()


def paint_notice(easel: Easel, sheet: QRectF, text: str) -> None:
    """A card over the middle of the sheet that says what is wrong."""
    look = Style(text=easel.theme.accent_text, size=15.0, weight=600)
    width = min(sheet.width() - 40.0, easel.width(text, look.size, look.weight) + 48.0)
    card = QRectF(0.0, 0.0, width, 46.0)
    card.moveCenter(QPointF(sheet.center().x(), sheet.top() + 60.0))
    easel.painter.setPen(pen(easel.theme.accent, 1.5, ()))
    easel.painter.setBrush(brush(easel.theme.paper))
    easel.painter.drawRect(card)
    easel.painter.setFont(font(look.size, look.weight))
    easel.painter.setPen(pen(look.text, 1.0, ()))
    easel.painter.drawText(
        card.adjusted(12.0, 2.0, -12.0, -2.0),
        int(Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap),
        text,
    )
