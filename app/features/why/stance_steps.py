"""The steps that tell of the stance: the spacing of the feet, the rule, and the weight."""

from __future__ import annotations

from math import isfinite
from typing import Final

from app.features.why import model, sources
from app.features.why.step import Step, angle, half_degrees
from app.frame import Frame
from app.stance.answer_words import mount_words
from app.words.language import msgid, tr


def spacing_steps(frame: Frame, _leg: str) -> list[Step]:
    """How far apart the feet stand, seen along them."""
    at, text = model.spacing_of(frame), frame.lengths.text
    turned, apart, ahead = angle(at.angle_deg), text(at.apart, 0), text(at.ahead, 0)
    length, across, natural = text(at.length, 0), text(at.across, 0), text(at.natural, 0)
    if at.across:
        formula, symbols = (
            tr("feet apart = length · cos angle + across · sin angle"),
            "X = S · cos φ + B · sin φ",
        )
        filled = f"{length} · cos {turned} + {across} · sin {turned} = {apart}"
        beside, ahead_symbols = (
            tr("ahead = length · sin angle − across · cos angle"),
            "Y = S · sin φ − B · cos φ",
        )
        ahead_filled = f"{length} · sin {turned} − {across} · cos {turned} = {ahead}"
    else:
        formula, symbols = tr("feet apart = stance length · cos angle"), "X = S · cos φ"
        filled = f"{length} · cos {turned} = {apart}"
        beside, ahead_symbols = tr("ahead = stance length · sin angle"), "Y = S · sin φ"
        ahead_filled = f"{length} · sin {turned} = {ahead}"
    more = at.apart - at.natural
    return [
        Step(
            _bindings_words(at, length, across, turned),
            tr(
                "The distance X of the two long axes is the stance length S (and the across "
                "spacing B) projected on a line square to the mean foot axis φ: the frontal plane "
                "of the pelvis with the hips straight."
            ),
            formula,
            symbols,
            filled,
            tr(sources.TRIANGLE),
        ),
        Step(
            tr(
                "The other side of the same triangle: how far the front foot stands ahead of the "
                "rear one, the way the feet point."
            ),
            tr("The distance Y along the mean foot axis: the sagittal plane."),
            beside,
            ahead_symbols,
            ahead_filled,
            tr(sources.TRIANGLE),
        ),
        Step(
            _more_words(more, text(abs(more), 0), natural),
            tr(
                "Against the natural spacing N the hips are abducted by a positive difference and "
                "adducted by a negative one; hip, knee, ankle and boot share it with the slope of "
                "the sole."
            ),
            tr("difference = feet apart − natural spacing"),
            "X − N",
            f"{apart} − {natural} = {text(more, 0)}",
            tr(sources.MEASURED),
        ),
    ]


def _bindings_words(at: model.Spacing, length: str, across: str, turned: str) -> str:
    if at.across:
        return tr(
            "The bindings are {length} apart along the board and {across} across it. Your feet "
            "are turned by {angle} on average: seen along them, a part of either lies between "
            "the two.",
            length=length,
            across=across,
            angle=turned,
        )
    return tr(
        "The bindings are {length} apart along the board. Your feet are turned by {angle} on "
        "average, and seen along them only a part of that length lies between the two.",
        length=length,
        angle=turned,
    )


def _more_words(more: float, by: str, natural: str) -> str:
    if more >= 0.0:
        return tr(
            "Straight and relaxed, your legs stand {natural} apart: here they are spread by {by} "
            "more.",
            natural=natural,
            by=by,
        )
    return tr(
        "Straight and relaxed, your legs stand {natural} apart: here they are closed by {by}.",
        natural=natural,
        by=by,
    )


def rule_steps(frame: Frame, leg: str) -> list[Step]:
    """The rule for straight legs, for one foot."""
    rule, text = model.rule_of(frame, leg), frame.lengths.text
    natural = frame.settled.inputs.neutral_spacing_mm
    apart, half, hip = text(rule.apart, 0), text(rule.half, 0), text(rule.hip, 0)
    return [
        Step(
            tr(
                "Think of legs that stay straight. If both feet were turned as this one, by "
                "{angle}, they would stand {apart} apart. The difference to your natural "
                "spacing falls to the two legs in halves.",
                angle=angle(rule.angle_deg),
                apart=apart,
            ),
            tr(
                "The rigid limb is abducted about the hip by half the difference between the "
                "spacing X of the feet at this foot's own angle and the natural spacing N."
            ),
            tr("half = (feet apart − natural spacing) / 2"),
            "(X − N) / 2",
            f"({apart} − {text(natural, 0)}) / 2 = {half}",
            tr(sources.TRIANGLE),
        ),
        Step(
            tr(
                "Over the height of your hip this half makes a slope. Tilted by as much, the sole "
                "is square to the straight leg again."
            ),
            tr(
                "The sole is turned in the frontal plane of the foot by the abduction angle of a "
                "limb of length H, from the hip joint centre to the floor."
            ),
            tr("cant = atan(half / hip height)"),
            "κ = atan((X − N) / 2H)",
            f"atan({half} / {hip}) = {angle(rule.cant_deg)}",
            tr(sources.TRADE),
        ),
        Step(
            tr(
                "To half a degree: {cant}. The rule knows neither the bend of your knees nor your "
                "boots; how the bent leg fares stands under “Out of its plane”.",
                cant=mount_words("cant", half_degrees(rule.cant_deg)),
            ),
            tr(
                "To half a degree: {cant}. The rule takes the limb as one rigid segment: no knee, "
                "no ankle, no boot and no pelvis that settles.",
                cant=mount_words("cant", half_degrees(rule.cant_deg)),
            ),
        ),
    ]


_MIDDLE: Final = (
    msgid(
        "All parts of your body weighed together, their middle stands {along} from the "
        "middle of the bindings towards the front one."
    ),
    msgid(
        "All parts of your body weighed together, their middle stands {along} from the "
        "middle of the bindings towards the rear one."
    ),
)


def weight_steps(frame: Frame, _leg: str) -> list[Step]:
    """How the weight is shared out between the feet."""
    at, text = model.weight_of(frame), frame.lengths.text
    if not isfinite(at.share):
        return [
            Step(
                tr(
                    "Both bindings stand at one place, so the weight cannot be shared out between "
                    "them."
                )
            )
        ]
    along, apart = text(at.along, 0), text(at.apart, 0)
    if at.along < 0.0:
        along = f"({along})"
    return [
        Step(
            tr(
                _MIDDLE[at.along < 0.0],
                along=text(abs(at.along), 0),
            ),
            tr(
                "The centre of mass of feet, shanks, thighs and upper body, projected on the line "
                "between the binding centres."
            ),
            source=tr(sources.MASSES, source=sources.LEVA),
        ),
        Step(
            tr(
                "Halfway between the bindings each foot would carry one half; at the front "
                "binding the front foot would carry all."
            ),
            tr(
                "Share of the vertical force on the front foot, standing still, as on a lever of "
                "the length of the stance."
            ),
            tr("share = 1/2 + along / stance"),
            "½ + c / S",
            f"½ + {along} / {apart} = {round(100.0 * at.share)} %",
            tr(sources.TRIANGLE),
        ),
    ]
