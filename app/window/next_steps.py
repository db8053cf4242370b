"""Which step is useful next, from who is riding to the log of trials: one table, no Qt.

A step is finished when the set-up shows that it was done, or when the user put it aside;
what is finished never comes back for that document.
"""

from __future__ import annotations

from collections.abc import Callable, Collection
from typing import Final, NamedTuple

from app.features.measuring.model import is_seen_to, things_to_measure
from app.rider.inputs import FIELDS
from app.rider.parts import NO_PARTS
from app.rider.setup import Setup, somebody
from app.words.language import msgid, tr

CARD: Final = "card"
"""Where the first step leads: to the card that asks who is riding."""
_STANCE: Final = tuple(field.name for field in FIELDS if field.group == "stance")
_MOUNTS: Final = tuple(field.name for field in FIELDS if field.group == "mounts")


class Known(NamedTuple):
    """What the table looks at.

    Attributes:
        setup: in hand.
        start: what it was started from.
        left: titles of the pages that were open and no longer are.
        saved: whether the set-up in hand stands in a file or a picture as it is.
        enough: whether the trials have found what is comfortable for both legs.
    """

    setup: Setup
    start: Setup
    left: Collection[str] = ()
    saved: bool = False
    enough: bool = False


class NextStep(NamedTuple):
    """One line of the table.

    Attributes:
        key: names it.
        words: what to do, with places for how much of it is done.
        help: why.
        done: whether the set-up shows that it was.
        page: title of the page on which it is done; :data:`CARD`; or "" for the drawings.
        field: the input on which the keyboard is put then; or "".
    """

    key: str
    words: str
    help: str
    done: Callable[[Known], bool]
    page: str = ""
    field: str = ""


def _all_measured(known: Known) -> bool:
    done, count = measured(known.setup)
    return done == count


def _stands(known: Known) -> bool:
    """Whether the stance is the rider's own choice."""
    here, start = known.setup.inputs, known.start.inputs
    own = any(here.value(name) != start.value(name) for name in _STANCE)
    return own or not _flat(known) or bool(known.setup.trials)


def _flat(known: Known) -> bool:
    """Whether nothing lies under either foot."""
    return not any(known.setup.inputs.value(name) for name in _MOUNTS)


def _answered(known: Known) -> bool:
    return not _flat(known) or bool(known.setup.trials) or "Begin with" in known.left


STEPS: Final = (
    NextStep(
        "who",
        msgid("Say who is riding"),
        msgid("These are the demo rider’s legs: give your height, or measure."),
        lambda known: somebody(known.setup),
        page=CARD,
    ),
    NextStep(
        "measure",
        msgid("Measure: {done} of {count} done"),
        msgid("Every answer rests on the measures of legs and boots."),
        _all_measured,
        page="Measuring",
    ),
    NextStep(
        "stance",
        msgid("Set your stance"),
        msgid("The binding angles and the stance length that you ride, or want to try."),
        _stands,
        field="front_angle_deg",
    ),
    NextStep(
        "answer",
        msgid("See what to begin with"),
        msgid("The lift and the cant with which each binding begins, and why."),
        _answered,
        page="Begin with",
    ),
    NextStep(
        "parts",
        msgid("Find parts that do it"),
        msgid("List the parts that you have; the page finds what they can make."),
        lambda known: _flat(known) or known.setup.parts != NO_PARTS,
        page="Parts",
    ),
    NextStep(
        "try",
        msgid("Try it, standing still"),
        msgid("Log the first trial: how each knee felt."),
        lambda known: bool(known.setup.trials),
        page="Trials",
    ),
    NextStep(
        "log",
        msgid("Log the next trial"),
        msgid("Each one says more of the cant that is comfortable."),
        lambda known: known.enough,
        page="Trials",
    ),
    NextStep(
        "save",
        msgid("Save the set-up"),
        msgid("All is found; keep it in a file."),
        lambda known: known.saved,
    ),
)
"""The way through the program, in its order."""


def measured(setup: Setup) -> tuple[int, int]:
    """How much of what there is to measure was seen to, and how much there is."""
    names = things_to_measure(setup)
    return sum(is_seen_to(setup, name) for name in names), len(names)


def finished(known: Known) -> frozenset[str]:
    """Keys of the steps that the set-up shows to be done."""
    return frozenset(step.key for step in STEPS if step.done(known))


def next_step(done: Collection[str]) -> NextStep | None:
    """The first step that is not finished; None after the last."""
    return next((step for step in STEPS if step.key not in done), None)


def words_of(step: NextStep, setup: Setup) -> str:
    """What to do, in words."""
    done, count = measured(setup) if step.key == "measure" else (0, 0)
    return tr(step.words, done=done, count=count)
