"""The numbers between what was typed and what is found, for one leg as it stands."""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2, cos, degrees, hypot, radians, sin
from typing import NamedTuple

from app.frame import Frame
from app.rider.inputs import LegInputs, flex_range
from geometry import long_axes_apart, short_axes_apart
from geometry.joints import USUAL_RANGES, joint_angles
from geometry.leg import in_sole_axes
from geometry.vectors import minus


class Movement(NamedTuple):
    """One movement of the hip: its name in English, how far it goes and usually can (deg)."""

    name: str
    angle_deg: float
    most_deg: float


@dataclass(frozen=True, slots=True)
class Spacing:
    """How far apart the feet stand (mm and degrees).

    Attributes:
        length: between the binding centres along the board.
        across: the same across the board.
        angle_deg: the mean of the two binding angles.
        apart: between the long axes of the feet; negative where the feet are crossed.
        ahead: how far the front foot stands ahead, where the feet point.
        natural: as the legs hang.
    """

    length: float
    across: float
    angle_deg: float
    apart: float
    ahead: float
    natural: float


@dataclass(frozen=True, slots=True)
class Rule:
    """The rule for straight legs, for one foot (mm and degrees).

    Attributes:
        angle_deg: this foot's binding angle.
        apart: between the long axes if both feet had it.
        half: half of what that is more than the natural spacing.
        hip: hip height.
        cant_deg: what follows; positive inward.
    """

    angle_deg: float
    apart: float
    half: float
    hip: float
    cant_deg: float


@dataclass(frozen=True, slots=True)
class Solved:
    """One solved leg between its ankle and its hip (mm and degrees; nan without a posture).

    Attributes:
        fitted_deg: lean of a cuff that was fitted flat at the natural spacing.
        offset_deg: how much further inward the cuff leans than that.
        cuff_deg: both together: where the boot holds the shank, inward from the sole's normal.
        ahead: from the ankle to the hip, along the plane of the knee on the sole.
        outward: the same to the outer side.
        up: the same out of the sole.
        hip_lean_deg: lean inward of the line from the ankle to the hip.
        wanted_deg: what is wanted sideways of boot and ankle.
        give_deg: what they can give, either way.
        given_deg: what they do give.
        miss: how far the hip hangs beside the plane, to the outer side.
        shank, thigh: lengths of the bones.
        reach: from the ankle to the hip within the plane.
        thigh_in_plane: the thigh as it shows within the plane.
        line_deg: how far the line to the hip leans forward within the plane.
        knee_ahead_deg: how far the knee stands forward of that line.
        bend_deg: bend of this knee; the other one's, and the one asked for.
    """

    fitted_deg: float
    offset_deg: float
    cuff_deg: float
    ahead: float
    outward: float
    up: float
    hip_lean_deg: float
    wanted_deg: float
    give_deg: float
    given_deg: float
    off_plane_deg: float
    miss: float
    shank: float
    thigh: float
    reach: float
    thigh_in_plane: float
    line_deg: float
    knee_ahead_deg: float
    bend_deg: float
    other_bend_deg: float
    asked_bend_deg: float


@dataclass(frozen=True, slots=True)
class Flexed:
    """A boot against its range (degrees)."""

    flex_deg: float
    rest_deg: float
    range_deg: float
    low_deg: float
    high_deg: float
    left_deg: float


@dataclass(frozen=True, slots=True)
class Weight:
    """Where the centre of mass stands over the line between the bindings (mm).

    Attributes:
        along: from the middle towards the front binding, on that line.
        apart: between the binding centres.
        share: of the weight on the front foot; nan where it cannot be told.
    """

    along: float
    apart: float
    share: float


def spacing_of(frame: Frame) -> Spacing:
    """How far apart the feet stand."""
    stance, inputs = frame.settled.model.stance, frame.settled.inputs
    return Spacing(
        length=inputs.stance_length_mm,
        across=inputs.across_spacing_mm,
        angle_deg=inputs.mean_angle_deg,
        apart=float(long_axes_apart(stance)),
        ahead=float(short_axes_apart(stance)),
        natural=inputs.neutral_spacing_mm,
    )


