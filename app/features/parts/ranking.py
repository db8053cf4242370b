"""The columns in which the order of combinations and of stances can be read."""

from __future__ import annotations

from math import degrees
from typing import Final, NamedTuple

from app.words.language import msgid, tr
from app.words.lengths import IN_MM, Lengths
from app.words.sentences import plain
from geometry.hardware.order import Rank

NONE: Final = "–"


class Column(NamedTuple):
    """One column: its heading and what it means, in English."""

    heading: str
    help: str


RANKED_BY: Final = (
    Column(
        msgid("Boots past", "as a heading"),
        msgid(
            "How far the two boots are past their range at the middle of the riding bend, "
            "added up. The table stands in the order of this column, and of those to the right "
            "of it where it is the same; angles count in half degrees."
        ),
    ),
    Column(
        msgid("Cants off", "as a heading"),
        msgid(
            "How far the two cants lie outside those that keep the knees in plane at every "
            "depth of the riding bend, added up."
        ),
    ),
    Column(
        msgid("Knees out", "as a heading"),
        msgid(
            "How far the two knees come out of plane at worst over the riding bend, hips "
            "straight, added up. A knee within the limit counts as in plane: 0."
        ),
    ),
    Column(
        msgid("Unlike", "as a heading"),
        msgid("Whether both feet ask for the same and stand on unlike parts nevertheless."),
    ),
    Column(
        msgid("Raised", "as a heading"),
        msgid("By how much the parts raise the middle of the front and of the rear foot."),
    ),
    Column(
        msgid("Parts", "as a heading"),
        msgid("How many parts stand under both feet."),
    ),
    Column(
        msgid("Moved", "as a heading"),
        msgid("How far the edges of the two soles move from where they are now, added up."),
    ),
    Column(
        msgid("Differs", "as a heading"),
        msgid("How far the two soles are tilted from the lift and cant to begin with, added up."),
    ),
)
"""By what combinations and stances are put in order, the most telling first."""


def rank_texts(
    rank: Rank, raised: tuple[float, float], lengths: Lengths = IN_MM
) -> tuple[str, ...]:
    """What the columns say of one place.

    Args:
        rank: the place.
        raised: by how much the parts raise the front and the rear foot (mm).
        lengths: writes lengths.
    """
    return (
        f"{plain(degrees(rank.boot_past))}°",
        f"{plain(degrees(rank.cant_off))}°",
        f"{plain(degrees(rank.out_of_plane))}°",
        tr("yes", "unlike") if rank.unlike else NONE,
        lengths.pair(raised[0], " · ", raised[1]),
        str(rank.parts),
        lengths.text(float(rank.moved)),
        f"{plain(degrees(rank.from_answer))}°",
    )
