"""What is wrong with a window by geometry: targets too small, words cut, things on each other."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from itertools import combinations
from typing import Any, NamedTuple

from PySide6.QtCore import QPointF, QRect, QRectF, Qt
from PySide6.QtGui import QFontMetricsF, QPainter
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QAbstractScrollArea,
    QAbstractSlider,
    QComboBox,
    QGraphicsItem,
    QGraphicsView,
    QHeaderView,
    QLabel,
    QLineEdit,
    QScrollBar,
    QTableView,
    QWidget,
)

from app.qt.painting.palette import TARGET


class Fault(NamedTuple):
    """Something that is wrong.

    Attributes:
        kind: "small", "cut" or "overlap".
        what: the widget, and its words.
        details: sizes (logical px).
    """

    kind: str
    what: str
    details: str


def faults(root: QWidget) -> list[Fault]:
    """What is wrong with a widget that is shown, and with all in it that can be seen."""
    shown = [each for each in (root, *root.findChildren(QWidget)) if each.isVisibleTo(root)]
    found = [*_small(shown), *_cut(shown), *_overlaps(root, shown)]
    return list(dict.fromkeys(found))


def _name(widget: QWidget) -> str:
    words = getattr(widget, "text", lambda: "")()
    said = words or widget.accessibleName() or widget.objectName()
    return f"{type(widget).__name__} {said[:50]!r}"


def _own(widget: QWidget) -> bool:
    """Whether it is one of ours, and not a part of one of Qt's own."""
    around = widget.parentWidget()
    return not (
        isinstance(around, QComboBox | QAbstractItemView | QHeaderView)
        or widget.objectName().startswith("qt_")
        or isinstance(widget, QScrollBar)
    )


FREE = (
    ("overlap", "OrbitView "),
    ("cut", "OrbitView "),
    ("overlap", "Sheet 'Drawings': "),
    ("overlap", "Sheet 'Zeichnungen': "),
    ("overlap", "SnugPicture "),
    ("overlap", "ScenePicture "),
    ("cut", "QWidget 'qt_scrollarea_viewport': "),
)
"""What may be so, by kind and by how it begins: a label that turns in space; words on drawings,
of which tests of their own are about; a line of a list or table that is scrolled to."""


def is_free(fault: Fault) -> bool:
    """Whether a fault is none, since it is so by purpose."""
    return any(fault.kind == kind and fault.what.startswith(begins) for kind, begins in FREE)


# What is pressed


def _small(shown: list[QWidget]) -> Iterator[Fault]:
    for each in shown:
        if not _pressed(each):
            continue
        if min(each.width(), each.height()) < TARGET:
            yield Fault("small", _name(each), f"{each.width()} x {each.height()}")


def _pressed(widget: QWidget) -> bool:
    if isinstance(widget, QAbstractButton) and type(widget).__name__ == "OriginMark":
        return widget.focusPolicy() != Qt.FocusPolicy.NoFocus  # else it is a sign only
    kinds = (QAbstractButton, QLineEdit, QComboBox, QAbstractSlider)
    return isinstance(widget, kinds) and _own(widget)


# Words


def _cut(shown: list[QWidget]) -> Iterator[Fault]:
    for each in shown:
        wanted = _wanted(each)
        if wanted is None:
            continue
        width, height = wanted
        if width > each.width() + 1 or height > each.height() + 1:
            yield Fault(
                "cut", _name(each), f"{each.width()} x {each.height()} of {width} x {height}"
            )
        elif _beyond(each):
            yield Fault("cut", _name(each), f"{each.geometry().getRect()} beyond what it stands in")


def _wanted(each: QWidget) -> tuple[int, int] | None:
    """The room that the words of a widget want; None where it has none, or may cut them."""
    if isinstance(each, QLabel):
        return _wanted_by_label(each)
    if isinstance(each, QLineEdit):
        return _wanted_by_field(each) if _own(each) else None
    if isinstance(each, QComboBox):
        return each.fontMetrics().horizontalAdvance(each.currentText()) + _BESIDE_CHOICE, 0
    least = each.minimumSizeHint()
    hint = least if least.isValid() else each.sizeHint()
    worded = isinstance(each, QAbstractButton) and each.text() and _own(each)
    return (hint.width(), hint.height()) if worded and hint.isValid() else None


