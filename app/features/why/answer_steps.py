"""The steps that lead to lift and cant of one foot's answer."""

from __future__ import annotations

from typing import Final

from app.features.why import sources
from app.features.why.step import Step, angle
from app.frame import Frame
from app.stance.answer import ALLOWED, BEGUN, GROWING, Answer, FootAnswer
from app.stance.answer_words import (
    boot_words,
    both_words,
    left_words,
    mount_words,
    range_words,
    source_words,
    why_words,
)
from app.stance.findings import REMEDY
from app.words.language import msgid, tr
from app.words.reasons import reason_sentence
from app.words.sentences import plain

_ROUNDED: Final = msgid("Rounded to half a degree, away from flat: {mount}.")


def _none(foot: FootAnswer) -> list[Step]:
    return [Step(f"{reason_sentence(foot.why_not)} {tr(REMEDY)}")]


def cant_steps(frame: Frame, answer: Answer, leg: str, rule_deg: float) -> list[Step]:
    """What leads to the cant of one foot."""
    foot = answer.foot(leg)
    if not foot.exists:
        return _none(foot)
    low, high = (plain(end, 0) for end in answer.bend)
    limit, middle = plain(answer.in_plane_deg), plain(0.5 * sum(answer.bend))
    first, last = foot.in_plane
    rule = mount_words("cant", round(2.0 * rule_deg) / 2.0)
    why = why_words(foot, answer, frame.setup.inputs, frame.lengths)
    return [
        Step(
            tr(
                "The rule for straight legs says: {rule}. From there to your bent legs in your "
                "boots:",
                rule=rule,
            ),
            tr("A rigid limb would want {rule}. The solved one, over the riding bend:", rule=rule),
            source=tr(sources.TRADE),
        ),
        Step(
            tr(
                "With {full} your hip would hang right in the plane of the knee at {middle}° of "
                "bend, and neither boot nor ankle would have to give.",
                full=_exact(foot.full_cant),
                middle=middle,
            ),
            tr(
                "Whole cant, both feet solved together with their lifts on: no wanted side give at "
                "{middle}° of mean knee flexion: {full}.",
                full=_exact(foot.full_cant),
                middle=middle,
            ),
            tr("cant with: hip − cuff = 0"),
            "τ*(κ) − τ₀ = 0",
            _exact(foot.full_cant),
            tr(sources.LEG),
        ),
        _interval(limit, (low, high), (first, last)),
        _chosen(foot, why),
        _sure("cant", foot),
    ]


def _interval(limit: str, bend: tuple[str, str], ends: tuple[float, float]) -> Step:
    low, high = bend
    if ends[0] <= ends[1]:
        said = tr(
            "From {first} to {last} the knee stays within {limit}° of its plane, however deep you "
            "stand from {low}° to {high}°.",
            first=_exact(ends[0]),
            last=_exact(ends[1]),
            limit=limit,
            low=low,
            high=high,
        )
    else:
        said = tr(
            "No cant keeps the knee within {limit}° of its plane at every depth from {low}° to "
            "{high}°; the one with the least worst depth is taken.",
            limit=limit,
            low=low,
            high=high,
        )
    joints = tr(
        "The cants at which |ε| keeps its limit of {limit}° over {low}° to {high}° of mean knee "
        "flexion, side give used up to its ends.",
        limit=limit,
        low=low,
        high=high,
    )
    filled = f"{angle(ends[0])} … {angle(ends[1])}" if ends[0] <= ends[1] else ""
    return Step(
        said,
        joints,
        tr("out of plane no more than {limit}°", limit=limit),
        f"|ε(κ)| ≤ {limit}°",
        filled,
        tr(sources.LEG),
    )


def _chosen(foot: FootAnswer, why: str) -> Step:
    """Which of them is proposed."""
    said = " ".join(filter(None, (why, _later("cant", foot))))
    if foot.trials:
        return Step(said, filled=mount_words("cant", foot.begin.cant_deg), source=tr(sources.OWN))
    return Step(
        said,
        "",
        tr("cant = nearest to flat of these"),
        "κ = min |κ|",
        tr(_ROUNDED, mount=mount_words("cant", foot.begin.cant_deg)),
        tr(sources.CHOICE),
    )


def _later(kind: str, foot: FootAnswer) -> str:
    """That one begins with less, and what it leads to; "" where it is all."""
    if getattr(foot, f"{kind}_held") not in {BEGUN, GROWING}:
        return ""
    later = getattr(foot.later, f"{kind}_deg")
    return tr("One begins with less: it leads to {later}.", later=mount_words(kind, later))


def lift_steps(frame: Frame, answer: Answer, leg: str) -> list[Step]:
    """What leads to the lift of one foot."""
    foot = answer.foot(leg)
    if not foot.exists:
        return _none(foot)
    own, middle = frame.setup.inputs.leg(leg), plain(0.5 * sum(answer.bend))
    play, rest = angle(own.flex_range_deg), angle(own.forward_lean_deg)
    allowed = [tr("More is not allowed.")] if foot.lift_held == ALLOWED else []
    left = [left_words(foot)] if not foot.boot_enough else []
    return [
        Step(
            tr("On flat soles the boot has: {boot}.", boot=boot_words(foot.flat, answer)),
            tr(
                "Dorsiflexion of the boot on flat soles over the riding bend: {boot}.",
                boot=boot_words(foot.flat, answer),
            ),
            tr("left = play − |flex − rest|"),
            "r − |θ − β|",
            f"{play} − |θ − {rest}|",
            tr(sources.TYPED),
        ),
        _chosen_lift(foot, why_words(foot, answer, frame.setup.inputs, frame.lengths), middle),
        Step(
            " ".join(
                (
                    tr(
                        "With it on ({mount}) the boot has: {boot}.",
                        mount=both_words(foot.begin),
                        boot=boot_words(foot.then, answer),
                    ),
                    *allowed,
                    *left,
                    *filter(None, [_later("lift", foot)]),
                )
            ),
        ),
        _sure("lift", foot),
    ]


def _chosen_lift(foot: FootAnswer, why: str, middle: str) -> Step:
    """Which lift is proposed."""
    if foot.lift_trials:
        return Step(why, filled=mount_words("lift", foot.begin.lift_deg), source=tr(sources.OWN))
    return Step(
        tr(
            "The smallest slope along the foot is taken with which the boot keeps 1° to its "
            "stop at {middle}° of bend, with the other foot's lift and both cants on.",
            middle=middle,
        ),
        tr(
            "The lift λ nearest zero that keeps the boot within its range less 1° at "
            "{middle}° of mean knee flexion.",
            middle=middle,
        ),
        tr("left of the boot at least 1°"),
        "|θ(λ) − β| ≤ r − 1°",
        tr(_ROUNDED, mount=mount_words("lift", foot.begin.lift_deg)),
        tr(sources.CHOICE),
    )


def _sure(kind: str, foot: FootAnswer) -> Step:
    said = tr(
        "How sure: {range}. In brackets stands where two of three riders measured like this would "
        "be.",
        range=range_words(kind, foot),
    )
    return Step(
        " ".join(filter(None, (said, source_words(foot) if kind == "cant" else ""))),
        source=tr("Errors of all measurements together, some 4,000 draws."),
    )


def _exact(deg: float) -> str:
    return mount_words("cant", round(deg, 1))
