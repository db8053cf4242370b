"""What one may want on a handout besides the answer: asked each time, never by itself."""

from __future__ import annotations

from PySide6.QtWidgets import QCheckBox, QDialog, QDialogButtonBox, QVBoxLayout, QWidget

from app.qt.controls.page_words import note


class HandoutDialog(QDialog):
    """Asks whether name and notes are to be told.

    Attributes:
        named: whether the name is.
        notes: whether the notes are.
    """

    def __init__(self, parent: QWidget, *, has_name: bool, has_notes: bool) -> None:
        super().__init__(parent)
        self.named = self.notes = False
        self.setWindowTitle(self.tr("Handout"))
        about = note(
            self.tr(
                "Two pages to take home: what to begin with and why, the steps at the bench, and "
                "what to watch."
            )
        )
        self.name_box = QCheckBox(self.tr("With the set-up's name"))
        self.name_box.setEnabled(has_name)
        self.name_box.toggled.connect(self._tell_name)
        self.notes_box = QCheckBox(self.tr("With the notes"))
        self.notes_box.setEnabled(has_notes)
        self.notes_box.toggled.connect(self._tell_notes)
        buttons = QDialogButtonBox()
        self.save = buttons.addButton(self.tr("Save…"), QDialogButtonBox.ButtonRole.AcceptRole)
        buttons.addButton(QDialogButtonBox.StandardButton.Cancel)
        buttons.accepted.connect(self.accept)
        buttons.rejected.connect(self.reject)
        column = QVBoxLayout(self)
        for each in (about, self.name_box, self.notes_box, buttons):
            column.addWidget(each)

    def _tell_name(self, named: bool) -> None:
        self.named = named

    def _tell_notes(self, notes: bool) -> None:
        self.notes = notes
