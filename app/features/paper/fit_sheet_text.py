"""What stands on the fit sheet, as text: for a page that is read without the program."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from math import degrees, radians
from typing import Final, NamedTuple

from app.features.parts.bench import is_left, what_to_set
from app.features.parts.editing import shown_name
from app.frame import Frame
from app.rider.cuffs import cuff_words
from app.rider.inputs import FIELD, FIELDS, Inputs
from app.rider.parts import model as parts_model
from app.rider.setup import BOOTS, LEGS, Setup, somebody
from app.rider.spreads import spread_of
from app.rider.trials import NOT_SAID, Entry, felt_word, held_word, pressed_word
from app.stance.answer import Mount, answer_of
from app.stance.answer_words import (
    bench_words,
    both_words,
    left_words,
    next_words,
    range_words,
    why_words,
)
from app.stance.findings import CAUTION, USUAL_LIMITS, LegFinding
from app.stance.mending import mending_of
from app.stance.through import straight, terms_of
from app.words.bounds import in_one_line, shortened
from app.words.language import msgid, tr
from app.words.lengths import IN_MM, Lengths
from app.words.reasons import reason_phrase
from app.words.sentences import spoken
from geometry.hardware.combinations import Wanted, nearest_combinations

POSTURE: Final = tuple(field.name for field in FIELDS if field.group == "posture")
MOST_TRIALS: Final = 4
"""Trials that a page has room for; the latest count most."""
LONGEST_READ: Final = 20_000
"""Letters of the notes that are looked at for a page, which has room for a tenth of them."""
LONGEST_WORD: Final = 100
"""Letters of a word that every line of notes has room for."""
LONGEST_NOTE: Final = 60
"""Letters of a trial's note that a line has room for."""


class Measure(NamedTuple):
    """One leg dimension: its name, value, origin and standard error in words."""

    name: str
    value: str
    origin: str
    spread: str


class Pair(NamedTuple):
    """A name and its value."""

    name: str
    value: str


class PartsOfFoot(NamedTuple):
    """What stands under one foot, "front" or "rear", a sentence for each part."""

    foot: str
    steps: tuple[str, ...]


class PartsUnder(NamedTuple):
    """What stands under both feet, or why that is not known.

    Attributes:
        feet: front and rear; empty when nothing is known.
        instead: what is to be said then, in one or two sentences; "" without a parts list.
    """

    feet: tuple[PartsOfFoot, ...] = ()
    instead: str = ""


class BeginOfFoot(NamedTuple):
    """What one foot begins with, and why and how in sentences."""

    mount: str
    text: str


NO_PARTS_UNDER: Final = PartsUnder()
"""There is no parts list, so nothing is said."""


@dataclass(frozen=True, slots=True)
class FitSheetText:
    """All words of a fit sheet, in the order of the page.

    Attributes:
        title: name of the set-up.
        notes: whatever was written about it, without empty lines.
        lead_foot: the foot in front, in the user's language.
        measures: the rider's leg dimensions.
        mounts: what is set on both feet: a name and the value of each foot.
        stance: what is set of the stance as a whole.
        boots: of both boots.
        posture: in which the views show the rider.
        findings: a headline and a text for each leg.
        begin: what the front and the rear foot begin with.
        trials: the latest trials, newest first, a line each.
        earlier: how many trials there is no room for.
        parts: what to mount and how to turn it, or why that is not known.
        caution: what the sheet is not.
        day: as "2026-01-31".
    """

    title: str
    notes: str
    lead_foot: str
    measures: tuple[Measure, ...]
    mounts: tuple[tuple[str, str, str], ...]
    stance: tuple[Pair, ...]
    boots: tuple[Pair, ...]
    posture: tuple[Pair, ...]
    findings: tuple[Pair, ...]
    begin: tuple[BeginOfFoot, ...]
    trials: tuple[str, ...]
    earlier: int
    parts: PartsUnder
    caution: str
    day: str


