"""Where each view and the findings stand on a sheet of any size."""

from __future__ import annotations

from typing import Final, NamedTuple

from PySide6.QtCore import QRectF

from app.drawing.marks import Scene, Window
from app.qt.painting.viewport import Viewport, fitted

MARGIN: Final = 10.0
TITLE_HEIGHT: Final = 24.0
LEAST_WITH_INSETS: Final = 430.0
"""Height of the drawings (logical px) below which they are low, and most without insets."""
LARGEST_WITH_INSETS: Final = 1.4
"""How large may be written where low drawings have insets."""
WIDE: Final = 1250.0
"""Sheets from this width on (logical px) give the insets a column of their own."""
LONG: Final = 1.9
"""So do those whose drawings are so many times as wide as high, from this width on."""
LEAST_LONG: Final = 900.0
LEAST_LONG_INSETS: Final = 190.0
"""Height of the drawings below which an inset in that column would be all words (logical px)."""
THREE: Final = (0.37, 0.33, 0.30)
"""Shares of the width: the plan with its dimensions, the front view, and the rest."""
FOUR: Final = (0.33, 0.28, 0.24, 0.15)
"""The same with a column for the insets."""


_VIEWS: Final = ("above", "front", "side", "front_foot", "rear_foot")


class Layout(NamedTuple):
    """Areas in logical px: views by key, and the findings below them."""

    views: dict[str, QRectF]
    findings: QRectF


def laid_out(sheet: QRectF, findings_height: float, type_scale: float = 1.0) -> Layout:
    """Areas for the views and the findings.

    The plan and the front view stand side by side at full height, since they
    share a scale; the side view and the two insets stand beside them.  A low sheet
    leaves the insets out, and so does any as low whose letters leave them no room: too small
    to read, they say what the front view says.
    """
    inner = sheet.adjusted(MARGIN, MARGIN * 0.6, -MARGIN, -MARGIN)
    bottom = inner.bottom() - findings_height
    height = bottom - inner.top() - MARGIN
    findings = QRectF(inner.left(), bottom, inner.width(), findings_height)
    is_long = inner.width() >= max(LEAST_LONG, LONG * height)
    has_room = height >= LEAST_LONG_INSETS and not is_crowded(height, type_scale)
    if (inner.width() >= WIDE or is_long) and has_room:
        above, front, side, feet = columns_of(inner, height, FOUR)
        upper = feet.adjusted(0.0, 0.0, 0.0, -0.5 * feet.height())
        insets = [upper, upper.translated(0.0, upper.height())]
    elif height >= LEAST_WITH_INSETS:
        above, front, right = columns_of(inner, height, THREE)
        split = 0.65 * height
        side = QRectF(right.left(), right.top(), right.width(), split)
        feet = QRectF(right.left(), right.top() + split, right.width(), height - split)
        insets = halves(feet)
    else:
        above, front, side = columns_of(inner, height, THREE)
        insets = []
    areas = (above, front, side, *insets)
    return Layout(dict(zip(_VIEWS, areas, strict=False)), findings)


def is_low(layout: Layout) -> bool:
    """Whether the views are so low that the plan stands beside its title."""
    return layout.views["above"].height() < LEAST_WITH_INSETS


def is_crowded(height: float, type_scale: float) -> bool:
    """Whether drawings so high (logical px) are low for letters so large."""
    return height < LEAST_WITH_INSETS and type_scale > LARGEST_WITH_INSETS


def columns_of(inner: QRectF, height: float, shares: tuple[float, ...]) -> list[QRectF]:
    """Areas beside each other from the top of one, each with a share of its width."""
    columns, left = [], inner.left()
    for share in shares:
        width = share * inner.width()
        columns.append(QRectF(left, inner.top(), width, height))
        left += width
    return columns


def halves(area: QRectF, gap: float = 0.0) -> list[QRectF]:
    """The left and the right half of an area, each so far from the middle."""
    left, right = columns_of(area, area.height(), (0.5, 0.5))
    return [left.adjusted(0.0, 0.0, -gap, 0.0), right.adjusted(gap, 0.0, 0.0, 0.0)]


_CALLOUTS: Final = {"front": 66.0, "side": 78.0, "front_foot": 46.0, "rear_foot": 46.0}
"""Height of the band for call-outs over a drawing (logical px)."""
_FEET_LABELS: Final = {"front": 42.0, "side": 25.0}
"""Room under the board for the names of the feet (logical px)."""


