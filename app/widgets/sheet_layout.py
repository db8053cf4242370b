"""Where each view and the findings stand on a sheet of any size."""

from __future__ import annotations

from typing import Final, NamedTuple

from PySide6.QtCore import QRectF

from app.scenes.marks import Scene, Window
from app.widgets.fit import Fit, fitted

MARGIN: Final = 10.0
TITLE_HEIGHT: Final = 24.0
LEAST_WITH_INSETS: Final = 430.0
"""Height of the drawings (logical px) below which the insets are left out."""
WIDE: Final = 1250.0
"""Sheets from this width on (logical px) give the insets a column of their own."""


class Layout(NamedTuple):
    """Areas in logical px: views by key, and the findings below them."""

    views: dict[str, QRectF]
    findings: QRectF


def laid_out(sheet: QRectF, findings_height: float) -> Layout:
    """Areas for the views and the findings.

    The plan and the front view stand side by side at full height, since they
    share a scale; the side view and the two insets stand beside them.  A low sheet
    leaves the insets out: too small to read, they say what the front view says.
    """
    inner = sheet.adjusted(MARGIN, MARGIN * 0.6, -MARGIN, -MARGIN)
    bottom = inner.bottom() - findings_height
    height = bottom - inner.top() - MARGIN
    findings = QRectF(inner.left(), bottom, inner.width(), findings_height)
    if inner.width() >= WIDE:
        above, front, side, feet = _columns(inner, height, (0.29, 0.29, 0.26, 0.16))
        front_foot, rear_foot = _halves(feet, across=False)
    elif height >= LEAST_WITH_INSETS:
        above, front, right = _columns(inner, height, (0.32, 0.34, 0.34))
        split = 0.62 * height
        side = QRectF(right.left(), right.top(), right.width(), split)
        feet = QRectF(right.left(), right.top() + split, right.width(), height - split)
        front_foot, rear_foot = _halves(feet, across=True)
    else:
        above, front, side = _columns(inner, height, (0.32, 0.34, 0.34))
        return Layout({"above": above, "front": front, "side": side}, findings)
    views = {
        "above": above,
        "front": front,
        "side": side,
        "front_foot": front_foot,
        "rear_foot": rear_foot,
    }
    return Layout(views, findings)


def _columns(inner: QRectF, height: float, shares: tuple[float, ...]) -> list[QRectF]:
    columns, left = [], inner.left()
    for share in shares:
        width = share * inner.width()
        columns.append(QRectF(left, inner.top(), width, height))
        left += width
    return columns


def _halves(area: QRectF, *, across: bool) -> tuple[QRectF, QRectF]:
    width, height = area.width(), area.height()
    if across:
        return (
            QRectF(area.left(), area.top(), width / 2, height),
            QRectF(area.left() + width / 2, area.top(), width / 2, height),
        )
    return (
        QRectF(area.left(), area.top(), width, height / 2),
        QRectF(area.left(), area.top() + height / 2, width, height / 2),
    )


_CALLOUTS: Final = {"front": 66.0, "side": 64.0, "front_foot": 46.0, "rear_foot": 46.0}
"""Height of the band for call-outs over a drawing (logical px)."""
_FEET_LABELS: Final = {"front": 42.0, "side": 25.0}
"""Room under the board for the names of the feet (logical px)."""


def drawing_area(key: str, view: QRectF, type_scale: float) -> QRectF:
    """The part of a view's area between its call-outs and the labels under it."""
    if key == "above":
        # Room for text outside the outermost dimension lines.
        return view.adjusted(20.0, TITLE_HEIGHT + 8.0, -26.0, -20.0)
    top = TITLE_HEIGHT + _CALLOUTS[key] * type_scale
    return view.adjusted(6.0, top, -6.0, -_FEET_LABELS.get(key, 4.0) * type_scale)


def fits_of(layout: Layout, windows: dict[str, Window], type_scale: float) -> dict[str, Fit]:
    """How each scene lies in its area: plan and front view at one scale, insets at one."""
    areas = {key: drawing_area(key, view, type_scale) for key, view in layout.views.items()}
    fits = {key: fitted(windows[key], area) for key, area in areas.items()}
    for together in (("above", "front"), ("front_foot", "rear_foot")):
        shown = [key for key in together if key in fits]
        scale = min((fits[key].scale for key in shown), default=0.0)
        for key in shown:
            fits[key] = fitted(windows[key], areas[key], scale)
    return {
        key: fit._replace(top=layout.views[key].top() + TITLE_HEIGHT + 4.0)
        for key, fit in fits.items()
    }


def windows_of(
    scenes: dict[str, Scene], shown: dict[str, Window], *, grow_only: bool
) -> dict[str, Window]:
    """The window of each scene; while ``grow_only``, never smaller than what is shown.

    A drag must not rescale the drawing under the hand, unless it would leave it.
    """
    if not grow_only:
        return {key: scene.window for key, scene in scenes.items()}
    return {
        key: scene.window.joined(shown[key]) if key in shown else scene.window
        for key, scene in scenes.items()
    }
