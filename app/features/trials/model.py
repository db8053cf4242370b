"""The log of trials: kept in order, told in words, and what follows from it.

What follows is told per leg: the cant to try next, the share of full cant that
the trials have settled on, and the cant at which the present stance should be
comfortable.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, replace
from math import degrees, isnan, nan, radians
from typing import Final, NamedTuple

from app.rider.inputs import FIELD, model
from app.rider.parts import Parts
from app.rider.parts import model as parts_model
from app.rider.setup import Setup, edited
from app.rider.trials import Entry, felt_word, pressed_word, trial_of
from app.stance.answer import answer_of
from app.stance.findings import USUAL_LIMITS, Limits
from app.stance.needs import STEP_DEG, FootNeeds, Need, needs_of
from app.words.field import IN_OUT, TOE_HEEL
from app.words.language import msgid, tr
from app.words.lengths import IN_MM, Lengths
from app.words.reasons import reason_phrase
from app.words.sentences import as_sentence, plain, tilt_words
from app.words.units import DEGREES, amount, fixed
from geometry.fitting.next_cant import next_cant
from geometry.fitting.shares import SettledShare, cant_from_share
from geometry.fitting.trials import Tried, bracket, tried_by_leg
from geometry.hardware.cant_step import finest_cant_step

LEGS: Final = ("front", "rear")
USUAL_STEP_DEG: Final = 1.0
COLUMNS: Final = (
    msgid("Date"),
    msgid("Stance"),
    msgid("Front mount"),
    msgid("Front felt"),
    msgid("Rear mount"),
    msgid("Rear felt"),
    msgid("Notes"),
)
"""Headings of the log, in the order of :func:`cells`."""

NO_BREAK: Final = "\u00a0"
_SAY_LITTLE: Final = {
    1: msgid("So far {share} {margin} of full cant: one trial says little."),
    2: msgid("So far {share} {margin} of full cant: two trials say little."),
}


# The log


def with_trial(setup: Setup, entry: Entry) -> Setup:
    """The set-up with one more trial, after all that are not younger."""
    return replace(setup, trials=_in_order((*setup.trials, entry)))


def with_changed_trial(setup: Setup, which: int, entry: Entry) -> Setup:
    """The set-up with a trial replaced by what was said of it since."""
    trials = (*setup.trials[:which], entry, *setup.trials[which + 1 :])
    return replace(setup, trials=_in_order(trials))


def without_trial(setup: Setup, which: int) -> Setup:
    """The set-up without one of its trials."""
    return replace(setup, trials=setup.trials[:which] + setup.trials[which + 1 :])


def _in_order(trials: tuple[Entry, ...]) -> tuple[Entry, ...]:
    """Oldest first; trials of one day stay in the order in which they were made."""
    return tuple(sorted(trials, key=lambda trial: trial.date))


def row_texts(entry: Entry, lead_foot: str, lengths: Lengths = IN_MM) -> tuple[str, ...]:
    """A trial as the words of one row of the log, for a rider who leads with a foot now."""
    angles = "/".join(f"{plain(angle)}°" for angle in entry.angles_deg)
    stance = f"{angles}, {lengths.text(entry.stance_length_mm)}"
    if entry.across_spacing_mm:
        across = lengths.number(entry.across_spacing_mm)
        stance = tr("{stance}, {across} across", stance=stance, across=across)
    if entry.lead_foot != lead_foot:
        stance = tr(_LED[entry.lead_foot], stance=stance)
    front, rear = (
        (mount_words(entry.lifts_deg[i], entry.cants_deg[i]), _felt_words(entry, i))
        for i in range(2)
    )
    return entry.date, stance, *front, *rear, " ".join(entry.notes.split())


_LED: Final = {
    "left": msgid("{stance}, left foot in front"),
    "right": msgid("{stance}, right foot in front"),
}


def mount_words(lift_deg: float, cant_deg: float) -> str:
    """Cant and lift of one mount, as short as a row of the log asks for: "4.0° in, 3.0° toe"."""
    angles = ((IN_OUT, cant_deg), (TOE_HEEL, lift_deg))
    return ", ".join(tilt_words(signs, angle) for signs, angle in angles if angle) or tr("flat")


def _felt_words(entry: Entry, leg: int) -> str:
    """What a leg felt and, where it pressed to one side, where."""
    felt, pressed = felt_word(entry.felt[leg]), entry.pressure[leg]
    return felt if pressed == "even" else f"{felt}, {pressed_word(pressed)}"


# What follows from it


@dataclass(frozen=True, slots=True)
class LegOutlook:
    """What the trials of one leg say of the present stance.

    Attributes:
        name: "front" or "rear".
        tried: how many of its trials speak.
        full_cant: of the present stance.
        no_cant: key of the reason why there is no full cant; empty where there is one.
        next_deg: the cant to try next; nan where there is none without asking.
        asks: whether going on would leave the range from flat to full cant, or
            what was tried beyond it.
        settled: whether the trials have found the cant.
        why: key of the reason for the next cant.
        bracket: shares of full cant between which the comfortable one lies, as far
            as the trials say.
        share: the share of full cant that the trials have settled on.
        comfortable: the comfortable cant of the present stance by that share.
        comfortable_deg: the same as it may be put on the mount now: to the half
            degree, no further out than may be tried; nan without trials.
    """

    name: str
    tried: int
    full_cant: Need
    no_cant: str
    next_deg: float
    asks: bool
    settled: bool
    why: str
    bracket: tuple[float, float]
    share: SettledShare
    comfortable: Need
    comfortable_deg: float


def outlook_of(
    setup: Setup,
    step_deg: float = USUAL_STEP_DEG,
    agreed: Collection[str] = (),
    limits: Limits = USUAL_LIMITS,
) -> tuple[LegOutlook, LegOutlook]:
    """What the trials say of the present stance, front and rear leg.

    Args:
        setup: the set-up.
        step_deg: step in which the parts at hand set a cant.
        agreed: legs whose cant may go one step beyond full cant, flat or what was tried.
        limits: up to where a knee counts as in its plane.

    Raises:
        ValueError: the leg dimensions contradict each other.
    """
    body, boots, _, crouch = model(setup.inputs)
    needs, starts = needs_of(setup), _starts(setup, limits)
    trials = [trial_of(each, setup.inputs.lead_foot) for each in setup.trials]
    front, rear = tried_by_leg(trials, body, boots, crouch)

    def outlook(foot: FootNeeds, tried: list[Tried]) -> LegOutlook:
        start = starts[foot.name]
        return _outlook(foot, tried, step_deg, start=start, beyond=foot.name in agreed)

    return outlook(needs.front, front), outlook(needs.rear, rear)


def _starts(setup: Setup, limits: Limits) -> dict[str, float]:
    """The cants (degrees) from which trials start: what the answer begins with, else flat."""
    cants = {foot.name: foot.begin.cant_deg for foot in answer_of(setup, limits).feet}
    return {name: 0.0 if isnan(cant) else cant for name, cant in cants.items()}


def _outlook(
    foot: FootNeeds, tried: list[Tried], step_deg: float, *, start: float, beyond: bool
) -> LegOutlook:
    full = radians(foot.full_cant.deg)
    found = next_cant(tried, full, radians(step_deg), start=radians(start), beyond=beyond)
    cant, error = cant_from_share(foot.share, full, radians(foot.full_cant.margin_deg))
    return LegOutlook(
        name=foot.name,
        tried=foot.share.trials,
        full_cant=foot.full_cant,
        no_cant=foot.no_cant,
        next_deg=_settable(found.cant),
        asks=found.asks,
        settled=found.settled,
        why=found.why,
        bracket=bracket(tried),
        share=foot.share,
        comfortable=Need(degrees(cant), degrees(error)),
        comfortable_deg=_settable(found.comfortable),
    )


def _settable(cant: float) -> float:
    """A cant (rad) to the nearest half degree; nan where no mount can be set to it."""
    if isnan(cant):
        return nan
    cant_deg = round(Need(degrees(cant), 0.0).shown_deg, 6)
    return cant_deg if abs(cant_deg) <= FIELD["front_cant_deg"].high else nan


def next_words(leg: LegOutlook) -> str:
    """The cant to try next and why, in a sentence."""
    if leg.no_cant:
        return tr("Nothing to try: {reason}.", reason=reason_phrase(leg.no_cant))
    why = reason_phrase(leg.why)
    if isnan(leg.next_deg) and leg.asks:
        return as_sentence(why)
    if isnan(leg.next_deg):
        return tr("Nothing to try: no mount can be set as steeply as the next step.")
    said = msgid("Keep to {cant}: {why}.") if leg.settled else msgid("Try {cant}: {why}.")
    return tr(said, cant=_cant_words(leg.next_deg), why=why.replace(": ", "; "))


def share_words(leg: LegOutlook) -> str:
    """The settled share with its uncertainty, and how far to trust it."""
    trials = leg.share.trials
    if not trials:
        return tr("No trial tells a share of full cant yet.")
    return tr(
        _SAY_LITTLE.get(trials, _SETTLED if leg.settled else _SO_FAR),
        share=fixed(leg.share.share, 2),
        margin=f"±{NO_BREAK}{fixed(leg.share.error, 2)}",
        count=trials,
    )


_SETTLED: Final = msgid("Settled at {share} {margin} of full cant, from {count} trials.")
_SO_FAR: Final = msgid("So far {share} {margin} of full cant, from {count} trials.")


def comfortable_words(leg: LegOutlook) -> str:
    """The comfortable cant of the present stance with its uncertainty; empty without trials."""
    if not leg.comfortable.exists:
        return ""
    # Where going on is to be asked for, it is told where the trials point.
    held = leg.comfortable.shown_deg if leg.asks else leg.comfortable_deg
    return tr(
        "Comfortable here: {cant} {margin}, full cant {full}.",
        cant=_cant_words(leg.comfortable.shown_deg if isnan(held) else held),
        margin=f"±{NO_BREAK}{amount(leg.comfortable.shown_margin_deg, DEGREES)}",
        full=_cant_words(leg.full_cant.shown_deg),
    )


def _cant_words(cant_deg: float) -> str:
    """A cant as a sentence on cants has it: "4.0° inward"."""
    if not round(cant_deg, 2):
        return tr("flat")
    angle = amount(abs(cant_deg), DEGREES)
    return (
        tr("{angle} inward", angle=angle) if cant_deg > 0.0 else tr("{angle} outward", angle=angle)
    )


def with_next_cants(setup: Setup, legs: Collection[LegOutlook]) -> Setup:
    """The set-up with the cants to try next on the mounts, where there are any."""
    return _with_cants(setup, {leg.name: leg.next_deg for leg in legs})


def with_comfortable_cants(setup: Setup, legs: Collection[LegOutlook]) -> Setup:
    """The set-up with the comfortable cants on the mounts, where trials tell them."""
    return _with_cants(setup, {leg.name: leg.comfortable_deg for leg in legs})


def _with_cants(setup: Setup, cants_deg: dict[str, float]) -> Setup:
    known = {f"{leg}_cant_deg": cant for leg, cant in cants_deg.items() if not isnan(cant)}
    return edited(setup, **known)


ASKED: Final = "asked"
PARTS: Final = "parts"
USUAL: Final = "usual"


OF_PARTS: Final = msgid("the parts", "steps of")
"""The choice of the parts' own step, beside those that are chosen by hand."""


