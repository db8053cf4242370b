"""What the posture means: numbers as words, a state for each leg, and why.

The limits on the off-plane angle are an engineering choice: the second is half
of the knee's passive sideways play at full extension, 6.7 degrees in all
(Markolf, Graff-Radford and Amstutz 1978, J Bone Joint Surg Am 60:664-674).
They are not clinical limits, and the user can change both.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import degrees, isfinite
from typing import Final, NamedTuple

from app.rider.inputs import LegInputs, flex_range
from app.stance.causes import cause
from app.stance.settled import Settled
from app.words.language import msgid, tr
from app.words.lengths import IN_MM, Lengths
from app.words.reasons import reason_sentence
from app.words.sentences import plain
from app.words.units import degrees_or_dash, fixed
from geometry import (
    Leg,
    long_axes_apart,
    no_cant_length,
    posture_reasons,
    short_axes_apart,
    straight_leg_cant,
)
from geometry.boots import TO_THE_STOP
from geometry.joints import Excess, beyond_range, joint_angles

IN_PLANE, DRIFTING, OUT_OF_PLANE = "in plane", "a little out", "out of plane"
NO_POSTURE = "no posture"
STATES: Final = (IN_PLANE, DRIFTING, OUT_OF_PLANE, NO_POSTURE)
"""Keys of the states of a knee, which JSON tells too."""
_STATE_WORDS: Final = {
    IN_PLANE: msgid("in its plane"),
    DRIFTING: msgid("a little out"),
    OUT_OF_PLANE: msgid("out of its plane"),
    NO_POSTURE: msgid("no posture"),
}
BOOT_IN, BOOT_NEAR, BOOT_OUT = "in", "near", "out"
"""Keys of where a boot is: within its range, within a degree of its stop, past it."""
BOOT_AT = "at"
"""Key of a boot just at its stop, as it is said."""
NEAR_DEG: Final = round(degrees(TO_THE_STOP), 9)
"""A boot nearer to its stop than this is near it (degrees; engineering choice, no source)."""

CAUTION: Final = msgid(
    "A geometric estimate, not medical advice: it does not know your joints. Change one thing "
    "at a time, in small steps, and try it standing still first. Stop if a knee, hip or ankle "
    "hurts. See a doctor if a knee swells, locks, gives way or cannot take weight; see a "
    "physiotherapist or a qualified boot fitter for lasting pain or known leg-shape "
    "differences. Growing riders: measure again each season. Mount only within the "
    "instructions of the board, the bindings and the boots (inserts, screw length and torque, "
    "largest lift and cant), and follow local rules and the advice of licensed practice."
)
IN_A_LINE: Final = msgid(
    "On the board, one change at a time, standing still first. Stop if a joint hurts."
)
"""The caution at whatever puts lifts and cants on."""


@dataclass(frozen=True, slots=True)
class Limits:
    """Up to where a knee counts as in its plane, and up to where as a little out (degrees)."""

    in_plane_deg: float = 1.0
    drifting_deg: float = 3.3

    def state(self, off_plane_deg: float) -> str:
        """The state of a knee, one of :data:`STATES`."""
        if not isfinite(off_plane_deg):
            return NO_POSTURE
        # What is shown counts: 1.04 is 1.0.
        shown = round(abs(off_plane_deg), 1)
        if shown <= self.in_plane_deg:
            return IN_PLANE
        return DRIFTING if shown <= self.drifting_deg else OUT_OF_PLANE


USUAL_LIMITS: Final = Limits()


def state_words(state: str) -> str:
    """What a state of a knee is called, in the user's language."""
    return tr(_STATE_WORDS[state])


