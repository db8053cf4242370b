"""What a file holds gets onto widgets letter for letter: by ``app/qt/literal.py`` alone.

No other line makes a label, a tool tip, a message or a title of its own, or rich text; and
what else a widget says, on a button or in a menu, is our own text or was made fit there.
"""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path
from typing import TypeAlias

import pytest

APP = Path(__file__).parents[2] / "app"
MAKER = "qt/literal.py"

MADE_THERE = {
    *("QLabel", "QMessageBox", "QErrorMessage", "QSplashScreen", "QToolTip", "QWhatsThis"),
    *("QTextBrowser", "QTextEdit", "QTextDocument", "QTextDocumentFragment", "QGraphicsTextItem"),
    *("TextItem", "LabelItem", "TargetLabel", "QInputDialog"),
}
"""Classes that guess whether a text is rich, or show rich text."""
SET_THERE = {
    *("setToolTip", "setStatusTip", "setWhatsThis", "setHtml", "insertHtml", "appendHtml"),
    *("appendHtmlText", "setMarkdown", "setInformativeText", "setDetailedText"),
    *("setTextFormat", "setOpenExternalLinks", "Markup"),
}
SAYS = {
    *("QAction", "QPushButton", "QToolButton", "QCheckBox", "QRadioButton", "QGroupBox", "QMenu"),
    *("addAction", "addMenu", "addTab", "setTabText", "setTitle", "setWindowTitle", "addItem"),
    *("setStatusTip", "showMessage", "QTableWidgetItem", "QListWidgetItem", "QStandardItem"),
    *("QTreeWidgetItem", "setHorizontalHeaderLabels", "setHeaderLabels", "addItems"),
}
"""What takes a text of one line: no rich text, but "&", "[*]", line ends and any length."""
FIT = {"button_text", "title_text", "cell_text", "tr"}
"""What makes such a text of any other, and translations, which are ours."""

ALLOWED = {
    ("qt/painting/lettering.py", "setTextFormat"):
        "words that wrap in pictures are laid out once, as plain text",
    ("features/compare/beside.py", "QPushButton"): "what its callers say is translated",
    ("features/growing/page.py", "setHorizontalHeaderLabels"): "headings of ours, and an age",
    ("features/measuring/cuffs_column.py", "QRadioButton"): "words of ours for a state",
    ("features/measuring/page.py", "addItems"): "labels of inputs, and numbers",
    ("features/paper/fit_sheet.py", "setTitle"): "of a PDF file, which knows no rich text",
    ("features/paper/pictures.py", "addAction"): "a command that was made before",
    ("features/paper/view_svg.py", "setTitle"): "of an SVG file; Qt escapes it",
    ("features/parts/choice_table.py", "setHorizontalHeaderLabels"): "headings of ours",
    ("features/lessons/taking_home.py", "QMenu"): "its parent, no text",
    ("features/parts/editor.py", "QMenu"): "its parent, no text",
    ("features/parts/several_panel.py", "addItem"): "an item that was made before",
    ("features/wedge/form.py", "QPushButton"): "a kind of file",
    ("qt/controls/choice_box.py", "addItem"): "choices of ours",
    ("qt/controls/keyed_menu.py", "QAction"): "what its callers say is translated",
    ("qt/controls/keyed_menu.py", "addAction"): "a command that was made before",
    ("qt/controls/word_table.py", "setHorizontalHeaderLabels"): "headings of ours",
    ("qt/painting/scene_picture.py", "setWindowTitle"): "the title of a drawing, a text of ours",
    ("window/control_row.py", "QMenu"): "its parent, no text",
    ("window/control_row.py", "addAction"): "translated one line before",
    ("window/documents.py", "setWindowTitle"): "title_text one line before",
    ("window/preferences.py", "QAction"): "its parent, no text",
    ("window/preferences.py", "addAction"): "a command that was made before",
    ("window/regions.py", "QAction"): "what its callers say is translated",
    ("window/regions.py", "addAction"): "a command that was made before",
    ("window/overflow.py", "QAction"): "what its callers say is translated",
    ("window/overflow.py", "QMenu"): "its parent, no text",
    ("window/overflow.py", "addAction"): "a command that was made before",
    ("window/starting_menu.py", "addAction"): "titles of ours",
    ("window/window.py", "addAction"): "commands that were made before",
}  # fmt: skip
"""What is used elsewhere all the same, by file and name, and why it cannot harm."""

