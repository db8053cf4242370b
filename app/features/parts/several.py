"""Parts for several set-ups: which serve all of them, and what to get, in words."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final, NamedTuple

from app.features.parts.asked import held_words, parts_terms, tried_cants
from app.features.parts.ranking import Column
from app.rider.inputs import InputError
from app.rider.parts import KINDS, PART_FIELDS, PartEntry, Parts
from app.rider.parts import model as parts_model
from app.rider.setup import Setup
from app.stance.answer import Answer, answer_of
from app.stance.findings import USUAL_LIMITS, Limits
from app.stance.through import straight
from app.words.language import msgid, tr
from app.words.lengths import IN_MM, Lengths
from app.words.reasons import reason_phrase
from app.words.sentences import as_sentence, listed, plain
from app.words.units import counted
from geometry.hardware.combinations import Combination
from geometry.hardware.kits import Asking, Kit, kits_for

MOST_SETUPS: Final = 12
"""Set-ups that are served together."""
MOST_LISTED: Final = 200
"""Set-ups of a folder that are listed to be ticked."""
BUY_NAME: Final = msgid("new wedge")
"""What a part is called that can be got."""
_FIELD: Final = {each.name: each for each in PART_FIELDS}
_GOT: Final = re.compile(
    r"(?P<slope>\d+(?:[.,]\d+)?)\s*(?:°|deg)?\s*(?:[:/x ]\s*)(?P<thick>\d+(?:[.,]\d+)?)\s*(?:mm)?"
)
COLUMNS: Final = (
    Column("", msgid("Place among the kits.")),
    Column(msgid("Yours", "as a heading"), msgid("Parts of the kit that are on your list.")),
    Column(
        msgid("To get", "as a heading"),
        msgid(
            "Parts of the kit that you would have to get. The kits with the fewest come first, "
            "then those of the fewest parts, then those that raise a foot least."
        ),
    ),
    Column(msgid("Parts", "as a heading"), msgid("How many parts there are in the kit.")),
    Column(
        msgid("Raised", "as a heading"), msgid("The most by which it raises a foot in any set-up.")
    ),
)
"""What the table says of each kit."""


class Named(NamedTuple):
    """A set-up and what it is called here."""

    name: str
    setup: Setup


@dataclass(frozen=True, eq=False, slots=True)
class Kits:
    """What serves several set-ups.

    Attributes:
        setups: which, each with the parts of the first.
        parts: the parts of that list, and after them what can be got.
        found: the kits, those of the fewest parts to get first.
        held_back: what of all that is needed one does not begin with, for each set-up; ""
            for nothing.
    """

    setups: tuple[Named, ...]
    parts: tuple[PartEntry, ...]
    found: tuple[Kit, ...]
    held_back: tuple[str, ...]


def kits_of(
    setups: Sequence[Named], to_get: Sequence[PartEntry] = (), limits: Limits = USUAL_LIMITS
) -> Kits:
    """The fewest parts that serve several set-ups, from the first one's list and what can be got.

    Args:
        setups: which.
        to_get: parts that can be got, as many of each as are needed.
        limits: up to where a knee counts as in its plane.

    Raises:
        ValueError: a set-up has no answer, or there are too many ways to build.
    """
    if len(setups) > MOST_SETUPS:
        raise ValueError(tr("at most {most} set-ups are served together", most=MOST_SETUPS))
    own = setups[0].setup.parts
    every = replace(own, parts=(*own.parts, *(_many(each, own) for each in to_get)))
    owned = (*(each.count for each in own.parts), *(0 for _ in to_get))
    parts = parts_model(every)
    answers = [_answer(each, limits) for each in setups]
    asking = [
        Asking(straight(each.setup.inputs), parts_terms(each.setup, limits), tried_cants(answer))
        for each, answer in zip(setups, answers, strict=True)
    ]
    found = kits_for(asking, parts, owned)
    shown = tuple(Named(each.name, replace(each.setup, parts=own)) for each in setups)
    return Kits(shown, every.parts, found, tuple(map(held_words, answers)))


def _many(entry: PartEntry, own: Parts) -> PartEntry:
    """A part as often as both feet can take it."""
    return replace(entry, count=2 * max(own.largest_stack, 1))


def _answer(named: Named, limits: Limits) -> Answer:
    answer = answer_of(named.setup, limits)
    for foot in answer.feet:
        if foot.why_not:
            reason = reason_phrase(foot.why_not)
            raise ValueError(tr("there is no answer for {name}: {reason}", name=named.name,
                                reason=reason))  # fmt: skip
    return answer


def to_get_in(typed: str, step_deg: float = 10.0) -> tuple[PartEntry, ...]:
    """The parts that a line like "2° 6 mm; 4° 8 mm" stands for, each once.

    Args:
        typed: slope (degrees) and thickness (mm) of each, with semicolons between them.
        step_deg: in which they can be turned.

    Raises:
        InputError: it cannot be read, or a value is outside its range.
    """
    pieces = [piece.strip() for piece in re.split(r"[;\n]", typed) if piece.strip()]
    return tuple(dict.fromkeys(_one_to_get(piece, step_deg) for piece in pieces))


def _one_to_get(piece: str, step_deg: float) -> PartEntry:
    read = _GOT.fullmatch(piece)
    if read is None:
        raise InputError(
            tr(
                "“{typed}” is not a slope and a thickness: type them as 4° 8 mm, with "
                "semicolons between several",
                typed=piece,
            )
        )
    slope, thick = (float(read[name].replace(",", ".")) for name in ("slope", "thick"))
    for name, value in (("slope_deg", slope), ("thickness_mm", thick)):
        field = _FIELD[name]
        if not field.low <= value <= field.high:
            raise InputError(
                tr(
                    "{name} {value} in “{typed}” must lie between {low} and {high}",
                    name=field.label,
                    value=plain(value),
                    typed=piece,
                    low=plain(field.low),
                    high=plain(field.high),
                )
            )
    return PartEntry(tr(BUY_NAME), KINDS[0], slope, thick, bearing_step_deg=step_deg)


def counted_words(counts: Sequence[int], parts: Sequence[PartEntry]) -> str:
    """Parts with their numbers: "2 × 6° round wedge, 1 × 3° block"; "none"."""
    said = [
        tr("{count} × {part}", count=count, part=part.title)
        for count, part in zip(counts, parts, strict=True)
        if count
    ]
    return ", ".join(said) or tr("none", "of parts")


def row_texts(place: int, kit: Kit, kits: Kits, lengths: Lengths = IN_MM) -> tuple[str, ...]:
    """What the table says of a kit."""
    own = [every - new for every, new in zip(kit.counts, kit.to_get, strict=True)]
    heights = [built.height for each in kit.combinations for built in (each.front, each.rear)]
    return (
        str(place),
        counted_words(own, kits.parts),
        counted_words(kit.to_get, kits.parts),
        str(sum(kit.counts)),
        lengths.text(max(heights)),
    )


def served_words(combination: Combination) -> str:
    """What of a set-up is right on a kit, or what is still wrong there."""
    angles = combination.rank[:3] if combination.rank else ()
    wrong = [tr(words) for words, angle in zip(_WRONG, angles, strict=False) if angle]
    return as_sentence(listed(wrong) if wrong else tr("boots in range, knees in plane"))


_WRONG: Final = (
    msgid("a boot is past its range"),
    msgid("a cant is outside of what keeps the knee in plane"),
    msgid("a knee comes out of plane"),
)


def none_words(kits: Kits) -> str:
    """That nothing serves all; "" where something does."""
    if kits.found:
        return ""
    return tr("No kit serves all of these set-ups: in one of them no posture settles.")


def not_listed_words(many: int) -> str:
    """That a folder holds more set-ups than are listed; "" where it does not."""
    if many <= MOST_LISTED:
        return ""
    return tr(
        "The folder holds {many} set-ups; the first {most} are listed. Add others with Open….",
        many=counted(many),
        most=MOST_LISTED,
    )
