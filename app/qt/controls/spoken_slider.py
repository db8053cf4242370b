"""What a slider tells assistive programs: its value in the unit shown, and in words.

Without this they would hear where the handle stands on the grid of the fine step.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from PySide6.QtGui import QAccessible, QAccessibleValueInterface
from PySide6.QtWidgets import QAccessibleWidget
from shiboken6 import Shiboken

if TYPE_CHECKING:
    from app.qt.controls.slider import Slider


class _Value(QAccessibleValueInterface):
    """The value as numbers, which can be set."""

    def __init__(self, slider: Slider) -> None:
        super().__init__()
        self._slider = slider

    def currentValue(self) -> float:  # noqa: N802
        return self._slider.figures()[0]

    def minimumValue(self) -> float:  # noqa: N802
        return self._slider.figures()[1]

    def maximumValue(self) -> float:  # noqa: N802
        return self._slider.figures()[2]

    def minimumStepSize(self) -> float:  # noqa: N802
        return self._slider.figures()[3]

    def setCurrentValue(self, value: Any) -> None:  # noqa: N802
        self._slider.ask_figure(float(value))


class SpokenSlider(QAccessibleWidget):
    """A slider as assistive programs see it."""

    def __init__(self, slider: Slider) -> None:
        super().__init__(slider, QAccessible.Role.Slider)
        self._slider = slider
        self._value = _Value(slider)

    def text(self, kind: QAccessible.Text) -> str:
        """The value in words; everything else as for any widget."""
        if kind == QAccessible.Text.Value:
            return self._slider.words()
        return super().text(kind)

    # The stubs take an address for a number; the bindings hand it on as an object.
    def interface_cast(self, kind: QAccessible.InterfaceType) -> Any:
        """The value as numbers; everything else as for any widget."""
        if kind == QAccessible.InterfaceType.ValueInterface:
            return self._value
        usual = super().interface_cast(kind)
        # None would reach Qt as an address, which it would follow.
        return Shiboken.VoidPtr(0) if usual is None else usual