def rule_of(frame: Frame, leg: str) -> Rule:
    """The rule for straight legs, for one foot."""
    inputs, about = frame.settled.inputs, frame.findings.stance
    angle = float(getattr(inputs, f"{leg}_angle_deg"))
    turned = radians(angle)
    apart = inputs.stance_length_mm * cos(turned) + inputs.across_spacing_mm * sin(turned)
    return Rule(
        angle_deg=angle,
        apart=apart,
        half=0.5 * (apart - inputs.neutral_spacing_mm),
        hip=inputs.leg(leg).hip_height_mm,
        cant_deg=float(getattr(about, f"{leg}_straight_leg_cant_deg")),
    )


def solved_of(frame: Frame, leg: str) -> Solved:
    """One leg between its ankle and its hip."""
    inputs, posture = frame.settled.inputs, frame.settled.posture
    here, other = posture.front, posture.rear
    if leg == "rear":
        here, other = other, here
    chain, own = here.chain, inputs.leg(leg)
    ahead, outward, up = map(float, in_sole_axes(chain, minus(here.hip_centre, chain.ankle)))
    cuff, lean = float(chain.cuff), float(here.lean)
    wanted, flexion = float(here.wanted_give), float(here.knee_flexion)
    rise = cos(lean) * up - sin(lean) * outward
    miss = cos(lean) * outward + sin(lean) * up
    shank, thigh = float(chain.links.shank), float(chain.links.thigh)
    in_plane = thigh * cos(float(here.off_plane))
    line = atan2(ahead, rise)
    return Solved(
        fitted_deg=degrees(cuff) - own.cuff_offset_deg,
        offset_deg=own.cuff_offset_deg,
        cuff_deg=degrees(cuff),
        ahead=ahead,
        outward=outward,
        up=up,
        hip_lean_deg=degrees(wanted + cuff),
        wanted_deg=degrees(wanted),
        give_deg=own.side_give_deg,
        given_deg=degrees(lean - cuff),
        off_plane_deg=degrees(float(here.off_plane)),
        miss=miss,
        shank=shank,
        thigh=thigh,
        reach=hypot(ahead, rise),
        thigh_in_plane=in_plane,
        line_deg=degrees(line),
        knee_ahead_deg=degrees(float(here.boot_flex) - line),
        bend_deg=degrees(flexion),
        other_bend_deg=degrees(float(other.knee_flexion)),
        asked_bend_deg=inputs.knee_bend_deg,
    )


def flexed_of(frame: Frame, leg: str) -> Flexed:
    """A boot against its range."""
    own: LegInputs = frame.settled.inputs.leg(leg)
    found = frame.findings.legs[leg]
    low, high = flex_range(own)
    return Flexed(
        flex_deg=found.boot_flex_deg,
        rest_deg=own.forward_lean_deg,
        range_deg=own.flex_range_deg,
        low_deg=low,
        high_deg=high,
        left_deg=found.boot_left_deg,
    )


def movements_of(frame: Frame, leg: str) -> list[Movement]:
    """What the hip does, each movement that it makes with its usual end."""
    angles = joint_angles(frame.settled.posture)
    hip = (angles.front if leg == "front" else angles.rear).hip
    made = [
        Movement(
            each.name, degrees(each.sign * float(getattr(hip, each.angle))), degrees(each.most)
        )
        for each in USUAL_RANGES
        if each.joint == "hip"
    ]
    return [each for each in made if each.angle_deg >= 0.0]


def weight_of(frame: Frame) -> Weight:
    """Where the weight stands between the feet."""
    inputs, posture = frame.settled.inputs, frame.settled.posture
    x, y, _ = (float(each) for each in posture.mass_centre)
    length, across = inputs.stance_length_mm, inputs.across_spacing_mm
    apart = hypot(length, across)
    along = (x * length - y * across) / apart if apart else 0.0
    return Weight(along, apart, float(posture.front_share))