_BESIDE_CHOICE = 26
"""Room for the arrow and the edges of a box of choices (px)."""


def _wanted_by_label(label: QLabel) -> tuple[int, int] | None:
    if not label.text() or type(label).__name__ == "Elided":
        return None
    if label.wordWrap():
        return 0, label.heightForWidth(label.width())
    gives_way = label.minimumWidth() == 1
    return 0 if gives_way else label.sizeHint().width(), label.sizeHint().height()


def _wanted_by_field(field: QLineEdit) -> tuple[int, int]:
    margins, metrics = field.textMargins(), field.fontMetrics()
    words = metrics.horizontalAdvance(field.text() or field.placeholderText())
    words += margins.left() + margins.right() + 4
    scrolls = type(field).__name__ == "TextField" and field.text()
    return 0 if scrolls else words, metrics.height()


def _beyond(widget: QWidget) -> bool:
    """Whether what it stands in cuts it, where that cannot be scrolled."""
    around = widget.parentWidget()
    if around is None or widget.isWindow():
        return False
    if isinstance(around.parentWidget(), QAbstractScrollArea):
        return False
    return not around.rect().adjusted(-1, -1, 1, 1).contains(widget.geometry())


# One on the other


def _overlaps(root: QWidget, shown: list[QWidget]) -> Iterator[Fault]:
    for around in shown:
        inside = [each for each in around.children() if isinstance(each, QWidget)]
        seen = [each for each in inside if each.isVisibleTo(root) and not each.isWindow()]
        seen = [each for each in seen if not _floats(each)]
        for one, other in combinations(seen, 2):
            both = one.geometry().intersected(other.geometry())
            if min(both.width(), both.height()) > _ALLOWED:
                yield Fault("overlap", f"{_name(one)} / {_name(other)}", f"{both.getRect()}")


_ALLOWED = 1
"""By how much frames may stand on each other (px)."""


def _floats(widget: QWidget) -> bool:
    """Whether it stands over others by purpose, or is a part of Qt's own."""
    floating = type(widget).__name__ in {"Caption", "WhoCard", "Rubber"}
    return floating or widget.objectName().startswith("qt_") or isinstance(widget, QScrollBar)


def cells_cut(table: QTableView) -> list[Fault]:
    """The headings and cells of a table whose words have no room."""
    model, found = table.model(), []
    for column in range(model.columnCount()):
        width, header = table.columnWidth(column), table.horizontalHeader()
        if table.isColumnHidden(column):
            continue
        if not header.isHidden() and header.sectionSizeHint(column) > width + 1:
            words = model.headerData(column, Qt.Orientation.Horizontal)
            found.append(Fault("cut", f"heading {words!r}", f"{width}"))
        for row in range(min(model.rowCount(), 40)):
            index = model.index(row, column)
            told = str(index.data(Qt.ItemDataRole.ToolTipRole) or "")
            if str(index.data() or "") in told:
                continue  # the whole of it can be had
            if table.sizeHintForIndex(index).width() > width + 1:
                found.append(Fault("cut", f"cell {index.data()!r}", f"{width}"))
    return found


# What is painted


class Written(NamedTuple):
    """A text that was painted upright, in the pixels of its widget.

    Attributes:
        room: what it takes.
        least: the height that it was given, where it was cut to that; else what it takes.
    """

    text: str
    widget: QWidget | None
    room: tuple[float, float, float, float]
    least: float


@contextmanager
def written() -> Iterator[list[Written]]:
    """Watches every text that Python code paints on a widget."""
    seen: list[Written] = []
    plain: Any = QPainter.drawText

    def watch(painter: QPainter, *told: Any) -> Any:
        # On a picture that is kept, where a text stands in the widget cannot be known.
        on_widget = isinstance(painter.device(), QWidget)
        noted = _noted(painter, told)
        seen.extend(each for each in noted if on_widget or _is_tight(each))
        return plain(painter, *told)

    QPainter.drawText = watch  # type: ignore[method-assign, assignment]
    try:
        yield seen
    finally:
        QPainter.drawText = plain  # type: ignore[method-assign]


