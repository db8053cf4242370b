"""What each binding needs, in words; nothing finer than half a degree."""

from __future__ import annotations

from math import isnan
from typing import Final

from app.inputs import FIELD
from app.setup import Setup
from app.tools.needs import STEP_DEG, FootNeeds, Mounts, Need, Needs, obstacle
from app.tools.range_needs import RangeNeeds
from app.tools.spreads import unsaid
from geometry.fitting.shares import SettledShare

WAYS: Final = {"cant": ("inward", "outward"), "lift": ("toe", "heel")}
"""What the sign of a cant and of a lift means."""
NONE: Final = "none"
NO_ANSWER: Final = "–"


def angle_words(kind: str, deg: float) -> str:
    """A cant or a lift in half degrees: "4.5° inward", "none"."""
    if isnan(deg):
        return NO_ANSWER
    if abs(deg) < STEP_DEG / 2.0:
        return NONE
    return f"{abs(deg):.1f}° {WAYS[kind][deg < 0.0]}"


def need_words(kind: str, need: Need) -> str:
    """A needed cant or lift with its margin: "4.5° ± 0.5° inward", "none ± 0.5°"."""
    if not need.exists:
        return NO_ANSWER
    figure, _, way = angle_words(kind, need.shown_deg).partition(" ")
    return f"{figure} ± {need.shown_margin_deg:.1f}° {way}".rstrip()


def verdict_words(needs: Needs) -> str:
    """What to make of the cants, for each foot, or for both where they agree."""
    said = {foot.name: _cant_verdict(foot) for foot in needs.feet}
    if said["front"] == said["rear"]:
        return f"Both feet: {said['front']}."
    return " ".join(f"{name.capitalize()}: {words}." for name, words in said.items())


def _cant_verdict(foot: FootNeeds) -> str:
    if foot.no_cant:
        return f"no cant, since {foot.no_cant}"
    least, full = foot.least_cant.shown_deg, foot.full_cant.shown_deg
    if not least:
        return "no cant needed"
    if full == least:
        return angle_words("cant", full)
    return (
        f"{angle_words('cant', least)} is enough, at {abs(full):.1f}° boot and ankle give nothing"
    )


def lift_words(needs: Needs) -> str:
    """What to make of the lifts."""
    foot = needs.front
    if foot.no_lift:
        return f"No lift, since {foot.no_lift}."
    if not foot.least_lift.shown_deg:
        return "No lift needed: both boots stay in their range."
    lift = abs(foot.least_lift.shown_deg)
    front, rear = WAYS["lift"] if foot.least_lift.deg > 0.0 else WAYS["lift"][::-1]
    return (
        f"From about {lift:.1f}° {front} lift in front and {rear} lift behind, "
        "both boots stay in their range."
    )


def start_words(needs: Needs) -> str:
    """Where the start values come from, where that is not the least end."""
    front, rear = (foot.share for foot in needs.feet)
    if isnan(needs.start.front_lift_deg):
        return ""
    said = ""
    if front.trials or rear.trials:
        shares = f"front {_share(front)}, rear {_share(rear)}"
        said = f"The start is your own share of full cant: {shares}."
    return f"{said} {_too_much('The start', needs.start)}".strip()


def _share(share: SettledShare) -> str:
    if not share.trials:
        return "no trials yet"
    return f"{share.share:.2f} ± {share.error:.2f} ({share.words})"


def _too_much(what: str, mounts: Mounts) -> str:
    """That mounts cannot be set, and why; nothing where they can."""
    reason = obstacle(mounts)
    return f"{what} cannot be put on: {reason}." if reason else ""


def straight_words(needs: Needs) -> str:
    """The cross-check."""
    return f"By the rule for straight legs: {need_words('cant', needs.straight_leg)} for both."


def range_words(found: RangeNeeds) -> str:
    """What the whole bend asks for, and what it gains."""
    if isnan(found.best.front_lift_deg):
        return "No mounts suit the whole bend: a leg cannot reach."
    hips = f"hips turned up to {found.turn_deg:.0f}°" if found.turn_deg else "the hips as they are"
    which = "Whole bend" if found.turn_deg else "Bend alone"
    now, then = (
        f"{worst[0]:.0f}° front and {worst[1]:.0f}° rear"
        for worst in (found.worst_now_deg, found.worst_then_deg)
    )
    said = (
        f"{which}, {found.tallest_deg:.0f}° to {found.deepest_deg:.0f}° with {hips}: "
        f"out of plane by {now} at worst, with its best mounts by {then}."
    )
    return f"{said} {_too_much('They', found.mounts)}".strip()


def best_words(found: RangeNeeds) -> tuple[str, str]:
    """The best mounts of the bend, front and rear, and what each does to its knee."""
    if isnan(found.best.front_lift_deg):
        return range_words(found), ""
    worst = zip(found.worst_now_deg, found.worst_then_deg, strict=True)
    front, rear = (
        f"{mounted}; worst {now:.0f}° → {then:.0f}°"
        for mounted, (now, then) in zip(mounts_words(found.mounts).split("; "), worst, strict=True)
    )
    return front, rear


def margin_words(setup: Setup) -> str:
    """What the margins count, and what would make them smaller."""
    names = [FIELD[name].label.lower() for name in unsaid(setup)]
    if not names:
        return "± is one standard error of the leg measures."
    listed = " and ".join(filter(None, (", ".join(names[:-1]), names[-1])))
    return f"± is one standard error; not measured yet: {listed}."


def why_not(mounts: Mounts, setup: Setup) -> str:
    """Why a button cannot put these mounts on; empty where it can."""
    inputs = setup.inputs
    if all(getattr(inputs, name) == value for name, value in mounts._asdict().items()):
        return "They are on the mounts."
    reason = obstacle(mounts)
    return f"{reason[:1].upper()}{reason[1:]}." if reason else ""


def mounts_words(mounts: Mounts) -> str:
    """All four angles: "front 4.5° toe, 1.0° inward; rear ..."."""
    feet = []
    for name in ("front", "rear"):
        lift = angle_words("lift", getattr(mounts, f"{name}_lift_deg"))
        cant = angle_words("cant", getattr(mounts, f"{name}_cant_deg"))
        both = "flat" if lift == cant == NONE else f"lift {lift}, cant {cant}"
        feet.append(f"{name} {both}")
    return "; ".join(feet)
