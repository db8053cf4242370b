"""The answer in degrees: what each binding begins with, how sure that is, and what it does.

What is proposed stands in half degrees, and all that is said of it is true of just these:
they are put on and looked at over the riding bend.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from math import degrees, isfinite, isnan, nan, radians
from typing import Final, NamedTuple

import numpy as np

from app.rider.inputs import ENDS, Inputs
from app.rider.setup import Setup
from app.rider.spreads import answer_spreads_of, correlations_of
from app.stance.findings import NEAR_DEG, USUAL_LIMITS, Limits
from app.stance.needs import Mounts, mounts_now
from app.stance.own import NO_MORE_ALLOWED, LegOutlook, Own, outlook_of
from app.stance.through import Legs, Through, rounded_left, straight, terms_of, through_of
from geometry import PostureInputs, posture_reasons, solve
from geometry.fitting.answer import Answer as Found
from geometry.fitting.answer import Mounts as Held
from geometry.fitting.answer import Terms, Values
from geometry.fitting.certainty import Certainty, certainty_of
from geometry.fitting.proposal import STEP, Proposal, begun_with, proposal_of
from geometry.fitting.weight_shift import weight_at_share
from geometry.stance import Mount as StanceMount

SHARES: Final = (0.4, 0.6)
"""Shares of the weight on the front foot for which the answer is told too."""
WHOLE, BEGUN, GROWING, ALLOWED, NO_MORE = "", "begun", "growing", "allowed", "no more"
"""Why no more is proposed: it is all that is needed; one begins with no more; a growing
rider begins with no more; rider or maker allow no more; more would do no better."""
FLAT: Final = Mounts(0.0, 0.0, 0.0, 0.0)


class Mount(NamedTuple):
    """Lift and cant of one foot (degrees); nan where there is no answer."""

    lift_deg: float
    cant_deg: float


@dataclass(frozen=True, slots=True)
class FootAnswer:
    """What one binding begins with.  Lifts are positive toe up, cants inward (degrees).

    Attributes:
        name: "front" or "rear".
        begin: lift and cant in half degrees; nan where there is no answer.
        lift_range: ends of the lifts to begin with that are likely, before rounding.
        cant_range: ends of the cants to begin with that are likely, before rounding.
        in_plane: ends of the cants with which the knee stays in its plane; the first
            is the larger one where none does.
        full_cant: with which the hip hangs right in the knee's plane at the middle.
        enough: whether the knee stays in its plane with the cant.
        lift_held: why no more lift is proposed, one of the words above.
        cant_held: why no more cant is proposed.
        later: lift and cant without what one begins with at most.
        later_lift_range: ends of those lifts that are likely, before rounding.
        later_cant_range: ends of those cants that are likely, before rounding.
        allowed: largest lift and cant, either way, that rider and maker allow.
        sources: what carries the doubt, most of it first, by its name in the geometry.
        trials: how many trials the cant rests on; 0 where it is the geometry's alone.
        lift_trials: how many the lift rests on.
        now: the leg over the riding bend as it stands.
        then: the same with both answers on.
        flat: the same on soles without lift and cant.
        bare: the same with all of it on but this foot's cant.
        no_lift: the same with all of it on but this foot's lift.
        in_the_end: the same with what both feet come to later on.
        why_not: key of the reason why there is no answer; "" where there is one.
    """

    name: str
    begin: Mount
    lift_range: tuple[float, float]
    cant_range: tuple[float, float]
    in_plane: tuple[float, float]
    full_cant: float
    enough: bool
    lift_held: str
    cant_held: str
    later: Mount
    later_lift_range: tuple[float, float]
    later_cant_range: tuple[float, float]
    allowed: Mount
    sources: tuple[str, ...]
    trials: int
    lift_trials: int
    now: Through
    then: Through
    flat: Through
    bare: Through
    no_lift: Through
    in_the_end: Through
    why_not: str

    @property
    def exists(self) -> bool:
        """Whether there is an answer."""
        return not self.why_not

    @property
    def boot_enough(self) -> bool:
        """Whether the boot keeps off its stops at the middle of the bend."""
        return rounded_left(self.then) >= NEAR_DEG

    @property
    def is_well(self) -> bool:
        """Whether the knee stays in its plane and the boot off its stops."""
        return self.enough and self.boot_enough

    @property
    def goes_on(self) -> bool:
        """Whether one begins with less than it comes to, so that a step is still to come."""
        return bool({BEGUN, GROWING} & {self.lift_held, self.cant_held})

    @property
    def is_well_in_the_end(self) -> bool:
        """Whether both hold with what it comes to later."""
        return self.in_the_end.in_plane and rounded_left(self.in_the_end) >= NEAR_DEG


@dataclass(frozen=True, slots=True)
class Answer:
    """What both bindings begin with.

    Attributes:
        front: of the front binding.
        rear: of the rear binding.
        bend: ends of the riding bend (degrees).
        in_plane_deg: off-plane angle up to which a knee counts as in its plane.
        growing: whether the rider grows.
    """

    front: FootAnswer
    rear: FootAnswer
    bend: tuple[float, float]
    in_plane_deg: float
    growing: bool

    @property
    def feet(self) -> tuple[FootAnswer, FootAnswer]:
        """Front and rear."""
        return self.front, self.rear

    def foot(self, end: str) -> FootAnswer:
        """Of the "front" or the "rear" binding."""
        return self.front if end == "front" else self.rear

    @property
    def mounts(self) -> Mounts:
        """The lifts and cants, to be put on together; nan where there is no answer."""
        return Mounts(*self.front.begin, *self.rear.begin)

    @property
    def exists(self) -> bool:
        """Whether there is an answer for both feet."""
        return self.front.exists and self.rear.exists


def answer_of(setup: Setup, limits: Limits = USUAL_LIMITS) -> Answer:
    """What both bindings begin with, the hips straight.

    Args:
        setup: of the rider.  Its lifts and cants matter only for what is told of the
            stance as it stands and of one foot alone; its knee bend not at all.
        limits: up to where a knee counts as in its plane.

    Raises:
        ValueError: the leg dimensions contradict each other.
    """
    doubt = _Doubt(
        tuple(sorted(answer_spreads_of(setup).items())),
        tuple(sorted(correlations_of(setup).items())),
    )
    inputs = replace(setup.inputs, knee_bend_deg=45.0, hips_turned_deg=0.0)
    tried = _from_trials(setup, limits)
    return _answer_of(
        inputs, doubt, _Trials(tried, _grown(setup, limits, tried)), limits, setup.growing
    )


class _Doubt(NamedTuple):
    """Standard errors of the inputs, and how far they go together, as pairs."""

    spreads: tuple[tuple[str, float], ...]
    correlations: tuple[tuple[tuple[str, str], float], ...]


class _Tried(NamedTuple):
    """A cant or a lift that a leg's trials put on here.

    Attributes:
        deg: the angle in half degrees; nan where no trial speaks.
        range: ends of what is likely.
        trials: how many they are.
        capped: whether they ask for more than may be put on.
    """

    deg: float = nan
    range: tuple[float, float] = (nan, nan)
    trials: int = 0
    capped: bool = False

    @property
    def exists(self) -> bool:
        """Whether trials tell the angle."""
        return isfinite(self.deg)


class _LegTried(NamedTuple):
    """What the trials of a leg put on here."""

    lift: _Tried
    cant: _Tried


_NOTHING: Final = _LegTried(_Tried(), _Tried())


class _Trials(NamedTuple):
    """What the trials of front and rear leg put on now, and what once the rider is grown."""

    now: tuple[_LegTried, _LegTried]
    grown: tuple[_LegTried, _LegTried]


def _from_trials(setup: Setup, limits: Limits) -> tuple[_LegTried, _LegTried]:
    """What the trials of both legs put on in this stance; nothing without trials."""
    if not setup.trials:
        return _NOTHING, _NOTHING
    front, rear = (_of_leg(leg) for leg in outlook_of(setup, limits=limits))
    return front, rear


def _grown(
    setup: Setup, limits: Limits, tried: tuple[_LegTried, _LegTried]
) -> tuple[_LegTried, _LegTried]:
    """What they put on where nobody is kept from it by growing."""
    capped = any(each.capped for leg in tried for each in leg)
    return (
        _from_trials(replace(setup, growing=False), limits) if setup.growing and capped else tried
    )


def _of_leg(leg: LegOutlook) -> _LegTried:
    return _LegTried(_tried(leg.lift), _tried(leg.cant))


def _tried(own: Own) -> _Tried:
    if not own.trials or isnan(own.put_deg):
        return _Tried()
    likely, margin = own.likely
    ends = likely - margin, likely + margin
    return _Tried(own.put_deg, ends, own.trials, own.why == NO_MORE_ALLOWED)


@lru_cache(maxsize=8)
def _answer_of(
    inputs: Inputs,
    doubt: _Doubt,
    tried: _Trials,
    limits: Limits,
    growing: bool,
) -> Answer:
    asked, terms = straight(inputs), terms_of(inputs, limits)
    begin = begun_with(terms, growing=growing)
    held = _held(tried.now)
    sure = certainty_of(asked, terms, dict(doubt.spreads), dict(doubt.correlations), held)
    known = sure.answer if _within(sure.answer, begin) else None
    made = proposal_of(asked, begin, held, known)
    whole = made
    if known is None or tried.grown != tried.now:
        found = sure.answer if tried.grown == tried.now else None
        whole = proposal_of(asked, terms, _held(tried.grown), found)
    mounts, later = mounts_of(made.mounts), mounts_of(whole.mounts)
    on = [mounts_now(inputs), mounts, FLAT, *_without_one(mounts), later]
    legs = through_of(inputs, limits, on)
    why = _reasons(asked, terms, mounts)
    front, rear = (
        _foot(
            i,
            _Work(sure, made, whole, tried.now[i], legs, why[i]),
            _Caps(terms, begin, growing),
        )
        for i in range(2)
    )
    bend = inputs.bend_from_deg, inputs.bend_to_deg
    return Answer(front, rear, bend, limits.in_plane_deg, growing)


def _held(tried: tuple[_LegTried, _LegTried]) -> Held:
    """The lifts and cants that trials tell, in half degrees; nan where there are none."""
    lift, cant = (np.radians([[leg[kind].deg] for leg in tried]) for kind in (0, 1))
    return Held(lift, cant)


def _within(found: Found, begin: Terms) -> bool:
    """Whether nobody is kept from anything by what one begins with at most."""
    lift, cant = np.abs(found.lift).max(), np.abs(found.cant).max()
    return bool(lift <= begin.largest_lift - STEP and cant <= begin.largest_cant - STEP)


def mounts_of(mounts: Held, which: int = 0) -> Mounts:
    """Lifts and cants of one of many riders, in degrees."""
    front, rear = (
        [round(degrees(float(each[foot, which])), 9) + 0.0 for each in mounts] for foot in (0, 1)
    )
    return Mounts(*front, *rear)


def _without_one(mounts: Mounts) -> list[Mounts]:
    """The mounts with one angle after the other taken out: lift and cant of front and rear."""
    return [mounts._replace(**{name: 0.0 * getattr(mounts, name)}) for name in Mounts._fields]


def _reasons(asked: PostureInputs, terms: Terms, mounts: Mounts) -> tuple[str, str]:
    """Keys of why there is no answer for front and rear; "" where there is one."""
    if not isnan(sum(mounts)):
        return "", ""
    body, boots, stance, crouch = asked
    posture = solve(body, boots, stance, replace(crouch, knee_bend=terms.middle))
    if posture.exists:
        return "none settles in the bend", "none settles in the bend"
    front, rear = map(str, posture_reasons(posture))
    return front, rear


class _Work(NamedTuple):
    """All that is known of one foot's answer before it is put together."""

    sure: Certainty
    made: Proposal
    whole: Proposal
    tried: _LegTried
    legs: list[Legs]
    why: str


