"""The findings under the drawings: a card for each leg and one for the stance."""

from __future__ import annotations

from math import floor
from typing import Final, NamedTuple

from PySide6.QtCore import QPointF, QRectF

from app.drawing.styles import SMALL, Style
from app.frame import Frame
from app.qt.painting.easel import SMOOTH, Easel
from app.qt.painting.signs import LOUD, paint_sign
from app.rider.inputs import LegInputs
from app.stance.findings import BOOT_IN, BOOT_NEAR, BOOT_OUT, IN_PLANE, LegFinding
from app.stance.topics import BEND, BOOT, KNEE, SPACING, Asked
from app.words.language import msgid, tr
from app.words.sentences import plain
from app.words.units import degrees_or_dash

HEIGHT: Final = 150.0
"""Of the findings at the usual type (logical px)."""
COMPACT: Final = 52.0
"""Of the findings cut down to the state of each leg (logical px)."""
_BODY: Final = 13.0
_TIGHT: Final = 11.5
_LEAST: Final = 9.0
"""Sizes of the type, the last one where a long sentence must stay within its card (px)."""
_SMALL: Final = 12.0
_HEAD: Final = 16.0
_BESIDE: Final = 4.0
"""Between the names of two numbers (logical px)."""


_AS_NATURAL: Final = 5.0
"""Less than this is no difference to a leg (mm)."""
_TITLES: Final = {
    "front": msgid("Front leg at {depth}° of bend"),
    "rear": msgid("Rear leg at {depth}° of bend"),
}


_SAID: Final = {"front": msgid("Front leg: {finding}"), "rear": msgid("Rear leg: {finding}")}
"""The head of a card without a title."""


class Figure(NamedTuple):
    """A number with its name under it."""

    number: str
    name: str


def _cards(area: QRectF, count: int) -> list[QRectF]:
    """Cards side by side: front leg, rear leg, and the stance where there are three."""
    gap = 10.0
    width = (area.width() - (count - 1) * gap) / count
    return [
        QRectF(area.left() + i * (width + gap), area.top(), width, area.height())
        for i in range(count)
    ]


def _space(card: QRectF) -> QRectF:
    """What of a card there is for text."""
    return card.adjusted(16.0, 8.0, -12.0, -8.0)


def _paint_card(easel: Easel, card: QRectF, edge: str, name: str, ink: str) -> None:
    """A card's frame, its coloured edge and its name."""
    x, y, width, height = card.x(), card.y(), card.width(), card.height()
    rule, space = easel.theme.rule, _space(card)
    # Upright edges stay sharp.
    easel.painter.setRenderHint(SMOOTH, False)
    easel.bar(x, y, width, 1.0, rule)
    easel.bar(x, y + height - 1.0, width, 1.0, rule)
    easel.bar(x + width - 1.0, y, 1.0, height, rule)
    easel.bar(x, y, 4.0, height, edge)
    easel.painter.setRenderHint(SMOOTH)
    title = Style(text=ink, size=_BODY, weight=600)
    base = space.top() + _BODY * easel.type_scale
    easel.put(space.left(), base, name, title)
    if easel.live and name:
        _offer_reasons(easel, space, base, easel.width(name, title.size, title.weight))


def _offer_reasons(easel: Easel, space: QRectF, base: float, taken: float) -> None:
    """Say at a card's right edge that it can be pressed, where its name leaves room."""
    why, look = tr("why?"), Style(text=easel.theme.quiet, size=SMALL)
    width = easel.width(why, look.size, look.weight)
    if taken + width + 10.0 <= space.width():
        easel.put(space.right() - width, base, why, look)


PRESENTED: Final = 86.0
"""Of the findings that are shown to an audience: a sentence for each leg (logical px)."""


