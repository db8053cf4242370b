"""Nothing is read back from a widget: what holds stands in the session, a draft or a field.

A widget may ask itself, and tells others through signals that carry values.  So no
line asks any other object for what a user typed or chose, or for what it shows.
"""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

APP = Path(__file__).parents[2] / "app"
CHOSEN = {
    *("checkedAction", "checkedButton", "checkedId", "currentCell", "currentColumn"),
    *("currentData", "currentIndex", "currentItem", "currentRow", "currentText"),
    *("currentWidget", "hasSelection", "isChecked", "selectedIndexes", "selectedItems"),
    *("selectedRows", "selectionModel", "sliderPosition"),
}
TYPED = {
    *("date", "dateTime", "hasAcceptableInput", "isModified", "plainText", "selectedText"),
    *("text", "time", "toHtml", "toPlainText", "value"),
}
SHOWN = {
    *("accessibleDescription", "accessibleName", "isActive", "isEnabled", "palette"),
    *("placeholderText", "styleSheet", "toolTip", "windowTitle"),
}
ASKS = CHOSEN | TYPED | SHOWN

ALLOWED = {
    ("features/parts/table.py", "setModelData", "currentText"):
        "Qt hands a delegate its editor, in which a choice was made, to be read",
    ("features/parts/table.py", "_tell", "text"):
        "Qt hands a table the item that was typed into; the table tells what it was",
    ("qt/controls/typed_text.py", "insertFromMimeData", "text"):
        "what is pasted, which stands in no widget yet",
    ("features/riders/dialog.py", "_foot", "currentIndex"):
        "the row in hand follows sorting and searching, which only Qt's selection does",
    ("features/riders/dialog.py", "_foot", "selectionModel"):
        "to be told of another selection, which nothing but the model tells",
    ("features/riders/dialog.py", "_offer", "hasSelection"):
        "as the row in hand",
    ("features/riders/dialog.py", "_offer", "selectionModel"):
        "as the row in hand",
    ("features/riders/dialog.py", "_go_to_list", "currentIndex"):
        "as the row in hand",
    ("qt/accessible/factory.py", "tell_changed", "isActive"):
        "whether any assistive program runs, which only Qt knows",
    ("qt/accessible/roles.py", "state", "isChecked"):
        "assistive programs are told what is shown, when they ask",
    ("qt/accessible/roles.py", "text", "text"):
        "as the state",
    ("qt/accessible/roles.py", "doAction", "isEnabled"):
        "as the state",
    ("window/commands.py", "_of_action", "isEnabled"):
        "a command is what Qt's action says it is",
    ("window/commands.py", "_plain", "text"):
        "as before",
    ("window/file_menu.py", "__init__", "toolTip"):
        "what a command's tool tip began with, before steps are named in it",
    ("window/rebuilding.py", "_share", "sliderPosition"):
        "how far an area is scrolled, which Qt alone knows",
    ("window/keeping.py", "stir", "isActive"):
        "a timer, which is no widget",
    ("window/regions.py", "_takes_keys", "isEnabled"):
        "where the keyboard can go is Qt's to say",
    ("window/window.py", "prepared_application", "styleSheet"):
        "whether Qt's own application has been dressed yet",
    ("qt/painting/palette.py", "dress", "styleSheet"):
        "as before",
}  # fmt: skip
"""What may be read all the same, by file, function and method, and why."""


def is_own(receiver: ast.expr) -> bool:
    """Whether a widget asks itself, its base class, or a part that its base class holds."""
    while isinstance(receiver, ast.Call):
        if isinstance(receiver.func, ast.Name):
            return receiver.func.id == "super"
        if not isinstance(receiver.func, ast.Attribute):
            return False
        receiver = receiver.func.value
    return isinstance(receiver, ast.Name) and receiver.id == "self"


def reads_in(tree: ast.AST, function: str = "") -> Iterator[tuple[str, str]]:
    """Functions, and the methods by which they ask something else what it holds."""
    for node in ast.iter_child_nodes(tree):
        if isinstance(node, ast.FunctionDef):
            yield from reads_in(node, node.name)
            continue
        if (
            isinstance(node, ast.Call)
            and isinstance(node.func, ast.Attribute)
            and node.func.attr in ASKS
            and not (node.args or node.keywords or is_own(node.func.value))
        ):
            yield function, node.func.attr
        yield from reads_in(node, function)


def reads() -> set[tuple[str, str, str]]:
    return {
        (path.relative_to(APP).as_posix(), function, method)
        for path in sorted(APP.rglob("*.py"))
        if "PySide6" in (source := path.read_text(encoding="utf-8"))
        for function, method in reads_in(ast.parse(source))
    }


def test_nothing_is_read_back_from_a_widget() -> None:
    assert reads() - ALLOWED.keys() == set()


def test_what_is_allowed_is_needed() -> None:
    assert ALLOWED.keys() - reads() == set()


@pytest.mark.parametrize(
    "line",
    [
        "self.unit.currentData()",
        "frame(setup, unit=self.unit.currentData())",
        "box.activated.connect(lambda: self.asked.emit(box.currentData()))",
        "self._told._replace(date=self.date.date().toString(FORMAT))",
        "self.pictures.sizes.checkedAction().data()",
        "if self.name.isModified(): pass",
        "self.table.selectionModel().selectedRows()",
        "return [segment for segment in self.segments if segment.isChecked()]",
    ],
)
def test_what_reads_back_is_found(line: str) -> None:
    assert list(reads_in(ast.parse(f"def show(self):\n    {line}\n")))


@pytest.mark.parametrize(
    "line",
    [
        "self.committed.emit(self.text())",
        "self.moved.emit(self.selectionModel().selectedRows()[0].row())",
        "if self.document().isModified(): pass",
        "super().text()",
        "self.number.setText(self._scale.text(value))",
        "self.unit.show_choice(self.session.length_unit)",
    ],
)
def test_a_widget_may_ask_itself(line: str) -> None:
    assert not list(reads_in(ast.parse(f"def show(self):\n    {line}\n")))
