"""A theme as Qt understands it: palette, type, and what Fusion leaves to a style sheet."""

from __future__ import annotations

from functools import cache
from typing import Final

from PySide6.QtGui import QColor, QFont, QPalette
from PySide6.QtWidgets import QApplication

from app.drawing.theme import Theme, mixed
from app.qt.painting.lettering import font
from app.qt.sizes import px, text_percent

TEXT_PX = 13
SMALL_PX = 12
TARGET: Final = 24
"""Of whatever is pressed, the least height and width (px)."""


@cache
def colour(code: str) -> QColor:
    """The colour of a "#rrggbb" code; shared, so not to be changed."""
    return QColor(code)


def typeface(pixels: int = TEXT_PX, weight: QFont.Weight = QFont.Weight.Normal) -> QFont:
    """The program's letters, shared, so not to be changed.

    Args:
        pixels: their size where the size of letters is the usual one (logical px).
        weight: of their strokes.
    """
    return font(px(pixels), weight)


QUIET: Final = QPalette.ColorRole.PlaceholderText
ACCENT: Final = QPalette.ColorRole.BrightText
LEG: Final = {"front": QPalette.ColorRole.Link, "rear": QPalette.ColorRole.LinkVisited}
"""Roles in which a label writes quietly, what wants attention, and of a leg.

``label.setForegroundRole(QUIET)`` holds in every theme.  A label that is disabled writes in
a paler colour: what stood a moment ago.
"""


@cache
def palette(theme: Theme) -> QPalette:
    """The theme's colours in Qt's roles; shared, so not to be changed."""
    role = QPalette.ColorRole
    roles = {
        role.Window: theme.panel,
        role.WindowText: theme.ink,
        role.Base: theme.field,
        role.AlternateBase: theme.panel,
        role.Text: theme.ink,
        QUIET: theme.quiet,
        role.Button: theme.panel,
        role.ButtonText: theme.ink,
        ACCENT: theme.accent_text,
        role.Highlight: theme.front,
        role.HighlightedText: theme.field,
        **{name: theme.leg_text(leg) for leg, name in LEG.items()},
        role.ToolTipBase: theme.field,
        role.ToolTipText: theme.ink,
        role.Light: mixed(theme.field, theme.panel, 0.6),
        role.Midlight: mixed(theme.field, theme.panel, 0.3),
        role.Mid: theme.rule,
        role.Dark: theme.faint,
        role.Shadow: theme.quiet,
    }
    made = QPalette()
    for name, code in roles.items():
        made.setColor(name, colour(code))
    disabled = QPalette.ColorGroup.Disabled
    for name in (role.WindowText, role.Text, role.ButtonText):
        made.setColor(disabled, name, colour(theme.faint))
    made.setColor(disabled, QUIET, colour(theme.faint))
    for name in (ACCENT, *LEG.values()):
        made.setColor(disabled, name, colour(mixed(roles[name], theme.panel, 0.5)))
    return made


_EDGED: Final = (
    "QAbstractButton",
    "QComboBox",
    "QLineEdit",
    "QAbstractScrollArea",
    "QAbstractSpinBox",
)
"""Kinds of widgets at whose edge it is seen what they are."""


@cache
def edged(theme: Theme) -> QPalette:
    """The palette of what has an edge, which Fusion draws darker than the ground."""
    made = QPalette(palette(theme))
    made.setColor(QPalette.ColorRole.Window, colour(theme.edge).lighter(_FUSION_DARKER))
    return made


_FUSION_DARKER: Final = 140
"""By how much Fusion darkens the ground for an edge (percent of its value)."""


_LARGE_PERCENT: Final = 120
"""From which size of letters on all that is pressed is large enough by itself."""


def _least_sizes() -> str:
    """What is pressed never lies under its least size.

    A least height takes the place of what the layout would grant, so there is none where the
    letters make everything higher.
    """
    if text_percent() >= _LARGE_PERCENT:
        return ""
    return f"""
    QCheckBox, QRadioButton {{ min-height: {TARGET - 4}px; }}
    QComboBox, QLineEdit, QAbstractSpinBox {{ min-height: {TARGET - 2}px; }}
    QPushButton, QToolButton {{ min-height: {TARGET - 7}px; }}
    """


def style_sheet(theme: Theme) -> str:
    """What a palette cannot say: tool tips with room, scroll bars without relief, least sizes."""
    thumb = mixed(theme.quiet, theme.panel, 0.75)
    return f"""
    {_least_sizes()}
    QToolTip {{ background: {theme.field}; color: {theme.ink};
        border: 1px solid {theme.edge}; padding: 4px 6px; }}
    QToolBar {{ background: {theme.panel}; border: none; spacing: 2px; padding: 3px 6px;
        border-bottom: 1px solid {theme.rule}; }}
    QToolBar QToolButton {{ padding: {px(4)}px {px(9)}px; border: 1px solid transparent;
        color: {theme.ink}; }}
    QToolBar QToolButton:hover {{ border-color: {theme.edge}; background: {theme.field}; }}
    QToolBar QToolButton:focus {{ border-color: {theme.quiet}; }}
    QToolBar QToolButton:checked {{ background: {theme.field}; border-color: {theme.edge}; }}
    QToolBar QToolButton:disabled {{ color: {theme.faint}; }}
    QToolBar QToolButton::menu-indicator {{ subcontrol-position: right center; }}
    QToolBar QToolButton[popupMode="2"] {{ padding-right: 20px; }}
    QToolBar QToolButton[popupMode="1"] {{ padding-right: 22px; }}
    QToolBar QToolButton::menu-button {{ width: 18px; border: none; }}
    QScrollBar {{ background: transparent; border: none; }}
    QScrollBar:vertical {{ width: 10px; }}
    QScrollBar:horizontal {{ height: 10px; }}
    QScrollBar::handle {{ background: {thumb}; border-radius: 3px; margin: 2px; }}
    QScrollBar::handle:vertical {{ min-height: 28px; }}
    QScrollBar::handle:horizontal {{ min-width: 28px; }}
    QScrollBar::handle:hover {{ background: {theme.quiet}; }}
    QScrollBar::add-line, QScrollBar::sub-line {{ width: 0; height: 0; }}
    QScrollBar::add-page, QScrollBar::sub-page {{ background: none; }}
    """


def dress(app: QApplication, theme: Theme) -> None:
    """Give the whole program the theme.

    Fusion takes colours from a palette on every system; the systems' own styles
    do not.
    """
    if not app.styleSheet():
        app.setStyle("Fusion")
    app.setFont(typeface())
    for window in app.topLevelWidgets():
        window.setFont(typeface())  # what stands already does not hear of the application's
    app.setPalette(palette(theme))
    for kind in _EDGED:
        # It takes text only, whatever its signature says.
        app.setPalette(edged(theme), kind)  # type: ignore[arg-type]
    app.setStyleSheet(style_sheet(theme))
