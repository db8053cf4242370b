"""What stands on the page beside the answer itself, in words."""

from __future__ import annotations

from math import degrees, isnan
from typing import Final

from app.features.answer.model import Told
from app.rider.inputs import FIELD, Inputs
from app.rider.setup import Setup, somebody
from app.rider.spreads import unsaid
from app.stance.answer import SHARES, FootAnswer, Mount
from app.stance.answer_words import both_words, mount_words, range_words, source_words
from app.stance.findings import Limits
from app.stance.needs import FootNeeds, Mounts, Need, Needs, mounts_now, obstacle
from app.stance.through import Legs, Through, most_out, through_of
from app.words.language import msgid, tr, within
from app.words.lengths import IN_MM, Lengths
from app.words.reasons import reason_phrase
from app.words.sentences import as_sentence, listed, plain
from app.words.units import fixed
from geometry.fitting.reserve import (
    FRONT_BOOT_BACK,
    FRONT_BOOT_FORWARD,
    FRONT_KNEE_BENT,
    NO_POSTURE,
    REAR_BOOT_BACK,
    REAR_BOOT_FORWARD,
    REAR_KNEE_BENT,
    Passed,
    Room,
)

BINDINGS: Final = {"front": msgid("Front binding"), "rear": msgid("Rear binding")}
LINES: Final = ("sink", "rise", "lean_ahead", "lean_back")
"""The ways in which a posture has something left, by their names in the geometry."""
_WAYS: Final = {
    "sink": msgid("sink"),
    "rise": msgid("rise"),
    "lean_ahead": msgid("weight ahead"),
    "lean_back": msgid("weight back"),
}
_ENDS: Final = {
    FRONT_BOOT_FORWARD: msgid("front boot at its front stop"),
    FRONT_BOOT_BACK: msgid("front boot at its rear stop"),
    REAR_BOOT_FORWARD: msgid("rear boot at its front stop"),
    REAR_BOOT_BACK: msgid("rear boot at its rear stop"),
    FRONT_KNEE_BENT: msgid("front knee fully bent"),
    REAR_KNEE_BENT: msgid("rear knee fully bent"),
    NO_POSTURE: msgid("no posture beyond"),
}
_PAST: Final = {
    FRONT_BOOT_FORWARD: msgid("front boot past its front stop"),
    FRONT_BOOT_BACK: msgid("front boot past its rear stop"),
    REAR_BOOT_FORWARD: msgid("rear boot past its front stop"),
    REAR_BOOT_BACK: msgid("rear boot past its rear stop"),
    FRONT_KNEE_BENT: msgid("front knee bent too far"),
    REAR_KNEE_BENT: msgid("rear knee bent too far"),
}
"""What is past its end already."""


def reserve_title(told: Told) -> str:
    """From which posture that is told: the one in hand, not the whole riding bend."""
    depth = plain(told.setup.inputs.knee_bend_deg)
    return tr("Room left at {depth}° of bend, now and with both on", depth=depth)


def reserve_words(told: Told, lengths: Lengths = IN_MM) -> list[tuple[str, str, str]]:
    """What is left to give: the way, how far now, and how far with the answer on."""
    if told.reserve is None:
        return []
    now, then = told.reserve
    rows = [
        (
            tr(_WAYS[name]),
            _room_words(getattr(now, name), lengths),
            _room_words(getattr(then, name), lengths),
        )
        for name in LINES
    ]
    return [*rows, (tr("sideways"), _side_words(now.side_give), _side_words(then.side_give))]


def _room_words(room: Room, lengths: Lengths) -> str:
    if isnan(room.distance):
        return tr("no posture")
    if room.passed:
        passed = listed([_passed_words(each, lengths) for each in room.passed])
        return tr("none: {end}", end=passed)
    if room.distance < 0.5 and room.end:
        return tr("none: {end}", end=tr(_ENDS[room.end]))
    if not room.end:
        return tr("over {length}", length=lengths.text(room.distance, 0))
    return f"{lengths.text(room.distance, 0)}: {tr(_ENDS[room.end])}"


def _passed_words(passed: Passed, lengths: Lengths) -> str:
    """What is past its end, and after how far it is back."""
    said = tr(_PAST[passed.end])
    if isnan(passed.back):
        return said
    back = lengths.text(passed.back, 0)
    return tr("{past} (back in range after {length})", past=said, length=back)


def _side_words(give: tuple[float, float]) -> str:
    if isnan(sum(give)):
        return tr("no posture")
    front, rear = (fixed(degrees(each), 1) for each in give)
    return tr("front {front}°, rear {rear}°", front=front, rear=rear)


def then_words(now: str, then: str) -> str:
    """What is left with the answer on, where that is something else."""
    return "" if then == now else tr("then {room}", room=then)


def example_words(setup: Setup) -> str:
    """That the legs are nobody's; empty once somebody has said who is riding."""
    if somebody(setup):
        return ""
    return tr("For the legs of an example: say who is riding, and this becomes your own.")


def share_words(told: Told) -> str:
    """The share of the weight on the front foot, now and with the answer on."""
    if told.share is None or isnan(told.share[0]):
        return ""
    now, then = (round(100.0 * share) if not isnan(share) else 0 for share in told.share)
    if now == then:
        return tr("{now} % of the weight on the front foot", now=now)
    return tr("{now} % of the weight on the front foot, then {then} %", now=now, then=then)


def brought_words(before: Setup, after: Setup, limits: Limits) -> str:
    """What was just put on did to both knees over the riding bend."""
    was, now = (
        through_of(each.inputs, limits, [mounts_now(each.inputs)])[0] for each in (before, after)
    )
    return worst_words(was, now, after.inputs)


