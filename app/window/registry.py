"""Which pages there are, in the order of their tabs.

Each page's module is imported when the page is first opened.
"""

from __future__ import annotations

from importlib import import_module

from PySide6.QtWidgets import QWidget

from app.session import Session
from app.window.tray import Entry


def entries() -> list[Entry]:
    """The pages that can be opened."""
    return [
        _entry(
            "Begin with",
            "The lift and cant with which each binding begins, why, how sure, and put them on",
            "answer.page:AnswerPage",
        ),
        _entry(
            "Through the bend",
            "How knees and boots fare from standing tall to the deepest crouch, and as hips turn",
            "bend.page:BendPage",
        ),
        _entry(
            "Why",
            "Why each number is as it is, step by step with your values, drawn into the views",
            "why.page:WhyPage",
        ),
        _entry(
            "All round",
            "Legs, boots, hinge planes and board in three dimensions, seen from any side",
            "orbit.page:OrbitPage",
        ),
        _entry(
            "Motion",
            "An input swept from one value to another, or a movement, played in the drawings",
            "player.page:PlayerPage",
        ),
        _entry(
            "Stance map",
            "Which cant every stance would need, and where yours stands among them",
            "map.page:MapPage",
        ),
        _entry(
            "Parts",
            "What lift and cant your parts can make, and the best stance within your limits",
            "parts.page:PartsPage",
        ),
        _entry(
            "Printed wedge",
            "The wedge that makes a lift and a cant: its plan, heights, drawing and files",
            "wedge.page:WedgePage",
        ),
        _entry(
            "Board",
            "How far the boots reach beyond the board, and when they touch snow",
            "board.page:BoardPage",
        ),
        _entry(
            "Trials",
            "What was tried and how it felt, what to try next, and what should be comfortable",
            "trials.page:TrialsPage",
        ),
        _entry(
            "Measuring",
            "How to measure each leg dimension, and how well repeats agree",
            "measuring.page:MeasurePage",
        ),
        _entry(
            "Growing",
            "Last season beside today, and a forecast for riders who grow",
            "growing.page:GrowthPage",
        ),
        _entry(
            "Lessons",
            "Why knees go where they go: predict, see, understand; or make a lesson of your own",
            "lessons.page:LessonsPage",
        ),
        _entry(
            "Notes",
            "The name of the rider or set-up, and what is to be remembered",
            "notes.page:NotesPage",
        ),
    ]


def _entry(title: str, help_text: str, place: str) -> Entry:
    """The entry of the page that is found at a place within the features, "module:name"."""
    module, _, name = place.partition(":")

    def make(session: Session) -> QWidget:
        page: QWidget = getattr(import_module(f"app.features.{module}"), name)(session)
        return page

    return Entry(title, help_text, make)