def _noted(painter: QPainter, told: tuple[Any, ...]) -> Iterator[Written]:
    device, turn = painter.device(), painter.worldTransform()
    text = next((each for each in told if isinstance(each, str)), "")
    if turn.m12() or not text.strip():
        return
    metrics, first = QFontMetricsF(painter.font()), told[0]
    if isinstance(first, QRect | QRectF):
        flags = next((int(getattr(f, "value", f)) for f in told[1:] if not isinstance(f, str)), 0)
        room = metrics.boundingRect(QRectF(first), flags, text)
        free = flags & int(Qt.TextFlag.TextDontClip.value)
        given = room.height() if free else float(first.height())
    else:
        at = QPointF(first)
        width = metrics.horizontalAdvance(text)
        room = QRectF(at.x(), at.y() - metrics.capHeight(), width, metrics.capHeight())
        given = room.height()
    times = abs(turn.m22()) or 1.0
    widget = device if isinstance(device, QWidget) else None
    yield Written(text, widget, turn.mapRect(room).getRect(), times * given)


_TIGHT = 0.85
"""The share of a line's height in which no letter of it is cut."""


def _is_tight(each: Written) -> bool:
    return each.least < _TIGHT * each.room[3]


def written_faults(seen: list[Written]) -> list[Fault]:
    """What is wrong with texts that were painted: cut by their widget, or one on the other."""
    found = []
    by_widget: dict[int, list[Written]] = {}
    for each in dict.fromkeys(seen):
        if _is_tight(each):
            size = f"{each.least:.0f} of {each.room[3]:.0f} high"
            name = _name(each.widget) if each.widget is not None else "A picture"
            found.append(Fault("cut", f"{name}: {each.text[:60]!r}", size))
        if each.widget is not None:
            by_widget.setdefault(id(each.widget), []).append(each)
    for texts in by_widget.values():
        for each in texts:
            if each.widget is None:
                continue
            whole = QRectF(each.widget.rect()).adjusted(-1.5, -1.5, 1.5, 1.5)
            if not whole.contains(QRectF(*each.room)):
                size = f"{[round(n) for n in each.room]} in {whole.width()} x {whole.height()}"
                found.append(Fault("cut", f"{_name(each.widget)}: {each.text[:60]!r}", size))
        for one, other in combinations(texts, 2):
            both = QRectF(*one.room).intersected(QRectF(*other.room))
            if min(both.width(), both.height()) > 2.0 and one.text != other.text:
                pair = f"{one.text[:40]!r} / {other.text[:40]!r}"
                name = _name(one.widget) if one.widget is not None else ""
                found.append(Fault("overlap", f"{name}: {pair}", f"{both.getRect()}"))
    return found


def _kept_as_pictures(root: QWidget) -> dict[QGraphicsItem, QGraphicsItem.CacheMode]:
    """What is not painted anew with its view."""
    views = [each for each in root.findChildren(QGraphicsView) if each.isVisible()]
    items = [item for view in views for item in view.scene().items()]
    modes = {item: item.cacheMode() for item in items}
    return {item: mode for item, mode in modes.items() if mode != mode.NoCache}


def looked_at(root: QWidget, settle: Callable[[], object]) -> list[Fault]:
    """All that is wrong with a window that is shown, without what is so by purpose."""
    settle()
    with written() as seen:
        kept = _kept_as_pictures(root)
        for item in kept:
            item.setCacheMode(QGraphicsItem.CacheMode.NoCache)
        root.repaint()
        for each in root.findChildren(QWidget):
            if each.isVisible():
                each.repaint()
        settle()
        for item, mode in kept.items():
            item.setCacheMode(mode)
    told = [each for each in seen if each.widget is None or each.widget.isVisible()]
    found = [*faults(root), *written_faults(told)]
    for table in root.findChildren(QTableView):
        if table.isVisible():
            found += cells_cut(table)
    return [each for each in dict.fromkeys(found) if not is_free(each)]