def fit_sheet_text(frame: Frame, on: date, parts: PartsUnder = NO_PARTS_UNDER) -> FitSheetText:
    """The words of the fit sheet of a stance on a day."""
    setup = frame.setup
    inputs = setup.inputs
    latest = setup.trials[::-1][:MOST_TRIALS]
    return FitSheetText(
        title=setup.called,
        notes=lines_of(shortened(setup.notes, LONGEST_READ)),
        measures=tuple(measure(frame, name) for name in setup.names_told(LEGS)),
        mounts=tuple(_both(inputs, what) for what in ("angle", "lift", "cant")),
        lead_foot=tr(inputs.lead_foot),
        stance=_pairs(frame, _stance_names(inputs)),
        boots=_pairs(frame, setup.names_told(BOOTS)),
        posture=_pairs(frame, POSTURE),
        findings=tuple(finding(leg) for leg in frame.findings.legs.values()),
        begin=begin_with(frame),
        trials=tuple(trial_line(entry, frame.lengths) for entry in latest),
        earlier=len(setup.trials) - len(latest),
        parts=parts,
        caution=tr(CAUTION),
        day=on.isoformat(),
    )


def begin_with(frame: Frame) -> tuple[BeginOfFoot, ...]:
    """What both feet begin with, how sure that is, why, and what to do at the bench."""
    answer, inputs = answer_of(frame.setup, frame.limits), frame.setup.inputs
    mends = mending_of(frame.setup, answer, frame.limits)
    told = []
    for foot in answer.feet:
        said = [cuff_words(frame.setup), why_words(foot, answer, inputs, frame.lengths)]
        if foot.exists:
            sure = tr(
                "Cant {cant}, lift {lift}.",
                cant=range_words("cant", foot),
                lift=range_words("lift", foot),
            )
            mend = mends.get(foot.name)
            left = left_words(foot, mend, frame.lengths)
            after = next_words(foot, mend, frame.lengths)
            said = [sure, *said, left, after, bench_words(foot, inputs)]
        told.append(BeginOfFoot(both_words(foot.begin), " ".join(filter(None, said))))
    return tuple(told)


def lines_of(notes: str, longest: int = LONGEST_WORD) -> str:
    """Notes with no more than one space or one line end in a row, and no endless word.

    Args:
        notes: as they were typed.
        longest: letters of a word that a line has room for.
    """
    lines = (
        " ".join(_broken(word, longest) for word in line.split()) for line in notes.splitlines()
    )
    return "\n".join(line for line in lines if line)


def _broken(word: str, longest: int) -> str:
    """A word in pieces that a line has room for."""
    return " ".join(word[at : at + longest] for at in range(0, len(word), longest))


def measure(frame: Frame, name: str) -> Measure:
    """One leg dimension with where it comes from and how surely it is known."""
    setup, lengths, field = frame.setup, frame.lengths, FIELD[name]
    said = setup.origin(name) != "default" or somebody(setup)
    spread = f"± {lengths.shown(round(spread_of(setup, name), 1), field.unit)}" if said else "–"
    value = spoken(field, setup.inputs.value(name), lengths)
    return Measure(field.label, value, origin(setup, name), spread)


def origin(setup: Setup, name: str) -> str:
    """Where a leg dimension comes from: "measured 3 times", "estimated", "default"."""
    said = setup.origin(name)
    times = len(dict(setup.repeats).get(setup.inputs.in_front(name), ()))
    if said == "measured" and times > 1:
        return tr("measured {times} times", times=times)
    return tr(said)


def finding(leg: LegFinding) -> Pair:
    """A leg's state as a headline, and why, with every flag."""
    text = " ".join((leg.sentence, *leg.flags))
    return Pair(tr(_HEADLINES[leg.name], finding=leg.spoken), text)


_HEADLINES: Final = {
    "front": msgid("Front leg: {finding}"),
    "rear": msgid("Rear leg: {finding}"),
}


def trial_line(entry: Entry, lengths: Lengths = IN_MM) -> str:
    """One trial in a line: the day, what was ridden, and what was felt."""
    front, rear = entry.angles_deg
    mounts = " / ".join(
        both_words(Mount(*each)) for each in zip(entry.lifts_deg, entry.cants_deg, strict=True)
    )
    length = lengths.shown(entry.stance_length_mm, "mm")
    angles = " / ".join(spoken(FIELD["front_angle_deg"], angle) for angle in (front, rear))
    note = in_one_line(entry.notes)
    note = note if len(note) <= LONGEST_NOTE else note[: LONGEST_NOTE - 1].rstrip() + "…"
    parts = (entry.date, angles, length, mounts, *_felt_and_pressed(entry), note)
    return " · ".join(part for part in parts if part)


