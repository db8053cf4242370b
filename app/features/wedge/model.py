"""The wedge that a set-up asks for, and what there is to say of it."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import replace
from math import radians
from typing import Final, NamedTuple

from app.features.wedge.scene import LEAST_RISE
from app.features.wedge.units import PartLengths
from app.features.wedge.words import MILLIMETRES, Part, longer_screws, steepest
from app.rider.setup import Setup
from app.rider.wedge import WedgeInputs
from app.stance.answer import answer_of
from app.words.language import tr
from app.words.reasons import reason_phrase
from app.words.sentences import as_sentence
from geometry.hardware.footprint import rectangle
from geometry.hardware.plane import Spot
from geometry.hardware.screws import Screws, grid, insert_turn
from geometry.hardware.wedge import Wedge
from geometry.hardware.wedge_problems import wedge_problems
from geometry.reasons import Amount, impossible

SIDES: Final = {"front": 1.0, "rear": -1.0}
"""+1 for the front foot, -1 for the rear one."""
LEAST_SPACING: Final = 1.0
"""Least distance of two holes in a grid that :func:`geometry.hardware.screws.grid` takes (mm)."""


class Slopes(NamedTuple):
    """Lift and cant of a wedge (degrees)."""

    lift_deg: float
    cant_deg: float


def slopes_of(setup: Setup) -> Slopes:
    """Lift and cant that a set-up's wedge shall have.

    The start values take a whole fit, some 20 ms.

    Raises:
        ValueError: the start values are wanted and there are none, or the leg
            dimensions contradict each other.
    """
    wedge = setup.wedge
    if wedge.slopes == "typed":
        return Slopes(wedge.lift_deg, wedge.cant_deg)
    if wedge.slopes == "mounts":
        return _slopes_among(setup.inputs, wedge.foot)
    foot = answer_of(setup).foot(wedge.foot)
    if not foot.exists:
        raise ValueError(
            tr("there is nothing to begin with: {reason}", reason=reason_phrase(foot.why_not))
        )
    return Slopes(*foot.begin)


def with_slopes(setup: Setup, source: str) -> Setup:
    """The set-up with its wedge's lift and cant from elsewhere; typed ones begin as they are."""
    wedge = setup.wedge
    if source == "typed":
        # Without start values there is nothing to begin with but what was typed last.
        with suppress(ValueError):
            lift, cant = slopes_of(setup)
            wedge = replace(wedge, lift_deg=lift, cant_deg=cant)
    return replace(setup, wedge=replace(wedge, slopes=source))


def with_number(setup: Setup, name: str, value: float) -> Setup:
    """The set-up with one number of its wedge typed; a lift or cant takes the other along."""
    if name in Slopes._fields:
        setup = with_slopes(setup, "typed")
    return replace(setup, wedge=replace(setup.wedge, **{name: value}))  # type: ignore[arg-type]


def with_holes(setup: Setup, how: str) -> Setup:
    """The set-up with its wedge's holes told another way, a key of ``HOLES``.

    Typed ones begin as those of the grid, unless some were typed before.
    """
    wedge = replace(setup.wedge, holes=how)
    if how == "typed" and not wedge.hole_spots_mm:
        # Of a grid that cannot be meant there is nothing to begin with.
        with suppress(ValueError):
            grid_spots = _grid(setup.wedge, _angle_deg(setup))
            # To a millionth of a mm, as numbers are read: none is -0 or nearly 0.
            spots = tuple((round(a, 6) + 0.0, round(o, 6) + 0.0) for a, o in grid_spots)
            wedge = replace(wedge, hole_spots_mm=spots)
    return replace(setup, wedge=wedge)


def with_spots(setup: Setup, spots: tuple[Spot, ...]) -> Setup:
    """The set-up with the holes of its wedge typed."""
    return replace(setup, wedge=replace(setup.wedge, holes="typed", hole_spots_mm=spots))


