"""The settings that a user chooses, in one small dialog that acts at once."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import Signal
from PySide6.QtWidgets import (
    QComboBox,
    QDialog,
    QDialogButtonBox,
    QDoubleSpinBox,
    QFormLayout,
    QLabel,
    QVBoxLayout,
    QWidget,
)

from app.findings import DRIFTING, IN_PLANE, OUT_OF_PLANE, USUAL_LIMITS, Limits
from app.settings import LARGEST_LIMIT, LEAST_LIMIT, THEMES, UNITS, Settings

_THEMES: Final = {"system": "as the system", "light": "light", "dark": "dark"}
_ABOUT_LIMITS: Final = (
    "How far the thigh may lie off the knee's hinge plane. An engineering choice, "
    "not a clinical limit."
)


class SettingsDialog(QDialog):
    """Shows settings and asks for changes of them; keeps none itself.

    Args:
        settings: to begin with.
    """

    asked = Signal(dict)
    """Settings to change, by name."""

    def __init__(self, settings: Settings, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(self.tr("Settings"))
        self.unit = self._choice({unit: unit for unit in UNITS}, "unit")
        self.theme = self._choice({theme: _THEMES[theme] for theme in THEMES}, "theme")
        self.in_plane = self._limit()
        self.drifting = self._limit()
        self._build()
        self._show(settings)
        self.in_plane.valueChanged.connect(self._ask_limits)
        self.drifting.valueChanged.connect(self._ask_limits)

    def _build(self) -> None:
        form = QFormLayout()
        form.addRow(self.tr("&Lengths in"), self.unit)
        form.addRow(self.tr("&Colours"), self.theme)
        about = QLabel(self.tr(_ABOUT_LIMITS))
        about.setWordWrap(True)
        form.addRow(about)
        form.addRow(self.tr("“{}” up to").format(IN_PLANE), self.in_plane)
        form.addRow(
            self.tr("“{}” up to, beyond it “{}”").format(DRIFTING, OUT_OF_PLANE), self.drifting
        )
        buttons = QDialogButtonBox(
            QDialogButtonBox.StandardButton.Close | QDialogButtonBox.StandardButton.RestoreDefaults
        )
        buttons.rejected.connect(self.reject)
        defaults = buttons.button(QDialogButtonBox.StandardButton.RestoreDefaults)
        defaults.clicked.connect(self._restore)
        column = QVBoxLayout(self)
        column.addLayout(form)
        column.addWidget(buttons)

    def _choice(self, choices: dict[str, str], name: str) -> QComboBox:
        box = QComboBox()
        for value, words in choices.items():
            box.addItem(self.tr(words), value)
        box.activated.connect(lambda: self.asked.emit({name: box.currentData()}))
        return box

    def _limit(self) -> QDoubleSpinBox:
        box = QDoubleSpinBox()
        box.setRange(LEAST_LIMIT, LARGEST_LIMIT)
        box.setDecimals(1)
        box.setSingleStep(0.1)
        box.setSuffix("°")
        box.setKeyboardTracking(False)
        return box

    def _show(self, settings: Settings) -> None:
        self.unit.setCurrentIndex(self.unit.findData(settings.unit))
        self.theme.setCurrentIndex(self.theme.findData(settings.theme))
        self._show_limits(settings.limits)

    def _show_limits(self, limits: Limits) -> None:
        # Neither field can be set past the other.
        self.in_plane.setMaximum(limits.drifting_deg)
        self.drifting.setMinimum(limits.in_plane_deg)
        self.in_plane.setValue(limits.in_plane_deg)
        self.drifting.setValue(limits.drifting_deg)

    def _ask_limits(self) -> None:
        limits = Limits(round(self.in_plane.value(), 1), round(self.drifting.value(), 1))
        self.in_plane.setMaximum(limits.drifting_deg)
        self.drifting.setMinimum(limits.in_plane_deg)
        self.asked.emit({"limits": limits})

    def _restore(self) -> None:
        usual = Settings()
        self.in_plane.setMaximum(LARGEST_LIMIT)
        self.drifting.setMinimum(LEAST_LIMIT)
        self._show(usual)
        self.asked.emit({"unit": usual.unit, "theme": usual.theme, "limits": USUAL_LIMITS})