def worst_words(before: Legs, after: Legs, inputs: Inputs) -> str:
    """What putting something on does to both knees over the riding bend.

    Args:
        before: both legs over the bend.
        after: with it on.
        inputs: that hold the bend.
    """
    low, high = plain(inputs.bend_from_deg), plain(inputs.bend_to_deg)
    return tr(
        "Knees at their worst from {low}° to {high}°: front {front}, rear {rear}.",
        low=low,
        high=high,
        front=_from_to(before.front, after.front),
        rear=_from_to(before.rear, after.rear),
    )


def _from_to(before: Through, after: Through) -> str:
    was, now = (
        tr("no posture") if isnan(each.worst_deg) else f"{fixed(most_out(each), 1)}°"
        for each in (before, after)
    )
    return f"{was} → {now}"


def alone_words(told: Told, foot: FootAnswer) -> str:
    """What is put on this foot alone, where that is something else; "" where it is the same."""
    if told.others is None or not foot.exists:
        return ""
    alone = told.others.alone[foot.name]
    return "" if alone == foot.begin else tr("on this foot alone: {mount}", mount=both_words(alone))


# How this is found


def details_words(told: Told, needs: Needs) -> list[tuple[str, str]]:
    """Headings and texts of all that stands behind the answer."""
    return [
        (tr("Front"), _foot_details(told.answer.front, needs.front)),
        (tr("Rear"), _foot_details(told.answer.rear, needs.rear)),
        (tr("Other shares of the weight"), _share_details(told)),
        (tr("How sure"), _sure_details(told)),
        (tr("What it rests on"), _rule_details(told)),
    ]


def _foot_details(foot: FootAnswer, needs: FootNeeds) -> str:
    if not foot.exists:
        return as_sentence(reason_phrase(foot.why_not))
    said = [
        tr("Lift: {range}.", range=range_words("lift", foot)),
        tr("Cant: {range}.", range=range_words("cant", foot)),
        in_plane_words(foot),
    ]
    said.append(whole_cant_words(foot))
    said.append(
        tr(
            "At the knee bend set now the whole cant is {cant}; the boot would be at rest with "
            "{lift}, which is no aim.",
            cant=_needed("cant", needs.full_cant),
            lift=_needed("lift", needs.full_lift),
        )
    )
    said.append(
        tr("By the rule for straight legs: {cant}.", cant=_needed("cant", needs.straight_leg))
    )
    return " ".join(filter(None, (*said, source_words(foot))))


def in_plane_words(foot: FootAnswer) -> str:
    """The cants with which the knee stays in its plane over the riding bend."""
    low, high = foot.in_plane
    if not low <= high:
        return tr("No cant keeps the knee in its plane at every depth.")
    return tr(
        "The knee stays in its plane with anything from {low} to {high}.",
        low=_exact("cant", low),
        high=_exact("cant", high),
    )


def whole_cant_words(foot: FootAnswer) -> str:
    """The cant that leaves boot and ankle nothing to give, and what that means."""
    return tr(
        "The whole cant, with which the hip is right in the knee's plane at the middle of the "
        "bend: {cant}.",
        cant=_exact("cant", foot.full_cant),
    )


def _exact(kind: str, deg: float) -> str:
    return mount_words(kind, round(deg, 1))


def _needed(kind: str, need: Need) -> str:
    return mount_words(kind, need.shown_deg if need.exists else need.deg)


def _share_details(told: Told) -> str:
    if told.others is None:
        return ""
    said = []
    for share in SHARES:
        mounts = told.others.shifted[share]
        front = round(100.0 * share)
        weight = f"{front}:{100 - front}"
        if isnan(sum(mounts)):
            said.append(tr("{weight}: the weight cannot be moved there.", weight=weight))
            continue
        said.append(
            tr(
                "{weight}: front {front}; rear {rear}.",
                weight=weight,
                front=both_words(Mount(*mounts[:2])),
                rear=both_words(Mount(*mounts[2:])),
            )
        )
    return " ".join(said)


def range_about() -> str:
    """What the ranges beside the answer are."""
    return tr("In brackets stands where two of three riders measured like this would be.")


def _sure_details(told: Told) -> str:
    said = [range_about()]
    names = [within(FIELD[name].label) for name in unsaid(told.setup)]
    if names:
        said.append(tr("Not measured yet: {names}.", names=listed(list(dict.fromkeys(names)))))
    return " ".join(said)


def _rule_details(told: Told) -> str:
    low, high = (plain(end, 0) for end in told.answer.bend)
    return tr(
        "Hips straight, every depth from {low}° to {high}° of bend. The lift is the smallest "
        "with which each boot keeps 1° to its stop at the middle of the bend; the cant is the "
        "smallest with which the knee stays within {limit}° of its plane at every depth, and "
        "never past the whole cant. Both are rounded to half a degree, away from flat.",
        low=low,
        high=high,
        limit=plain(told.answer.in_plane_deg),
    )


# Buttons


def why_not(mounts: Mounts, setup: Setup) -> str:
    """Why a button cannot put these mounts on; empty where it can."""
    inputs = setup.inputs
    if all(getattr(inputs, name) == value for name, value in mounts._asdict().items()):
        return tr("They are on the bindings.")
    return as_sentence(obstacle(mounts))


def mounts_words(mounts: Mounts) -> str:
    """All four angles: "front 1.0° inward, no lift; rear ..."."""
    front, rear = Mount(*mounts[:2]), Mount(*mounts[2:])
    return tr("front {front}; rear {rear}", front=both_words(front), rear=both_words(rear))