@dataclass(frozen=True, slots=True)
class LegFinding:
    """One leg in numbers and words.

    Attributes:
        name: "front" or "rear".
        state: one of :data:`STATES`.
        off_plane_deg: signed, positive knock-kneed.
        knee_flexion_deg: bend of the knee.
        boot_flex_deg: of the shank forward of the sole's normal.
        wanted_give_deg: sideways give that would put the hip in the plane.
        boot_left_deg: from boot flex to the nearer stop; negative past it.
        sentence: why the leg is in this state.
        flags: further findings, a sentence each.
        reason: key of the reason why there is no posture; empty where there is one.
    """

    name: str
    state: str
    off_plane_deg: float
    knee_flexion_deg: float
    boot_flex_deg: float
    wanted_give_deg: float
    boot_left_deg: float
    sentence: str
    flags: tuple[str, ...] = ()
    reason: str = ""

    @property
    def boot(self) -> str:
        """Where the boot is, by what is shown of it: one of the keys above."""
        left = round(self.boot_left_deg, 1)
        if left < 0.0:
            return BOOT_OUT
        return BOOT_NEAR if left < NEAR_DEG else BOOT_IN

    @property
    def at_fault(self) -> bool:
        """Whether it is this leg that cannot reach, or whose knee would leave its plane."""
        return self.reason.startswith(self.name)

    @property
    def way(self) -> str:
        """The way the knee is pushed, "knock-kneed" or "bow-legged"; nothing in plane."""
        if self.state in {IN_PLANE, NO_POSTURE}:
            return ""
        return tr("knock-kneed") if self.off_plane_deg > 0.0 else tr("bow-legged")

    @property
    def number(self) -> str:
        """The off-plane angle as people read it, without its sign."""
        return degrees_or_dash(abs(self.off_plane_deg))

    @property
    def word(self) -> str:
        """State and way: "out of its plane, bow-legged"."""
        state = state_words(self.state)
        return tr("{state}, {way}", state=state, way=self.way) if self.way else state

    @property
    def spoken(self) -> str:
        """The whole finding in a phrase: "11.5° out of its plane, bow-legged"."""
        if self.state == NO_POSTURE:
            return self.word
        if self.state == IN_PLANE:
            exact = not round(self.off_plane_deg, 1)
            return self.word if exact else tr("in its plane to within {angle}", angle=self.number)
        return tr("{angle} {state}", angle=self.number, state=self.word)

    @property
    def headline(self) -> str:
        """The finding with its leg: "front leg 11.5° out of its plane, bow-legged"."""
        return tr(_HEADLINES[self.name], finding=self.spoken)


_HEADLINES: Final = {
    "front": msgid("front leg {finding}"),
    "rear": msgid("rear leg {finding}"),
}


@dataclass(frozen=True, slots=True)
class StanceFinding:
    """What the stance says before any leg bends (mm and degrees; nan where it has no answer)."""

    long_axes_apart_mm: float
    short_axes_apart_mm: float
    straight_leg_no_cant_length_mm: float
    front_straight_leg_cant_deg: float
    rear_straight_leg_cant_deg: float


class Findings(NamedTuple):
    """All that is said of a posture."""

    legs: dict[str, LegFinding]
    stance: StanceFinding


def findings_of(stood: Settled, limits: Limits, lengths: Lengths = IN_MM) -> Findings:
    """Everything that the window, the sheets and the command line say."""
    inputs, (body, _, stance, _), posture = stood
    front_cant, rear_cant = straight_leg_cant(stance, body)
    about = StanceFinding(
        long_axes_apart_mm=float(long_axes_apart(stance)),
        short_axes_apart_mm=float(short_axes_apart(stance)),
        straight_leg_no_cant_length_mm=float(no_cant_length(stance, body.neutral_spacing)),
        front_straight_leg_cant_deg=degrees(float(front_cant)),
        rear_straight_leg_cant_deg=degrees(float(rear_cant)),
    )
    front_why, rear_why = ("", "") if posture.exists else map(str, posture_reasons(posture))
    beyond = beyond_range(joint_angles(posture))
    legs = {}
    for name, leg, why, excesses in (
        ("front", posture.front, front_why, beyond.front),
        ("rear", posture.rear, rear_why, beyond.rear),
    ):
        own = inputs.leg(name)
        plain_finding = _leg_finding(name, leg, own, limits, why)
        legs[name] = replace(
            plain_finding,
            sentence=_sentence(plain_finding, stood, lengths),
            flags=(*_boot_flags(plain_finding, own), *_joint_flags(excesses)),
        )
    return Findings(legs, about)


def _leg_finding(name: str, leg: Leg, own: LegInputs, limits: Limits, why: str) -> LegFinding:
    """One leg's numbers and its state; ``why`` it has no posture."""
    off, flex = degrees(float(leg.off_plane)), degrees(float(leg.boot_flex))
    state = limits.state(off)
    return LegFinding(
        name=name,
        state=state,
        off_plane_deg=off,
        knee_flexion_deg=degrees(float(leg.knee_flexion)),
        boot_flex_deg=flex,
        wanted_give_deg=degrees(float(leg.wanted_give)),
        boot_left_deg=own.flex_range_deg - abs(flex - own.forward_lean_deg),
        sentence="",
        reason=why,
    )