def drawing_area(key: str, view: QRectF, type_scale: float) -> QRectF:
    """The part of a view's area between its call-outs and the labels under it."""
    if key == "above":
        # Room for text outside the outermost dimension lines; a low plan stands beside its title.
        top = TITLE_HEIGHT if view.height() >= LEAST_WITH_INSETS else -4.0
        return view.adjusted(18.0, top + 8.0, -22.0, -20.0)
    top = TITLE_HEIGHT + _CALLOUTS[key] * type_scale
    # Slopes of the soles, in a second line, are left out where it is crowded.
    lines = "side" if key == "front" and is_crowded(view.height(), type_scale) else key
    return view.adjusted(6.0, top, -6.0, -_FEET_LABELS.get(lines, 4.0) * type_scale)


def fits_of(layout: Layout, windows: dict[str, Window], type_scale: float) -> dict[str, Viewport]:
    """How each scene lies in its area: plan and front view at one scale, insets at one.

    On a low sheet the plan fills its area at a scale of its own: it is lower than a leg, and
    what is drawn at the scale of one could not be taken hold of.

    All but the plan stand on the ground of their area: what is to spare is over
    their heads, where a rider may grow.
    """
    areas = {key: drawing_area(key, view, type_scale) for key, view in layout.views.items()}
    fits = {key: fitted(windows[key], area) for key, area in areas.items()}
    pair = () if is_low(layout) else ("above", "front")
    for together in (pair, ("front_foot", "rear_foot")):
        shown = [key for key in together if key in fits]
        scale = min((fits[key].scale for key in shown), default=0.0)
        for key in shown:
            fits[key] = fitted(windows[key], areas[key], scale)
    return {
        key: (fit if key == "above" else _on_ground(fit, windows[key], areas[key]))._replace(
            top=layout.views[key].top() + TITLE_HEIGHT + 4.0
        )
        for key, fit in fits.items()
    }


def _on_ground(fit: Viewport, window: Window, area: QRectF) -> Viewport:
    return fit._replace(y=area.bottom() + fit.scale * window.bottom)


SLACK: Final = 150.0
"""How much more of the paper is shown where a drag leaves what was (mm)."""
OVERSTEP: Final = 10.0
"""How far a drawing may leave its area before it is drawn smaller under a slider (logical px)."""


def seen_of(layout: Layout, fits: dict[str, Viewport], type_scale: float) -> dict[str, Window]:
    """The part of each scene's paper that its area has room for: its window, and mostly more."""
    return {key: _seen(drawing_area(key, layout.views[key], type_scale), fits[key]) for key in fits}


def _seen(area: QRectF, fit: Viewport) -> Window:
    left, bottom = fit.back(area.left() - OVERSTEP, area.bottom() + OVERSTEP)
    right, top = fit.back(area.right() + OVERSTEP, area.top() - OVERSTEP)
    return Window(left, bottom, right, top)


def windows_of(
    scenes: dict[str, Scene], shown: dict[str, Window], seen: dict[str, Window] | None = None
) -> dict[str, Window]:
    """The window of each scene; under a slider the one shown, as long as the drawing is in sight.

    Args:
        scenes: to be shown, by key.
        shown: the windows shown now.
        seen: what there is room for now, while a drag must not rescale the drawing
            under the hand; None at rest.
    """
    if seen is None:
        return {key: scene.window for key, scene in scenes.items()}
    return {
        key: _kept(scene.window, shown[key], seen.get(key, shown[key]))
        if key in shown
        else scene.window
        for key, scene in scenes.items()
    }


def _kept(wanted: Window, shown: Window, seen: Window) -> Window:
    """The window shown, or one that shows the wanted as well, with more where it was left."""
    if wanted.joined(seen) == seen:
        return shown
    return Window(
        shown.left if wanted.left >= seen.left else wanted.left - SLACK,
        shown.bottom if wanted.bottom >= seen.bottom else wanted.bottom - SLACK,
        shown.right if wanted.right <= seen.right else wanted.right + SLACK,
        shown.top if wanted.top <= seen.top else wanted.top + SLACK,
    ).joined(wanted)


def grown(scenes: dict[str, Scene], shown: dict[str, Window]) -> dict[str, Window]:
    """The windows shown, or as much more as the scenes need: what a foot in hand is shown in.

    The furthest that a foot was dragged is so shown as it is at rest, and nothing has to be
    drawn otherwise when the hand lets go there.
    """
    return {key: scene.window.joined(shown.get(key, scene.window)) for key, scene in scenes.items()}


def between(start: dict[str, Window], end: dict[str, Window], share: float) -> dict[str, Window]:
    """The windows a share of the way from some to others; those of the end where none was."""
    return {
        key: Window(*(a + share * (b - a) for a, b in zip(start.get(key, last), last, strict=True)))
        for key, last in end.items()
    }