class _Caps(NamedTuple):
    """What rider and maker allow, what one begins with, and whether one grows."""

    allowed: Terms
    begin: Terms
    growing: bool

    def held(self, kind: str, deg: float, later_deg: float, tried: _Tried) -> str:
        """Why no more than a lift or a cant that is not enough is proposed.

        Args:
            kind: "lift" or "cant".
            deg: what is proposed (degrees).
            later_deg: what it would be without what one begins with at most.
            tried: what trials say of it.
        """
        stopped = tried.capped if tried.exists else not _has_room(deg, self._most(self.begin, kind))
        if stopped and abs(later_deg) > abs(deg) + 1e-9:
            return GROWING if self.growing else BEGUN
        if stopped and not _has_room(deg, self._most(self.allowed, kind)):
            return ALLOWED
        return NO_MORE

    @property
    def largest(self) -> Mount:
        """The largest lift and cant allowed (degrees)."""
        return Mount(_limit_deg(self.allowed.largest_lift), _limit_deg(self.allowed.largest_cant))

    @staticmethod
    def _most(terms: Terms, kind: str) -> float:
        return float(getattr(terms, f"largest_{kind}"))


def _has_room(deg: float, most: float) -> bool:
    """Whether half a degree more is still no steeper than an angle (rad)."""
    return abs(radians(deg)) + STEP <= most + 1e-9