def _felt_and_pressed(entry: Entry) -> list[str]:
    """What both legs felt, where both boots pressed, and both feet if not evenly."""
    front, rear = (felt_word(each) for each in entry.felt)
    said = [tr("felt front {front}, rear {rear}", front=front, rear=rear)]
    if NOT_SAID not in entry.boots:
        front, rear = (held_word(each) for each in entry.boots)
        said.append(tr("boot pressed front {front}, rear {rear}", front=front, rear=rear))
    if set(entry.pressure) != {"even"}:
        front, rear = (pressed_word(each) for each in entry.pressure)
        said.append(tr("foot pressed front {front}, rear {rear}", front=front, rear=rear))
    return said


def _both(inputs: Inputs, what: str) -> tuple[str, str, str]:
    """A binding angle, lift or cant of both feet, and what it is."""
    names = (f"{foot}_{what}_deg" for foot in ("front", "rear"))
    front, rear = (spoken(FIELD[name], float(getattr(inputs, name))) for name in names)
    return tr(_ON_BOTH_FEET[what]), front, rear


_ON_BOTH_FEET: Final = {
    "angle": msgid("Binding angle"), "lift": msgid("Lift"), "cant": msgid("Cant")
}  # fmt: skip


def _stance_names(inputs: Inputs) -> tuple[str, ...]:
    """What is said of the stance; nothing of an across spacing that there is not."""
    across = ("across_spacing_mm",) if inputs.across_spacing_mm else ()
    return ("stance_length_mm", *across)


def _pairs(frame: Frame, names: Sequence[str]) -> tuple[Pair, ...]:
    inputs, lengths = frame.setup.inputs, frame.lengths
    return tuple(
        Pair(FIELD[name].label, spoken(FIELD[name], inputs.value(name), lengths)) for name in names
    )


KNOWN_WITHIN_DEG: Final = 0.05
"""Parts that make the mounts in hand to within this are taken to be the ones under them."""


def parts_under(setup: Setup) -> PartsUnder:
    """How the set-up's own parts make the lift and cant in hand, foot by foot.

    Nothing where there are no parts.  Where none of their combinations makes these
    mounts they came about in another way: that is said instead.
    """
    if not any(part.count for part in setup.parts.parts):
        return NO_PARTS_UNDER
    try:
        parts = parts_model(setup.parts)
        asked, terms = straight(setup.inputs), terms_of(setup.inputs, USUAL_LIMITS)
        front, rear = (
            Wanted(*map(radians, lift_and_cant(setup.inputs, foot))) for foot in ("front", "rear")
        )
        ranked = nearest_combinations(asked, terms, parts, (front, rear))
    except ValueError as error:
        reason = reason_phrase(error)
        return PartsUnder(
            instead=tr(
                "Which parts make these lifts and cants is not known: {reason}.", reason=reason
            )
        )
    nearest = min(ranked, key=lambda each: each.error)
    if degrees(nearest.error) > KNOWN_WITHIN_DEG:
        return PartsUnder(instead=_made_otherwise(setup))
    turning = parts.turns_with_binding
    return PartsUnder(
        tuple(
            PartsOfFoot(
                name,
                what_to_set(built, turns_with_binding=turning, left=is_left(setup.inputs, name)),
            )
            for name, built in (("front", nearest.front), ("rear", nearest.rear))
        )
    )


def _made_otherwise(setup: Setup) -> str:
    """That the parts do not make the mounts in hand, and where those stand that come near."""
    front, rear = (both_words(lift_and_cant(setup.inputs, foot)) for foot in ("front", "rear"))
    return tr(
        "On the bindings are: front {front}; rear {rear}. No combination of the parts list "
        "“{name}” makes them; those that come nearest stand on the page Parts, under Combinations.",
        front=front,
        rear=rear,
        name=shown_name(setup.parts),
    )


def lift_and_cant(inputs: Inputs, foot: str) -> Mount:
    """The lift and the cant of a foot."""
    return Mount(*(float(getattr(inputs, f"{foot}_{what}_deg")) for what in ("lift", "cant")))