def part_of(setup: Setup, slopes: Slopes) -> Part:
    """The wedge that a set-up asks for, possible or not.

    Raises:
        ImpossibleError: no such wedge can be meant; says why, and what to do.
    """
    typed, name = setup.wedge, setup.wedge.foot
    wedge = Wedge(
        rectangle(typed.length_mm, typed.width_mm, typed.corner_radius_mm),
        radians(slopes.lift_deg),
        radians(slopes.cant_deg),
        typed.smallest_mm,
        _screws(typed, _angle_deg(setup)),
        typed.centre_height_mm or None,
    )
    return Part(name, side_of(setup, name), wedge)


def side_of(setup: Setup, name: str) -> str:
    """Whether the "front" or "rear" foot is the "left" or the "right" one."""
    return "left" if (setup.inputs.lead_foot == "left") == (name == "front") else "right"


def measures(part: Part, lengths: PartLengths = MILLIMETRES) -> str:
    """Heights, slope, volume and how much longer the screws must be, sentence by sentence."""
    wedge = part.wedge
    toe_out, heel_out, heel_in, toe_in = map(lengths.figure, wedge.corner_heights)
    words = [
        tr(
            "Corners: little-toe side {toe_out} at the toe, {heel_out} at the heel; "
            "big-toe side {toe_in} and {heel_in}; centre {centre}.",
            toe_out=toe_out,
            heel_out=heel_out,
            toe_in=toe_in,
            heel_in=heel_in,
            centre=lengths.amount(wedge.level),
        )
    ]
    if wedge.thickest - wedge.thinnest >= LEAST_RISE:
        words.append(f"{steepest(wedge)}.")
    longer = longer_screws(wedge, lengths)
    if longer:
        words.append(tr("Screws longer by {longer}.", longer=longer + lengths.unit.suffix))
    words.append(tr("Volume {volume}.", volume=lengths.volume(wedge.volume)))
    return " ".join(words)


def problems(part: Part, lengths: PartLengths = MILLIMETRES) -> str:
    """Why a wedge cannot be made, a line for each reason; empty where it can."""
    return "\n".join(map(as_sentence, lengths.reasons(wedge_problems(part.wedge))))


def file_name(part: Part, ending: str) -> str:
    """What to call a file of a wedge, as "wedge-front-left.stl"."""
    return f"wedge-{part.name}-{part.foot}.{ending}"


def _slopes_among(mounts: object, name: str) -> Slopes:
    """The lift and the cant of a foot among those of inputs or of start values."""
    return Slopes(getattr(mounts, f"{name}_lift_deg"), getattr(mounts, f"{name}_cant_deg"))


def _angle_deg(setup: Setup) -> float:
    """The binding angle of the foot that a wedge is for (degrees)."""
    return float(getattr(setup.inputs, f"{setup.wedge.foot}_angle_deg"))


def _screws(typed: WedgeInputs, angle_deg: float) -> Screws:
    """Holes where they are typed, or as a board's inserts stand under a foot."""
    spots = typed.hole_spots_mm if typed.holes == "typed" else _grid(typed, angle_deg)
    return Screws(spots, typed.hole_mm, typed.head_mm, typed.head_height_mm)


def _grid(typed: WedgeInputs, angle_deg: float) -> tuple[Spot, ...]:
    """Two holes each way about the binding's centre, as the inserts lie under a turned foot.

    One where there is nothing between them, none at all for nothing.

    Raises:
        ImpossibleError: they are so close that they are one.
    """
    across, along = typed.grid_across_mm, typed.grid_along_mm
    for spacing in (across, along):
        if 0.0 < spacing < LEAST_SPACING:
            apart, least = Amount(spacing, "mm", 0), Amount(LEAST_SPACING, "mm", +1)
            raise impossible("holes are one", apart=apart, least=least)
    if not (across or along):
        return ()
    count = (2 if across else 1, 2 if along else 1)
    turned = insert_turn(radians(angle_deg), SIDES[typed.foot])
    return grid((across or 1.0, along or 1.0), count, turned=turned)