def _foot(i: int, work: _Work, caps: _Caps) -> FootAnswer:
    """The answer of the front (0) or the rear foot (1)."""
    begin, found, tried = _mount(work.made, i), work.made.answer, work.tried
    now, then, flat, *without, in_the_end = (legs[i] for legs in work.legs)
    no_lift, bare = without[2 * i], without[2 * i + 1]
    later = _mount(work.whole, i)
    enough = bool(work.made.cant_is_enough[i, 0])
    lifts, cants = work.sure.lift_range[i], work.sure.cant_range[i]
    boot_enough = rounded_left(then) >= NEAR_DEG
    return FootAnswer(
        name=ENDS[i],
        begin=begin,
        lift_range=_range(lifts, tried.lift, caps.begin.largest_lift),
        cant_range=_range(cants, tried.cant, caps.begin.largest_cant),
        in_plane=(_deg(found.low[i, 0]), _deg(found.high[i, 0])),
        full_cant=_deg(found.full[i, 0]),
        enough=enough,
        lift_held=WHOLE
        if boot_enough or work.why
        else caps.held("lift", begin.lift_deg, later.lift_deg, tried.lift),
        cant_held=WHOLE
        if enough or work.why
        else caps.held("cant", begin.cant_deg, later.cant_deg, tried.cant),
        later=later,
        later_lift_range=_range(lifts, tried.lift, caps.allowed.largest_lift),
        later_cant_range=_range(cants, tried.cant, caps.allowed.largest_cant),
        allowed=caps.largest,
        sources=work.sure.sources(i),
        trials=tried.cant.trials,
        lift_trials=tried.lift.trials,
        now=now,
        then=then,
        flat=flat,
        bare=bare,
        no_lift=no_lift,
        in_the_end=in_the_end,
        why_not=work.why,
    )


