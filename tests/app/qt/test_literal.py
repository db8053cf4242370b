"""Texts get onto widgets letter for letter, and rich text is our own."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QTextDocument
from PySide6.QtWidgets import QWidget

from app.qt.literal import (
    Label,
    Markup,
    button_text,
    cell_text,
    joined,
    markup,
    message_box,
    name_command,
    show_tip,
    spoken,
    tip,
    title_text,
)

TAG = "<b>a</b> &amp; &b  c\nd"
PLAIN, RICH = Qt.TextFormat.PlainText, Qt.TextFormat.RichText


def read(rich):
    """What a person reads of rich text."""
    document = QTextDocument()
    document.setHtml(rich)
    return document.toPlainText()


def test_markup_shows_its_values_letter_for_letter():
    made = markup("<p><i>{name}</i>{more}</p>", name=TAG, more=markup("<b>{x}</b>", x="<"))
    assert made == "<p><i>&lt;b&gt;a&lt;/b&gt; &amp;amp; &amp;b  c\nd</i><b>&lt;</b></p>"
    assert isinstance(made, Markup)
    assert isinstance(joined([made, made]), Markup)


def test_a_value_with_braces_or_quotes_stays_a_value():
    assert markup("<a style='{x}'>{y}</a>", x="'{y}", y="{x}") == "<a style='&#x27;{y}'>{x}</a>"


def test_a_label_takes_a_text_for_a_text_and_markup_for_markup(qtbot):
    label = Label(TAG)
    qtbot.addWidget(label)
    assert (label.text(), label.textFormat()) == (TAG, PLAIN)
    label.setText(markup("<b>{x}</b>", x="<i>"))
    assert (label.text(), label.textFormat()) == ("<b>&lt;i&gt;</b>", RICH)
    label.setText(TAG)
    assert (label.text(), label.textFormat()) == (TAG, PLAIN)
    label.setText("x" * 4_000_000)
    assert label.text().endswith("… (3,995,000 more letters)")


@pytest.mark.parametrize("text", [TAG, "a < b", "x & y", "word " * 60, "&lt;"])
def test_a_tip_is_read_as_it_was_said(text):
    assert read(tip(text)).replace("\u2028", "\n") == text


def test_a_short_plain_tip_stays_plain_and_none_stays_none():
    assert tip("Save (Ctrl+S)\nof Anna") == "Save (Ctrl+S)\nof Anna"
    assert tip("") == tip() == ""


def test_a_tip_of_several_texts_has_a_paragraph_each(qtbot):
    thing = QWidget()
    qtbot.addWidget(thing)
    show_tip(thing, markup("<b>{x}</b>", x="A&B"), "help", TAG)
    assert read(thing.toolTip()).split("\n", 2) == ["A&B", "help", TAG]


def test_a_command_makes_neither_a_key_nor_a_tag_of_its_text():
    command = QAction()
    name_command(command, TAG)
    assert command.text() == "<b>a</b> &&amp; &&b c d"
    assert read(command.toolTip()) == "<b>a</b> &amp; &b c d"


def test_titles_and_cells_are_one_line_of_any_text():
    assert title_text("a[*]\nb") == "a[*][*] b"
    assert button_text("a && b") == "a &&&& b"
    assert cell_text(TAG) == TAG
    assert len(cell_text("x" * 4_000_000)) < 2100


def test_a_message_is_plain_text_and_bounded(qtbot):
    over = QWidget()
    qtbot.addWidget(over)
    box = message_box(over, TAG, TAG, "x" * 4_000_000)
    assert (box.text(), box.textFormat()) == (TAG, PLAIN)
    assert len(box.informativeText()) < 2100


def test_markup_is_read_out_without_its_tags():
    assert spoken(markup("<p><b>{a}</b>: {b}</p>", a="<x>", b="A & B")) == "<x> : A & B"
    assert spoken(TAG) == TAG