class Step(NamedTuple):
    """The step in which a cant is tried.

    Attributes:
        deg: the step.
        source: where it comes from: :data:`ASKED`, :data:`PARTS` or :data:`USUAL`.
    """

    deg: float
    source: str


def parts_step_deg(parts: Parts) -> float | None:
    """The finest step of cant that a parts list makes; None where it makes no cant.

    To the nearest half degree, as cants are tried: else what is tried next could be
    what has just been tried.
    """
    try:
        step = finest_cant_step(parts_model(parts))
    except ValueError:
        # The page of parts says what is wrong with the list.
        return None
    return None if isnan(step) else max(round(degrees(step) / STEP_DEG), 1) * STEP_DEG


def trial_step(parts: Parts, asked_deg: float | None = None) -> Step:
    """The step asked for; else that of the parts; else the usual one."""
    if asked_deg is not None:
        return Step(asked_deg, ASKED)
    made = parts_step_deg(parts)
    return Step(USUAL_STEP_DEG, USUAL) if made is None else Step(made, PARTS)


def source_words(parts_deg: float | None, chosen_deg: float | None) -> str:
    """Where the step comes from; empty where there are no parts to speak of.

    Args:
        parts_deg: what the parts make, None for nothing.
        chosen_deg: what was chosen by hand; None for the parts' own.
    """
    if parts_deg is None:
        return ""
    made = amount(parts_deg, DEGREES)
    if chosen_deg is None:
        return tr("In steps of {step}, as your parts make them.", step=made)
    return tr(
        "In steps of {step}, chosen by hand; your parts make {made}.",
        step=amount(chosen_deg, DEGREES),
        made=made,
    )