def _mount(made: Proposal, foot: int, which: int = 0) -> Mount:
    mounts = mounts_of(made.mounts, which)
    return Mount(*mounts[:2]) if foot == 0 else Mount(*mounts[2:])


def _range(drawn: Values, tried: _Tried, most: float) -> tuple[float, float]:
    """Ends of the likely angles (degrees), none steeper than ``most`` (rad).

    Where trials tell the angle they are those of the trials.
    """
    if tried.exists:
        return tried.range
    largest = _limit_deg(most)
    low, high = (min(max(_deg(end), -largest), largest) for end in drawn)
    return low, high


def _deg(angle: float) -> float:
    return degrees(float(angle)) + 0.0


def _limit_deg(angle: float) -> float:
    """A limit in degrees without the dust of a conversion: 3, not 3.0000000000000004."""
    return round(_deg(angle), 9)


@dataclass(frozen=True, slots=True)
class Others:
    """What is told beside the answer: mounts for other wishes (degrees).

    Attributes:
        alone: for "front" and "rear", lift and cant of that foot with the other one as
            it stands.
        shifted: for each of :data:`SHARES` of the weight on the front foot, the mounts of
            both feet, the weight moved along the line between the feet; nan where that
            does not bring it there.
    """

    alone: dict[str, Mount]
    shifted: dict[float, Mounts]


def others_of(setup: Setup, limits: Limits = USUAL_LIMITS) -> Others:
    """What would be begun with for one foot alone, and for other shares of the weight.

    Raises:
        ValueError: the leg dimensions contradict each other.
    """
    asked = straight(setup.inputs)
    begin = begun_with(terms_of(setup.inputs, limits), growing=setup.growing)
    moved = [weight_at_share(_on_flat_soles(asked, begin), share) for share in SHARES]
    stays = [asked.crouch.weight_ahead, asked.crouch.hip_shift]
    ahead, shift = np.nan_to_num(
        [
            [value] * len(ENDS) + [float(each[i][0]) for each in moved]
            for i, value in enumerate(stays)
        ]
    )
    held = Held(*(np.repeat(each, len(shift), 1) for each in _held(_from_trials(setup, limits))))
    for foot, mount in enumerate((asked.stance.front, asked.stance.rear)):
        # The first is the front foot alone, with the rear one held; the second the other way.
        held.lift[foot, 1 - foot], held.cant[foot, 1 - foot] = mount.lift, mount.cant
    crouch = replace(asked.crouch, weight_ahead=ahead, hip_shift=shift)
    many = asked._replace(crouch=crouch)
    made = proposal_of(many, begin, held)
    told = [mounts_of(made.mounts, len(ENDS) + k) for k in range(len(SHARES))]
    return Others(
        {name: _mount(made, i, i) for i, name in enumerate(ENDS)},
        {
            share: mounts if isfinite(there.ahead[0]) else Mounts(nan, nan, nan, nan)
            for share, there, mounts in zip(SHARES, moved, told, strict=True)
        },
    )


def _on_flat_soles(asked: PostureInputs, terms: Terms) -> PostureInputs:
    """The rider at the middle of the riding bend, no lift and no cant on the bindings."""
    stance = replace(
        asked.stance,
        front=StanceMount(asked.stance.front.angle),
        rear=StanceMount(asked.stance.rear.angle),
    )
    crouch = replace(asked.crouch, knee_bend=terms.middle)
    return asked._replace(stance=stance, crouch=crouch)
