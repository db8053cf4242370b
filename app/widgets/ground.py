"""What stands still under the drawings: paper, rules, titles, and the frames of the cards."""

from __future__ import annotations

from app.styles import book
from app.widgets.easel import Easel
from app.widgets.findings_painting import paint_cards
from app.widgets.sheet_layout import Layout


def paint_ground(easel: Easel, layout: Layout, titles: dict[str, str]) -> None:
    """Paint it on paper of its colour; titles by view."""
    title = book(easel.theme)["title"]
    for key, area in layout.views.items():
        base = area.top() + 1.25 * title.size * easel.type_scale
        easel.put(area.left() + 6.0, base, titles[key], title)
    _paint_rules(easel, layout)
    paint_cards(easel, layout.findings)


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
