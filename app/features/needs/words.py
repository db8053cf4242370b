"""What each binding needs, in words; nothing finer than half a degree."""

from __future__ import annotations

from math import isnan
from typing import Final

from app.features.needs.model import RangeNeeds
from app.rider.inputs import FIELD
from app.rider.setup import Setup
from app.rider.spreads import boot_spreads_of, unsaid
from app.stance.needs import STEP_DEG, FootNeeds, Mounts, Need, Needs, obstacle
from app.words.language import msgid, ntr, tr, within
from app.words.reasons import reason_phrase
from app.words.sentences import as_sentence, listed, plain
from app.words.units import fixed
from geometry.fitting.shares import SettledShare

WAYS: Final = {
    "cant": (msgid("inward"), msgid("outward")),
    "lift": (msgid("toe", "of a lift"), msgid("heel", "of a lift")),
}
"""What the sign of a cant and of a lift means; :func:`way_words` says it."""
NO_ANSWER: Final = "–"

_ANGLES: Final = {
    "cant": (msgid("{angle}° inward"), msgid("{angle}° outward")),
    "lift": (msgid("{angle}° toe"), msgid("{angle}° heel")),
}
_WITH_MARGINS: Final = {
    "cant": (msgid("{angle}° ± {margin}° inward"), msgid("{angle}° ± {margin}° outward")),
    "lift": (msgid("{angle}° ± {margin}° toe"), msgid("{angle}° ± {margin}° heel")),
}


def way_words(kind: str) -> tuple[str, str]:
    """What the signs of a cant or a lift mean, the positive one first."""
    positive, negative = WAYS[kind]
    if kind == "cant":
        return tr(positive), tr(negative)
    return tr(positive, "of a lift"), tr(negative, "of a lift")


def angle_words(kind: str, deg: float) -> str:
    """A cant or a lift in half degrees: "4.5° inward", "none"."""
    if isnan(deg):
        return NO_ANSWER
    if _is_none(deg):
        return tr("none", "of cant or lift")
    return tr(_ANGLES[kind][deg < 0.0], angle=fixed(abs(deg), 1))


def _is_none(deg: float) -> bool:
    return abs(deg) < STEP_DEG / 2.0


def need_words(kind: str, need: Need) -> str:
    """A needed cant or lift with its margin: "4.5° ± 0.5° inward", "none ± 0.5°"."""
    if not need.exists:
        return NO_ANSWER
    deg, margin = need.shown_deg, fixed(need.shown_margin_deg, 1)
    if _is_none(deg):
        return tr("none ± {margin}°", margin=margin)
    return tr(_WITH_MARGINS[kind][deg < 0.0], angle=fixed(abs(deg), 1), margin=margin)


def verdict_words(needs: Needs) -> str:
    """What to make of the cants, for each foot, or for both where they agree."""
    front, rear = (_cant_verdict(foot) for foot in needs.feet)
    if front == rear:
        return tr("Both feet: {verdict}.", verdict=front)
    return tr("Front: {front}. Rear: {rear}.", front=front, rear=rear)


def _cant_verdict(foot: FootNeeds) -> str:
    if foot.no_cant:
        return tr("no cant, since {reason}", reason=reason_phrase(foot.no_cant))
    least, full = foot.least_cant.shown_deg, foot.full_cant.shown_deg
    if not least:
        return tr("no cant needed")
    if full == least:
        return angle_words("cant", full)
    return tr(
        "{least} is enough, at {full}° boot and ankle give nothing",
        least=angle_words("cant", least),
        full=fixed(abs(full), 1),
    )


def lift_words(needs: Needs) -> str:
    """What to make of the lifts."""
    foot = needs.front
    if foot.no_lift:
        return tr("No lift, since {reason}.", reason=reason_phrase(foot.no_lift))
    if not foot.least_lift.shown_deg:
        return tr("No lift needed: both boots stay in their range.")
    toe_in_front = foot.least_lift.deg > 0.0
    said = _FROM_TOE_LIFT if toe_in_front else _FROM_HEEL_LIFT
    return tr(said, lift=fixed(abs(foot.least_lift.shown_deg), 1))


_FROM_TOE_LIFT: Final = msgid(
    "From about {lift}° toe lift in front and heel lift behind, both boots stay in their range."
)
_FROM_HEEL_LIFT: Final = msgid(
    "From about {lift}° heel lift in front and toe lift behind, both boots stay in their range."
)


def start_words(needs: Needs) -> str:
    """Where the start values come from, where that is not the least end."""
    front, rear = (foot.share for foot in needs.feet)
    if isnan(needs.start.front_lift_deg):
        return ""
    said = ""
    if front.trials or rear.trials:
        held = any(foot.held_back for foot in needs.feet)
        said = tr(_HELD if held else _OWN, front=_share(front), rear=_share(rear))
    return f"{said} {_too_much(_NO_START, needs.start)}".strip()


