"""The field for one reading, which knows of what: it may have to wait, and come back elsewhere."""

from __future__ import annotations

from PySide6.QtCore import Signal

from app.features.measuring.model import GUIDE
from app.files.drafts import Draft
from app.qt.controls.number_field import NumberField
from app.rider.inputs import side_and_name
from app.words.scale import Scale


class ReadingField(NumberField):
    """Takes readings of one dimension at a time.

    What waits in it to be mended belongs to the dimension that it was read of, so that goes
    with it wherever it is kept.
    """

    wanted = Signal(str)
    """A reading of this dimension is to stand here again: it is the one to choose."""

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("reading")
        self._of = ""

    def ask_for(self, name: str, label: str, scale: Scale) -> None:
        """Take readings of a dimension, called so, on its scale."""
        self._of = name
        self.setAccessibleName(label)
        self.set_scale(scale)
        if self.draft is not None:
            # Both legs' reading may be one leg's from now on: what waits is told anew.
            self.keep(self.draft, self.why)

    def keep(self, text: str | None, why: str = "", *, label: str = "", detail: str = "") -> None:
        """Know, and tell the desk, what is typed and of which dimension; None for nothing."""
        super().keep(text, why, label=label, detail=detail or self._of)

    def takes(self, draft: Draft) -> bool:
        """Whether it is known of which dimension a text was read."""
        return side_and_name(draft.detail)[1] in GUIDE

    def resume(self, draft: Draft) -> None:
        """Let a reading stand here again that was typed before, at its dimension."""
        self.forget()
        self.wanted.emit(draft.detail)
        super().resume(draft)
