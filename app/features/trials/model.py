"""The log of trials: kept in order, told in words, and what follows from it.

What follows is told per leg: the cant and the lift to put on, why, and within what the
comfortable ones are likely to lie (:mod:`app.stance.own`).
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace
from math import isnan
from typing import Final

from app.rider.setup import Setup
from app.rider.trials import NOT_SAID, Entry, felt_word, pressed_word
from app.stance.answer_words import between_words, mount_words, shown_range
from app.stance.needs import Mounts, mounts_now
from app.stance.own import LegOutlook, Own
from app.words.field import IN_OUT, TOE_HEEL
from app.words.language import msgid, ntr, tr
from app.words.lengths import IN_MM, Lengths
from app.words.reasons import reason_phrase
from app.words.sentences import plain, tilt_words
from app.words.units import DEGREES, amount

LEGS: Final = ("front", "rear")
COLUMNS: Final = (
    msgid("Date"),
    msgid("Stance"),
    msgid("Front foot"),
    msgid("Front felt"),
    msgid("Rear foot"),
    msgid("Rear felt"),
    msgid("Notes"),
)
"""Headings of the log, in the order of :func:`row_texts`."""


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
        (under_foot(entry.lifts_deg[i], entry.cants_deg[i]), _felt_words(entry, i))
        for i in range(2)
    )
    return entry.date, stance, *front, *rear, " ".join(entry.notes.split())


_LED: Final = {
    "left": msgid("{stance}, left foot in front"),
    "right": msgid("{stance}, right foot in front"),
}


def under_foot(lift_deg: float, cant_deg: float) -> str:
    """Cant and lift of one foot, as short as a row of the log asks for: "4.0° in, 3.0° toe"."""
    angles = ((IN_OUT, cant_deg), (TOE_HEEL, lift_deg))
    return ", ".join(tilt_words(signs, angle) for signs, angle in angles if angle) or tr("flat")


_BOOT_SAID: Final = {
    "calf": msgid("boot at the calf"),
    "even": msgid("boot even"),
    "shin": msgid("boot at the shin"),
}


def _felt_words(entry: Entry, leg: int) -> str:
    """What a leg felt, where its boot pressed, and where its foot did, if to one side."""
    said = [felt_word(entry.felt[leg])]
    if entry.boots[leg] != NOT_SAID:
        said.append(tr(_BOOT_SAID[entry.boots[leg]]))
    if entry.pressure[leg] != "even":
        said.append(tr("foot {where}", where=pressed_word(entry.pressure[leg])))
    return ", ".join(said)


# What follows from it


def next_words(own: Own) -> str:
    """The cant or the lift to put on now and why, in a sentence."""
    if own.no_whole:
        return tr("Nothing to try: {reason}.", reason=reason_phrase(own.no_whole))
    if isnan(own.put_deg):
        return tr("Nothing to try: {reason}.", reason=reason_phrase(own.why))
    said = _KEEP if own.settled or own.waits else _TRY
    why = reason_phrase(own.why).replace(": ", "; ")
    return tr(said, angle=mount_words(own.kind, own.put_deg), why=why)


_TRY: Final = msgid("Try {angle}: {why}.")
_KEEP: Final = msgid("Keep to {angle}: {why}.")


def likely_words(own: Own) -> str:
    """Within what the comfortable cant or lift lies, and from how many trials that is known."""
    if own.no_whole or not own.trials:
        return ""
    low, high = shown_range(own.put_deg, _ends(own))
    said = tr("Likely {range}.", range=between_words(own.kind, low, high))
    counted = ntr("{count} trial so far.", "{count} trials so far.", own.trials)
    return " ".join(filter(None, (said, _share_words(own), counted)))


def _ends(own: Own) -> tuple[float, float]:
    likely, margin = own.likely
    return likely - margin, likely + margin


def _share_words(own: Own) -> str:
    """What part of all that the leg asks for is comfortable, once it is known."""
    if not own.settled or own.share.says_little:
        return ""
    return tr(
        _SHARE[own.kind],
        part=round(100.0 * own.share.share),
        whole=mount_words(own.kind, own.whole.shown_deg),
    )


_SHARE: Final = {
    "cant": msgid("That is {part} % of the whole cant, {whole}."),
    "lift": msgid("That is {part} % of the whole lift, {whole}."),
}


def mounts_to_put(setup: Setup, legs: Collection[LegOutlook]) -> Mounts:
    """The lifts and cants to put on now.

    Without any trial it is what the answer begins with.  After that a lift of which no trial
    speaks stays as it is, so that one thing is tried at a time.
    """
    now = mounts_now(setup.inputs)._asdict()
    for leg in legs:
        if not isnan(leg.cant.put_deg):
            now[f"{leg.name}_cant_deg"] = leg.cant.put_deg
        if tells_lift(setup, leg) and not isnan(leg.lift.put_deg):
            now[f"{leg.name}_lift_deg"] = leg.lift.put_deg
    return Mounts(**now)


def tells_lift(setup: Setup, leg: LegOutlook) -> bool:
    """Whether a leg's lift is told of: its trials speak of it, or nothing was tried at all."""
    return leg.lift.trials > 0 or not setup.trials


def all_found(legs: Collection[LegOutlook]) -> bool:
    """Whether trials leave nothing to try on either leg."""
    asked = [own for leg in legs for own in leg.both if own.kind == "cant" or own.trials]
    found = all(own.settled and not own.waits for own in asked)
    return found and any(own.trials for own in asked)


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


OF_PARTS: Final = msgid("the parts", "steps of")
"""The choice of the parts' own step, beside those that are chosen by hand."""