_OWN: Final = msgid("The start is your own share of full cant: front {front}, rear {rear}.")
_HELD: Final = msgid(
    "The start is your own share of full cant, kept to full or tried: front {front}, rear {rear}."
)


def _share(share: SettledShare) -> str:
    if not share.trials:
        return tr("no trials yet")
    told = ntr("{count} trial", "{count} trials", share.trials)
    if share.says_little:
        told = tr("{trials}: says little yet", trials=told)
    return f"{fixed(share.share, 2)} ± {fixed(share.error, 2)} ({told})"


_NO_START: Final = msgid("The start cannot be put on: {reason}.")
_NO_BEST: Final = msgid("They cannot be put on: {reason}.")


def _too_much(said: str, mounts: Mounts) -> str:
    """That mounts cannot be set, and why; nothing where they can."""
    reason = obstacle(mounts)
    return tr(said, reason=reason) if reason else ""


def straight_words(needs: Needs) -> str:
    """The cross-check."""
    cant = need_words("cant", needs.straight_leg)
    return tr("By the rule for straight legs: {cant} for both.", cant=cant)


def range_words(found: RangeNeeds) -> str:
    """What the whole bend asks for, and what it gains."""
    if isnan(found.best.front_lift_deg):
        return tr("No mounts suit the whole bend: a leg cannot reach.")
    said = tr(
        _WITH_TURNING_HIPS if found.turn_deg else _BEND_ALONE,
        tallest=plain(found.tallest_deg, 0),
        deepest=plain(found.deepest_deg, 0),
        turn=plain(found.turn_deg, 0),
        now=_of_both(found.worst_now_deg),
        then=_of_both(found.worst_then_deg),
    )
    return f"{said} {_too_much(_NO_BEST, found.mounts)}".strip()


_WITH_TURNING_HIPS: Final = msgid(
    "Whole bend, {tallest}° to {deepest}° with hips turned up to {turn}°: "
    "out of plane by {now} at worst, with its best mounts by {then}."
)
_BEND_ALONE: Final = msgid(
    "Bend alone, {tallest}° to {deepest}° with the hips as they are: "
    "out of plane by {now} at worst, with its best mounts by {then}."
)


def _of_both(angles_deg: tuple[float, float]) -> str:
    front, rear = (plain(angle, 0) for angle in angles_deg)
    return tr("{front}° front and {rear}° rear", front=front, rear=rear)


def best_words(found: RangeNeeds) -> tuple[str, str]:
    """The best mounts of the bend, front and rear, and what each does to its knee."""
    if isnan(found.best.front_lift_deg):
        return range_words(found), ""
    worst = zip(found.worst_now_deg, found.worst_then_deg, strict=True)
    front, rear = (
        tr(
            "{mount}; worst {now}° → {then}°",
            mount=_mount_words(name, found.mounts),
            now=plain(now, 0),
            then=plain(then, 0),
        )
        for name, (now, then) in zip(("front", "rear"), worst, strict=True)
    )
    return front, rear


def margin_words(setup: Setup) -> str:
    """What the margins count, and what would make them smaller."""
    names = [within(FIELD[name].label) for name in unsaid(setup)]
    if not names:
        if boot_spreads_of(setup):
            return tr("± is one standard error of the measures of legs and boots.")
        return tr("± is one standard error of the leg measures.")
    return tr("± is one standard error; not measured yet: {names}.", names=listed(names))


def why_not(mounts: Mounts, setup: Setup) -> str:
    """Why a button cannot put these mounts on; empty where it can."""
    inputs = setup.inputs
    if all(getattr(inputs, name) == value for name, value in mounts._asdict().items()):
        return tr("They are on the mounts.")
    return as_sentence(obstacle(mounts))


def mounts_words(mounts: Mounts) -> str:
    """All four angles: "front 4.5° toe, 1.0° inward; rear ..."."""
    return "; ".join(_mount_words(name, mounts) for name in ("front", "rear"))


def _mount_words(name: str, mounts: Mounts) -> str:
    """The lift and the cant of one foot."""
    lift, cant = (getattr(mounts, f"{name}_{kind}_deg") for kind in ("lift", "cant"))
    flat, tilted = _MOUNTS[name]
    if _is_none(lift) and _is_none(cant):
        return tr(flat)
    return tr(tilted, lift=angle_words("lift", lift), cant=angle_words("cant", cant))


_MOUNTS: Final = {
    "front": (msgid("front flat"), msgid("front lift {lift}, cant {cant}")),
    "rear": (msgid("rear flat"), msgid("rear lift {lift}, cant {cant}")),
}
