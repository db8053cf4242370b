"""The settings that a user chooses, in one small dialog; all act at once."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any, Final

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QDialog, QDialogButtonBox, QFormLayout, QVBoxLayout, QWidget

from app.files.settings import LARGEST_LIMIT, LEAST_LIMIT, MOTIONS, TEXT_PERCENT, THEMES, Settings
from app.qt.controls.choice_box import ChoiceBox
from app.qt.controls.number_field import NumberField
from app.qt.literal import Label
from app.qt.sizes import STEP_PERCENT, px
from app.stance.findings import (
    DRIFTING,
    IN_PLANE,
    OUT_OF_PLANE,
    USUAL_LIMITS,
    Limits,
    state_words,
)
from app.words.language import NAMES, msgid
from app.words.scale import Scale
from app.words.units import DEGREES, LENGTH_UNITS

_THEMES: Final = {
    "system": msgid("as the system"),
    "light": msgid("light"),
    "dark": msgid("dark"),
    "contrast": msgid("high contrast, light"),
    "contrast_dark": msgid("high contrast, dark"),
}
_MOTIONS: Final = {
    "system": msgid("as the system"),
    "reduced": msgid("reduced: nothing starts by itself"),
}
_STEPS: Final = (0.1, 0.1, 0.5)
_FIELD_WIDTH: Final = 76
_ABOUT_LIMITS: Final = msgid(
    "How far the thigh may lie off the knee's hinge plane. An engineering choice, "
    "not a clinical limit."
)


class SettingsDialog(QDialog):
    """Shows settings and asks for changes of them.

    Args:
        settings: to begin with.
    """

    asked = Signal(dict)
    """Settings to change, by name."""

    def __init__(self, settings: Settings, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._limits = settings.limits
        self._boxes: dict[str, ChoiceBox] = {}
        self.setObjectName("settings")
        self.setWindowTitle(self.tr("Settings"))
        self.unit = self._choice({unit: unit for unit in LENGTH_UNITS}, "unit")
        self.theme = self._choice({key: self.tr(_THEMES[key]) for key in THEMES}, "theme")
        self.language = self._choice({"system": self.tr(_THEMES["system"]), **NAMES}, "language")
        self.motion = self._choice({key: self.tr(_MOTIONS[key]) for key in MOTIONS}, "motion")
        low, high = TEXT_PERCENT
        sizes = sorted({*range(low, high + 1, STEP_PERCENT), settings.text_percent})
        self.text_percent = self._choice({each: f"{each} %" for each in sizes}, "text_percent")
        self.in_plane = self._limit("in_plane_deg")
        self.drifting = self._limit("drifting_deg")
        self.problem = Label()
        self._build()
        self._show(settings)

    def go_to(self, name: str) -> None:
        """Put the keyboard on a setting; with "" leave it where it begins."""
        if name in self._boxes:
            self._boxes[name].setFocus(Qt.FocusReason.OtherFocusReason)

    def _build(self) -> None:
        form = QFormLayout()
        form.addRow(self.tr("&Lengths in"), self.unit)
        form.addRow(self.tr("&Colours"), self.theme)
        form.addRow(self.tr("&Motion"), self.motion)
        form.addRow(self.tr("Lan&guage"), self.language)
        form.addRow(self.tr("&Size of letters"), self.text_percent)
        about = Label(self.tr(_ABOUT_LIMITS))
        about.setWordWrap(True)
        form.addRow(about)
        in_plane, drifting, out = map(state_words, (IN_PLANE, DRIFTING, OUT_OF_PLANE))
        form.addRow(self.tr("“{}” up to").format(in_plane), self.in_plane)
        beyond = self.tr("“{}” up to, “{}” beyond").format(drifting, out)
        form.addRow(beyond, self.drifting)
        form.addRow(self.problem)
        self.in_plane.setAccessibleName(self.tr("“{}” up to").format(in_plane))
        self.drifting.setAccessibleName(beyond)
        column = QVBoxLayout(self)
        column.addLayout(form)
        column.addWidget(self._buttons())

    def _buttons(self) -> QDialogButtonBox:
        buttons = QDialogButtonBox()
        close = buttons.addButton(QDialogButtonBox.StandardButton.Close)
        self.usual = buttons.addButton(
            self.tr("Back to the usual"), QDialogButtonBox.ButtonRole.ResetRole
        )
        buttons.rejected.connect(self.reject)
        self.usual.clicked.connect(self._restore)
        for button in (close, self.usual):
            button.setAutoDefault(False)  # Enter finishes a number and nothing else
        return buttons

    def done(self, result: int) -> None:
        """Close, unless a number is still to be mended."""
        limits = (self.in_plane, self.drifting)
        for field in limits:
            field.finish()
        if all(field.draft is None for field in limits):
            super().done(result)

    def _choice(self, choices: Mapping[Any, str], name: str) -> ChoiceBox:
        box = self._boxes[name] = ChoiceBox("", choices)
        box.chosen.connect(lambda value: self.asked.emit({name: value}))
        return box

    def _limit(self, name: str) -> NumberField:
        field = NumberField()
        field.setObjectName(name)
        field.setFixedWidth(px(_FIELD_WIDTH))
        field.committed.connect(lambda value: self._set_limit(name, value))
        field.stepped.connect(
            lambda count, kind: self._set_limit(
                name, self._scale(name).stepped(getattr(self._limits, name), count, kind)
            )
        )
        field.refused.connect(lambda typed, why: self.problem.setText(f"{typed}: {why}"))
        field.resumed.connect(lambda: self.problem.setText(""))
        return field

    def _scale(self, name: str) -> Scale:
        """The range of a limit: neither passes the other."""
        low = self._limits.in_plane_deg if name == "drifting_deg" else LEAST_LIMIT
        high = self._limits.drifting_deg if name == "in_plane_deg" else LARGEST_LIMIT
        return Scale(low, high, _STEPS, DEGREES)

    def _show(self, settings: Settings) -> None:
        for name, box in self._boxes.items():
            box.show_choice(getattr(settings, name))
        self._show_limits(settings.limits)

    def _show_limits(self, limits: Limits) -> None:
        self._limits = limits
        for name, field in (("in_plane_deg", self.in_plane), ("drifting_deg", self.drifting)):
            field.set_scale(self._scale(name))
            field.show_value(getattr(limits, name))

    def _set_limit(self, name: str, value: float) -> None:
        self.problem.setText("")
        self._show_limits(replace(self._limits, **{name: value}))
        self.asked.emit({"limits": self._limits})

    def _restore(self) -> None:
        usual = Settings()
        self.in_plane.forget()
        self.drifting.forget()
        self._show(usual)
        chosen = {name: getattr(usual, name) for name in self._boxes}
        self.asked.emit({**chosen, "limits": USUAL_LIMITS})