def paint_findings(easel: Easel, area: QRectF, frame: Frame, *, presented: bool = False) -> None:
    """Paint what is found into the cards of an area; nothing into one without height.

    To an audience there is one for each leg, with the sentence that says why; else a third for
    the stance, and numbers under the sentences.
    """
    if area.height() <= 0.0:
        return
    theme = easel.theme
    *cards, stance = (*_cards(area, 2), area) if presented else _cards(area, 3)
    depth = plain(frame.setup.inputs.knee_bend_deg)
    for card, (name, leg) in zip(cards, frame.findings.legs.items(), strict=True):
        title = "" if presented else tr(_TITLES[name], depth=depth)
        _paint_card(easel, card, theme.leg(name), title, theme.leg_text(name))
        _paint_leg(easel, _space(card), leg, None if presented else frame.setup.inputs.leg(name))
    if presented:
        return
    _paint_card(easel, stance, theme.quiet, tr("Stance"), theme.ink)
    _paint_stance(easel, _space(stance), frame)


def _paint_leg(easel: Easel, space: QRectF, leg: LegFinding, own: LegInputs | None) -> None:
    """What is found of a leg; without its numbers where its own inputs are not given."""
    theme = easel.theme
    body, head = _BODY * easel.type_scale, _HEAD * easel.type_scale
    base = space.top() + (body + 1.35 * head if own is not None else 0.9 * head)
    sign = QPointF(space.left() + 0.45 * head, base - 0.34 * head)
    # A knee in its plane over a boot past its stop is no tick.
    shown = leg.boot if leg.state == IN_PLANE and leg.boot != BOOT_IN else leg.state
    paint_sign(easel, sign, 0.9 * head, shown, theme.leg_text(leg.name))
    colour = theme.accent_text if leg.state in LOUD else theme.ink
    room = space.width() - 1.25 * head
    words = leg.spoken
    if shown != leg.state:
        words = f"{words}; {tr(_BOOTS[shown])}"
    if own is None:
        words = tr(_SAID[leg.name], finding=words)
    said = _fitting(easel, words, Style(text=colour, size=_HEAD, weight=600), room)
    easel.write(QPointF(space.left() + 1.25 * head, base), words, said)
    figures = leg_figures(leg, own) if own is not None else []
    _paint_body(easel, space, base, " ".join((leg.sentence, *leg.flags)), figures)


_BOOTS: Final = {BOOT_NEAR: msgid("boot near its stop"), BOOT_OUT: msgid("boot past its stop")}
"""What the sign of a leg whose knee is in its plane speaks of."""


def _fitting(easel: Easel, text: str, look: Style, room: float) -> Style:
    """How to write a text so that it takes no more than the room's width (logical px)."""
    needed = easel.width(text, look.size, look.weight)
    if needed <= room:
        return look
    # Type comes in whole pixels.
    pixels = floor(look.size * easel.type_scale * room / needed)
    return look._replace(size=pixels / easel.type_scale)


def _paint_stance(easel: Easel, space: QRectF, frame: Frame) -> None:
    base = space.top() + _BODY * easel.type_scale
    if _is_low(space, easel.type_scale):
        _paint_spacing(easel, space, base, frame)
        return
    _paint_body(easel, space, base, stance_sentence(frame), stance_figures(frame))


def _paint_spacing(easel: Easel, space: QRectF, base: float, frame: Frame) -> None:
    """The stance in a line under its card's name, smaller where it is long."""
    figures = stance_figures(frame)
    said = tr(
        "{apart} apart, natural {natural}", apart=figures[0].number, natural=figures[2].number
    )
    look = _fitting(easel, said, Style(text=easel.theme.ink, size=_BODY), space.width())
    at = QPointF(space.left(), base + 1.35 * _HEAD * easel.type_scale)
    easel.write(at, said, look)


def _is_low(space: QRectF, type_scale: float) -> bool:
    return space.height() < 0.5 * HEIGHT * type_scale


_LEG_TOPICS: Final = (BEND, BOOT, KNEE)
"""What the numbers at the foot of a leg's card are, from the left."""