REMEDY: Final = msgid(
    "Bend the knees more, shorten the stance or bring the binding angles together."
)


def _boot_flags(leg: LegFinding, own: LegInputs) -> tuple[str, ...]:
    if leg.boot == BOOT_IN:
        return ()
    (low, high), left = flex_range(own), fixed(abs(leg.boot_left_deg), 1)
    flex, low_end, high_end = (plain(each) for each in (leg.boot_flex_deg, low, high))
    where = BOOT_AT if not round(leg.boot_left_deg, 1) else leg.boot
    said = _BOOT_SAID[where, leg.boot_flex_deg > own.forward_lean_deg]
    return (tr(said, flex=flex, low=low_end, high=high_end, left=left),)


_BOOT_SAID: Final = {
    (BOOT_AT, False): msgid("The boot is at its rear stop, at one end of its {low}° to {high}°."),
    (BOOT_AT, True): msgid("The boot is at its front stop, at one end of its {low}° to {high}°."),
    (BOOT_OUT, False): msgid(
        "The boot flexes to {flex}°, further back than its range of {low}° to {high}°."
    ),
    (BOOT_OUT, True): msgid(
        "The boot flexes to {flex}°, further forward than its range of {low}° to {high}°."
    ),
    (BOOT_NEAR, False): msgid(
        "The boot is nearly at its rear stop: {left}° to go in its range of {low}° to {high}°."
    ),
    (BOOT_NEAR, True): msgid(
        "The boot is nearly at its front stop: {left}° to go in its range of {low}° to {high}°."
    ),
}
_BEYOND: Final = {
    "hip": msgid("The hip goes {beyond}° beyond the usual {most}° of {movement}."),
    "knee": msgid("The knee goes {beyond}° beyond the usual {most}° of {movement}."),
}
MOVEMENTS: Final = (
    msgid("flexion"),
    msgid("extension"),
    msgid("abduction"),
    msgid("adduction"),
    msgid("internal rotation"),
    msgid("external rotation"),
    msgid("dorsiflexion"),
    msgid("plantarflexion"),
)
"""The names of :data:`geometry.joints.AAOS_MOVEMENTS`."""


def _joint_flags(excesses: tuple[Excess, ...]) -> tuple[str, ...]:
    """Hip and knee movements beyond their usual range, a sentence each.

    The ankle is left to the boot's own range: under load it goes further than
    the published figures for a free foot.
    """
    return tuple(
        tr(
            _BEYOND[movement.joint],
            beyond=plain(degrees(float(beyond))),
            most=plain(degrees(movement.most), 0),
            movement=tr(movement.name),
        )
        for movement, beyond in excesses
        if movement.joint in _BEYOND
    )


def _sentence(leg: LegFinding, stood: Settled, lengths: Lengths) -> str:
    """Why the knee is where it is."""
    if leg.state == NO_POSTURE:
        return f"{reason_sentence(leg.reason)} {tr(REMEDY)}"
    if leg.state == IN_PLANE:
        return _in_plane_sentence(leg, stood.inputs.leg(leg.name))
    why = cause(leg.name, leg.wanted_give_deg, stood, lengths)
    if leg.off_plane_deg > 0.0:
        return tr("{cause}: the knee is pushed inward.", cause=why)
    return tr("{cause}: the knee is pushed outward.", cause=why)


def _in_plane_sentence(leg: LegFinding, own: LegInputs) -> str:
    used, left = abs(leg.wanted_give_deg), abs(leg.off_plane_deg)
    if left >= 0.05:
        return tr(
            "Boot and ankle give all of {give}°; the thigh stays {left}° out of the knee's "
            "hinge plane, which still counts as in its plane.",
            give=plain(own.side_give_deg),
            left=fixed(left, 1),
        )
    if used < 0.05:
        return tr(
            "The hip is right in the knee's hinge plane, and the boot stands as it was fitted."
        )
    return tr(
        "Boot and ankle tilt {used}° of the {give}° they can give, "
        "and so the hip comes into the knee's hinge plane.",
        used=fixed(min(used, own.side_give_deg), 1),
        give=plain(own.side_give_deg),
    )
