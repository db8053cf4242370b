"""How one number is described to people: label, unit, range, steps, and what its sign means."""

from __future__ import annotations

from dataclasses import MISSING, dataclass, field, fields, replace
from typing import Any, Final

from app.words.language import msgid, tr

TOE_HEEL: Final = (msgid("toe lift"), msgid("heel lift"))
IN_OUT: Final = (msgid("inward cant"), msgid("outward cant"))
KNEE_INSIDE_OUTSIDE: Final = (msgid("inside the toes"), msgid("outside the toes"))
TO_NOSE_TAIL: Final = (msgid("to the nose"), msgid("to the tail"))
TO_FRONT_REAR_LEG: Final = (msgid("to the front leg"), msgid("to the rear leg"))
TO_TOES_HEELS: Final = (msgid("to the toes"), msgid("to the heels"))
CUFF_IN_OUT: Final = (msgid("further inward"), msgid("further outward"))

_OF_SIDE: Final = {"left": msgid("{label} left"), "right": msgid("{label} right")}
"""What a number is called that each leg has for itself."""

REQUIRED: Final = MISSING
"""In place of a default: the number has to be given."""


@dataclass(frozen=True, slots=True)
class Field:
    """One number that is set by hand.

    Attributes:
        name: its name among its like, on the command line and in files.
        group: key of the group of controls in which it stands.
        title: short name in English, with the foot where it has one; shown as :attr:`label`.
        unit: "mm", "deg", "s", or another kind that :func:`app.words.units.unit_of` knows;
            "" for a count.
        low: smallest value that can be set.
        high: largest value that can be set.
        step: one press of an arrow key; a tenth with Shift, five with Ctrl.
        about: what it is, in a rider's words, in English; shown as :attr:`help`.
        signs: words for a positive and for a negative value in English, where the
            sign has a meaning that a number does not tell; shown by :mod:`app.words.sentences`.
        zero_allowed: whether it may be 0 though its range begins higher up.
        side: "left" or "right" where it is that leg's alone; "" else.
    """

    name: str
    group: str
    title: str
    unit: str
    low: float
    high: float
    step: float
    about: str
    signs: tuple[str, str] | None = None
    zero_allowed: bool = False
    side: str = ""

    @property
    def label(self) -> str:
        """Its short name in the user's language, with the leg's side where it has one."""
        title = tr(self.title)
        return tr(_OF_SIDE[self.side], label=title) if self.side else title

    @property
    def help(self) -> str:
        """What it is, in the user's language."""
        return tr(self.about)

    @property
    def fine_step(self) -> float:
        """The step with Shift, and the grid of the slider."""
        return self.step / 10.0

    @property
    def coarse_step(self) -> float:
        """The step with Ctrl, and of the page keys."""
        return self.step * 5.0


def adjustable(  # noqa: PLR0917, a row of a table
    default: Any,
    group: str,
    title: str,
    unit: str,
    low: float,
    high: float,
    step: float,
    about: str,
    signs: tuple[str, str] | None = None,
    *,
    zero_allowed: bool = False,
) -> Any:
    """An attribute of a dataclass that is set by hand: its default, and the rest of its field."""
    described = Field("", group, title, unit, low, high, step, about, signs, zero_allowed)
    return field(default=default, metadata={Field.__name__: described})


def fields_of(record: type) -> tuple[Field, ...]:
    """What is set by hand among the attributes of a dataclass, in their order."""
    return tuple(
        replace(each.metadata[Field.__name__], name=each.name)
        for each in fields(record)
        if Field.__name__ in each.metadata
    )