def asked_at(
    area: QRectF, at: QPointF, type_scale: float, *, presented: bool = False
) -> Asked | None:
    """The number of which a card tells at a point, to ask for its reasons; None beside them.

    Args:
        area: of the cards.
        at: the point.
        type_scale: how large the cards are written.
        presented: whether there is one for each leg only.
    """
    if area.height() <= 0.0:
        return None
    legs = ("front", "rear") if presented else ("front", "rear", "")
    for leg, card in zip(legs, _cards(area, len(legs)), strict=True):
        if not card.contains(at):
            continue
        if presented:
            return Asked(leg, KNEE)
        space = _space(card)
        low = at.y() >= space.bottom() - _row(type_scale) and not _is_low(space, type_scale)
        if not leg:
            return Asked("front", SPACING)
        if not low:
            return Asked(leg, KNEE)
        column = int(3.0 * (at.x() - space.left()) / space.width())
        return Asked(leg, _LEG_TOPICS[min(max(column, 0), 2)])
    return None


def _row(type_scale: float) -> float:
    """Height of the numbers at the foot of a card."""
    return 2.5 * _SMALL * type_scale


def _paint_body(easel: Easel, space: QRectF, base: float, text: str, figures: list[Figure]) -> None:
    """A card's sentence below its head, and its numbers in a row at the foot."""
    if figures and _is_low(space, easel.type_scale):
        return
    row = _row(easel.type_scale) if figures else 0.0
    top = space.bottom() - row
    area = QRectF(space.left(), base + 5.0, space.width(), top - base - 10.0)
    look = Style(text=easel.theme.ink, size=_BODY)
    if figures and easel.lines_height(area.width(), text, look) > area.height():
        look = look._replace(size=_TIGHT)
    if figures and easel.lines_height(area.width(), text, look) > area.height():
        # What is wrong matters more than the numbers, which the drawings give too.
        figures, top = [], space.bottom()
        area.setBottom(top)
    while easel.lines_height(area.width(), text, look) > area.height() and look.size > _LEAST:
        look = look._replace(size=look.size - 0.5)
    easel.write_lines(area, text, look)
    if not figures:
        return
    number = Style(text=easel.theme.ink, size=_SMALL + 2.0, weight=500)
    name = Style(text=easel.theme.quiet, size=_SMALL)
    share = space.width() / len(figures)
    for i, figure in enumerate(figures):
        x, room = space.left() + i * share, share - _BESIDE
        easel.write(QPointF(x, top + _SMALL * easel.type_scale), figure.number, number)
        look = _fitting(easel, figure.name, name, room)
        easel.write(QPointF(x, space.bottom()), figure.name, look)


def leg_figures(leg: LegFinding, own: LegInputs) -> list[Figure]:
    """The numbers on a leg's card."""
    return [
        Figure(degrees_or_dash(leg.knee_flexion_deg), tr("knee bend")),
        Figure(degrees_or_dash(leg.boot_flex_deg), tr("boot flex")),
        Figure(_tilt(leg.wanted_give_deg), tr("of {give}° give", give=plain(own.side_give_deg))),
    ]


def _tilt(wanted_deg: float) -> str:
    """How far the shank would tilt from where the boot holds it, and to which side."""
    angle = degrees_or_dash(abs(wanted_deg))
    if not abs(wanted_deg) >= 0.05:
        return angle
    return tr("{angle} in", angle=angle) if wanted_deg > 0.0 else tr("{angle} out", angle=angle)


def stance_sentence(frame: Frame) -> str:
    """How far apart the feet stand, held against what is natural: what a stance asks of legs.

    How much lift and cant that comes to is told under Begin with alone.
    """
    apart = abs(frame.findings.stance.long_axes_apart_mm)
    more = apart - frame.setup.inputs.neutral_spacing_mm
    by = frame.lengths.text(abs(more), 0)
    if abs(more) < _AS_NATURAL:
        return tr("Across their own axes the feet stand as far apart as is natural for you.")
    if more > 0.0:
        return tr("Across their own axes the feet stand {by} wider than is natural for you.", by=by)
    return tr("Across their own axes the feet stand {by} closer than is natural for you.", by=by)


def stance_figures(frame: Frame) -> list[Figure]:
    """The numbers on the stance's card."""
    about, inputs = frame.findings.stance, frame.setup.inputs
    return [
        Figure(frame.lengths.dimension(abs(about.long_axes_apart_mm)), tr("long axes")),
        Figure(frame.lengths.dimension(abs(about.short_axes_apart_mm)), tr("short axes")),
        Figure(frame.lengths.dimension(inputs.neutral_spacing_mm), tr("natural")),
    ]
