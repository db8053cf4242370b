"""The words of the help: each input leads to one, and each has a drawing that is whole."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QRectF
from pytestqt.qtbot import QtBot

from app.drawing.marks import Callout
from app.drawing.theme import LIGHT
from app.features.help.model import SOURCES, TERMS
from app.features.help.scene import DRAWINGS, scenes_of
from app.features.help.words import ASSUMES, FORMULAS, UNKNOWN
from app.features.why.words import TERMS as TERM_OF_TOPIC
from app.qt.painting.snug_picture import _extent, boxes_of, snug
from app.rider.inputs import FIELDS, SIDED_FIELDS
from app.stance.topics import TOPICS
from app.window.window import prepared_application
from app.words.lengths import IN_MM, Lengths
from app.words.terms import TERM_OF, term_of


def test_every_input_is_explained_by_a_word() -> None:
    for field in (*FIELDS, *SIDED_FIELDS):
        assert term_of(field.name) in TERMS, field.name
    assert set(TERM_OF.values()) <= set(TERMS)
    assert term_of("nothing_mm") == ""


def test_every_word_has_a_drawing_and_both_kinds_of_words() -> None:
    assert set(DRAWINGS) == set(TERMS)
    for term in TERMS.values():
        assert term.title
        assert term.said != term.joints
        assert term.topic in {*TOPICS, ""}
    assert set(TERM_OF_TOPIC.values()) <= set(TERMS)


@pytest.mark.parametrize("term", list(TERMS))
def test_every_drawing_is_whole_at_its_least_size(qtbot: QtBot, term: str) -> None:
    prepared_application()
    for scene in scenes_of(term, IN_MM):
        assert not any(isinstance(mark, Callout) for mark in scene.marks)
        area = QRectF(0.0, 0.0, 238.0, 248.0)
        fit = snug(scene, area, LIGHT)
        left, top, right, bottom = _extent(boxes_of(scene, LIGHT), fit.scale)
        assert fit.scale > 0.05
        assert right - left <= area.width() + 0.5
        assert bottom - top <= area.height() + 0.5


def test_drawings_follow_the_unit_of_lengths() -> None:
    (metric,), (inches,) = scenes_of("leg heights", IN_MM), scenes_of("leg heights", Lengths("in"))
    texts = {getattr(mark, "text", "") for mark in inches.marks} - {""}
    assert any(text.endswith(" in") for text in texts)
    assert texts != {getattr(mark, "text", "") for mark in metric.marks}


def test_the_help_says_what_is_not_known() -> None:
    said = " ".join(UNKNOWN)
    assert "No published study ties the stance length" in said
    assert "Klous, Müller & Schwameder" in said
    assert any("Comput Math Methods Med 340272" in each.cited for each in SOURCES)
    assert len(ASSUMES) >= 5
    assert all(each.symbols for each in FORMULAS)