MODULES = [path for path in sorted(APP.rglob("*.py")) if str(path.relative_to(APP)) != MAKER]


def name_of(node: ast.AST) -> str:
    """The last name of what is called or inherited."""
    return node.attr if isinstance(node, ast.Attribute) else getattr(node, "id", "")


Nodes: TypeAlias = list[ast.Call | ast.ClassDef]


def nodes_of(source: str) -> Nodes:
    """What is called and what is inherited in a module."""
    every = ast.walk(ast.parse(source))
    return [node for node in every if isinstance(node, ast.Call | ast.ClassDef)]


def made_elsewhere(nodes: Nodes) -> Iterator[tuple[int, str]]:
    """Where something is called or inherited that only the maker may."""
    for node in nodes:
        if isinstance(node, ast.Call):
            names = [name_of(node.func)]
            if isinstance(node.func, ast.Attribute):
                names.append(name_of(node.func.value))  # QMessageBox.warning(…)
        else:
            names = [name_of(base) for base in node.bases]
        yield from ((node.lineno, name) for name in names if name in MADE_THERE | SET_THERE)


def unfit(nodes: Nodes) -> Iterator[tuple[int, str]]:
    """Where a text that nobody made fit is given to what takes one line."""
    for node in nodes:
        says = isinstance(node, ast.Call) and name_of(node.func) in SAYS
        if says and not all(map(is_ours, node.args)):
            yield node.lineno, name_of(node.func)


def mixed_markup(nodes: Nodes) -> Iterator[int]:
    """Where markup is made of anything but a template that stands in the code."""
    for node in nodes:
        if isinstance(node, ast.Call) and name_of(node.func) == "markup":
            template = node.args[0]
            if not isinstance(template, ast.Constant) and not name_of(template).isupper():
                yield node.lineno


def is_ours(node: ast.expr) -> bool:
    """Whether a text is a constant, translated, made fit, or made of such."""
    match node:
        case ast.Constant():
            return True
        case ast.BinOp():
            pieces = [node.left, node.right]
        case ast.IfExp():
            pieces = [node.body, node.orelse]
        case ast.List() | ast.Tuple():
            pieces = node.elts
        case ast.ListComp() | ast.GeneratorExp():
            pieces = [node.elt]
        case _:
            return isinstance(node, ast.Call) and name_of(node.func) in FIT
    return all(map(is_ours, pieces))


def test_no_text_gets_onto_a_widget_but_through_the_one_maker() -> None:
    found, used = [], set()
    for path in MODULES:
        nodes, file = nodes_of(path.read_text("utf-8")), str(path.relative_to(APP))
        for line, name in [*made_elsewhere(nodes), *unfit(nodes)]:
            used.add((file, name))
            found += [] if (file, name) in ALLOWED else [f"{file}:{line} {name}"]
        found += [f"{file}:{line} markup" for line in mixed_markup(nodes)]
    assert found == []
    assert used == set(ALLOWED), "something stands on the list of exceptions that is not there"


@pytest.mark.parametrize(
    "line",
    [
        "QLabel(name)",
        "class Mine(QLabel): pass",
        "QMessageBox.warning(self, 'no', name)",
        "cell.setToolTip(name)",
        "pg.TextItem(html=name)",
        "menu.addAction(name)",
        "window.setWindowTitle(f'{name} here')",
        "self.setHorizontalHeaderLabels([tr('Part'), name])",
    ],
)
def test_a_line_that_goes_round_the_maker_is_found(line: str) -> None:
    nodes = nodes_of(line)
    assert [*made_elsewhere(nodes), *unfit(nodes)]


@pytest.mark.parametrize("line", ["markup(f'<b>{name}</b>')", "markup('<b>' + name)"])
def test_markup_with_a_value_in_its_template_is_found(line: str) -> None:
    assert list(mixed_markup(nodes_of(line)))
