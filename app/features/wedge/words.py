"""What is said of a wedge, on its drawing and in the files made of it."""

from __future__ import annotations

from math import degrees
from typing import Final, NamedTuple

from app.features.wedge.units import PartLengths
from app.rider.inputs import FIELD
from app.words.language import msgid, ntr, tr
from app.words.sentences import plain, shown_as_zero, spoken
from app.words.units import fixed
from geometry.hardware.wedge import Wedge

CAUTION: Final = msgid(
    "Caution: this part carries the rider's weight and every landing. Whether it bears them "
    "depends on material, filling and layers, which this drawing does not know: make it solid "
    "and tough, load it hard where a break hurts nobody, and look for cracks before each ride. "
    "Screws must be longer by the height of the wedge at their hole, so that they grip their "
    "inserts as far as the maker asks, and must not reach the bottom of them; keep to the "
    "torque that the maker gives. Stay within the largest lift, cant and height that the makers "
    "of board, bindings and boots allow: beyond it what they promise ends, and so does what "
    "their bindings were tested for."
)

_TITLES: Final = {
    "front": msgid("Wedge for the front foot ({side})"),
    "rear": msgid("Wedge for the rear foot ({side})"),
}
_SIDES: Final = {"left": msgid("left"), "right": msgid("right")}
_HOLES: Final = {
    (False, False): msgid("{holes} ⌀{size} square to the base."),
    (False, True): msgid("{holes} ⌀{size} square to the base; screws longer by {longer}."),
    (True, False): msgid(
        "{holes} ⌀{size} square to the base, recesses ⌀{head} for heads {high} high."
    ),
    (True, True): msgid(
        "{holes} ⌀{size} square to the base, recesses ⌀{head} for heads {high} high; "
        "screws longer by {longer}."
    ),
}
"""By whether heads sink, and whether it is known by how much screws must be longer."""


class Part(NamedTuple):
    """A wedge and the foot it is for.

    Attributes:
        name: "front" or "rear".
        foot: "left" or "right".
        wedge: the solid.
    """

    name: str
    foot: str
    wedge: Wedge

    @property
    def outer_side(self) -> float:
        """+1 where the little toe lies to the left of the foot's axis, -1 to its right."""
        return 1.0 if self.foot == "left" else -1.0

    @property
    def title(self) -> str:
        """What it is called."""
        return tr(_TITLES[self.name], side=tr(_SIDES[self.foot]))


MILLIMETRES: Final = PartLengths()
"""As files of a wedge have their lengths, whichever unit the rider chose."""


def facts(part: Part, lengths: PartLengths = MILLIMETRES) -> tuple[str, ...]:
    """Everything about a wedge but its outline, a line for each thing.

    Args:
        part: the wedge.
        lengths: writes its sizes; the first line names their unit.
    """
    wedge, figure = part.wedge, lengths.figure
    return (
        f"{sizes_in(lengths)} {tr('Figures at the corners: height of the top there.')}",
        *_rounding(wedge, lengths),
        _slopes(wedge),
        tr(
            "Heights: least {least}, over the binding's centre {centre}, largest {largest}.",
            least=figure(wedge.thinnest),
            centre=figure(wedge.level),
            largest=figure(wedge.thickest),
        ),
        *_holes(wedge, lengths),
        tr("Volume {volume}.", volume=lengths.volume(wedge.volume)),
    )


def sizes_in(lengths: PartLengths) -> str:
    """The sentence that names the unit of bare figures."""
    if lengths == MILLIMETRES:
        return tr("Sizes in mm.")
    return tr("Sizes in {units}; the STL and DXF files are in mm.", units=lengths.unit.words)


def _rounding(wedge: Wedge, lengths: PartLengths) -> list[str]:
    radius = wedge.footprint.corner_radius
    return [tr("Corners rounded R{radius}.", radius=lengths.size(radius))] if radius > 0.0 else []


def _slopes(wedge: Wedge) -> str:
    lift, cant = FIELD["front_lift_deg"], FIELD["front_cant_deg"]
    lift_deg, cant_deg = degrees(wedge.lift), degrees(wedge.cant)
    if shown_as_zero(lift, lift_deg) and shown_as_zero(cant, cant_deg):
        return tr("Flat on top.")
    return tr(
        "Along the foot {lift}, across it {cant}; {steepest}.",
        lift=spoken(lift, lift_deg),
        cant=spoken(cant, cant_deg),
        steepest=steepest(wedge),
    )


def steepest(wedge: Wedge) -> str:
    """The steepest slope and where it rises to, as "6.7° at its steepest, rising ..."."""
    slope, turn = fixed(degrees(wedge.slope), 1), abs(degrees(wedge.bearing))
    if round(turn) == 0:
        return tr("{slope}° at its steepest, rising to the toe", slope=slope)
    if round(turn) == 180:
        return tr("{slope}° at its steepest, rising to the heel", slope=slope)
    sentence = (
        msgid("{slope}° at its steepest, rising {turn}° from the toe to the little-toe side")
        if wedge.bearing >= 0.0
        else msgid("{slope}° at its steepest, rising {turn}° from the toe to the big-toe side")
    )
    return tr(sentence, slope=slope, turn=plain(turn))


def longer_screws(wedge: Wedge, lengths: PartLengths = MILLIMETRES) -> str:
    """By how much screws must be longer, as "9.4 to 14.5"; "" where a head has no ground."""
    heights = [wedge.hole_height(centre) for centre in wedge.screws.centres]
    if not heights or min(heights) <= 0.0:
        return ""
    least, most = lengths.figure(min(heights)), lengths.figure(max(heights))
    return least if least == most else tr("{low} to {high}", low=least, high=most)


def _holes(wedge: Wedge, lengths: PartLengths) -> list[str]:
    """The holes, their heads, how much longer screws must be, and where they are."""
    screws, written = wedge.screws, lengths.size
    if not screws.centres:
        return [tr("No holes.")]
    longer = longer_screws(wedge, lengths)
    sizes = tr(
        _HOLES[screws.sunk, bool(longer)],
        holes=ntr("{count} hole", "{count} holes", len(screws.centres)),
        size=written(screws.diameter),
        head=written(screws.head_diameter),
        high=written(screws.head_height),
        longer=longer,
    )
    place = tr("{number}\N{NO-BREAK SPACE}({ahead},\N{NO-BREAK SPACE}{outer})")
    places = ", ".join(
        place.format(number=i + 1, ahead=written(ahead), outer=written(outer))
        for i, (ahead, outer) in enumerate(screws.centres)
    )
    where = tr(
        "Holes from the binding's centre (ahead, to the little-toe side): {places}.", places=places
    )
    return [sizes, where]
