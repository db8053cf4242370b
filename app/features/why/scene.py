"""The reasoning drawn into the views: triangles, lines and arcs over what is there already."""

from __future__ import annotations

from collections.abc import Callable
from math import cos, hypot, isfinite, radians, sin
from typing import Final, TypeAlias

from app.drawing.above import plan_view
from app.drawing.along_foot import FootPaper
from app.drawing.front import front_view
from app.drawing.marks import Area, Dot, Label, Line, Mark, Point, Span
from app.drawing.projection import Space, along, mixed
from app.drawing.side import side_view
from app.drawing.solids import SOLE_LENGTH, Figure, figure_of
from app.features.why import model
from app.features.why.step import angle
from app.frame import Frame
from app.stance import topics
from app.stance.answer import Answer
from app.stance.topics import Asked
from app.words.language import tr

Marks: TypeAlias = dict[str, tuple[Mark, ...]]
"""What is drawn besides, by the key of the view."""
ARC: Final = 12
"""Pieces of an arc."""
UP: Final = (0.0, 0.0, 1.0)


def marks_of(frame: Frame, asked: Asked, answer: Answer | None) -> Marks:
    """What the reasoning draws into the views of a frame.

    Args:
        frame: as it stands.
        asked: what is asked about.
        answer: what to begin with there; None while it is not known.
    """
    leg, topic = asked
    if topic in topics.OF_ANSWER:
        return _of_answer(frame, asked, answer)
    if topic not in _WITHOUT_POSTURE and not frame.settled.posture.exists:
        return {}
    return _DRAWN[topic](frame, leg)


def _figure(frame: Frame, leg: str) -> Figure:
    posture = frame.settled.posture
    solved = posture.front if leg == "front" else posture.rear
    return figure_of(solved, frame.settled.inputs.leg(leg))


def _foot_key(leg: str) -> str:
    return f"{leg}_foot"


def _word(key: str, at: Point, text: str, align: int = 0, shift: Point = (0.0, 0.0)) -> Label:
    return Label(f"why.{key}", "why.word", at, text, align, shift)


def _middle(one: Point, other: Point) -> Point:
    return 0.5 * (one[0] + other[0]), 0.5 * (one[1] + other[1])


# From above


def _ends(frame: Frame) -> tuple[Space, Space]:
    """Binding centres of the rear and the front foot."""
    inputs = frame.settled.inputs
    half, aside = 0.5 * inputs.stance_length_mm, 0.5 * inputs.across_spacing_mm
    return (-half, aside, 0.0), (half, -aside, 0.0)


def _spacing(frame: Frame, _leg: str) -> Marks:
    """The triangle of stance length, binding angle and the feet's distance apart."""
    view, at, text = plan_view(frame.settled.inputs), model.spacing_of(frame), frame.lengths.text
    turned = radians(at.angle_deg)
    ahead = (sin(turned), cos(turned), 0.0)
    rear, front = _ends(frame)
    corner = along(rear, ahead, at.ahead)
    here, there, right = view.seen(rear), view.seen(front), view.seen(corner)
    marks: list[Mark] = [
        Area("why.triangle", "why.area", (here, right, there)),
        Line("why.long", "why.line", (here, there)),
        Span("why.apart", "why.span", right, there, text(at.apart, 0)),
    ]
    if abs(at.ahead) > _LEAST_SPAN:
        marks.append(Span("why.ahead", "why.span", here, right, text(at.ahead, 0)))
    if at.length > _LEAST_SPAN and not at.across and at.angle_deg:
        radius = 0.3 * at.length
        down = (-1.0, 0.0, 0.0)
        aside = (0.0, 1.0, 0.0)
        arc = [mixed(front, down, aside, radius, turned * i / ARC) for i in range(ARC + 1)]
        marks.append(Line("why.angle", "why.line", tuple(view.seen(p) for p in arc)))
        marks.append(_word("angle_is", view.seen(arc[ARC // 2]), angle(at.angle_deg)))
    if abs(at.ahead) > _LEAST_SPAN:
        marks.append(_long_side(frame, at, right))
    return {"above": tuple(marks)}


def _long_side(frame: Frame, at: model.Spacing, corner: Point) -> Label:
    """The length of the triangle's longest side: inside, as high as its corner, is most room."""
    rear, front = _ends(frame)
    whole = hypot(at.length, at.across)
    beside = along(rear, _unit(rear, front), at.ahead * at.ahead / whole)
    seen = plan_view(frame.settled.inputs).seen(beside)
    way = 1 if corner[0] >= seen[0] else -1
    if abs(at.apart * at.ahead) / whole < _LEAST_INSIDE:
        way = -way
    return _word("length", seen, frame.lengths.text(whole, 0), way, (9.0 * way, 4.0))


_LEAST_INSIDE: Final = 200.0
"""Height of a triangle within which its longest side's length has room (mm)."""
_LEAST_SPAN: Final = 8.0
"""Distances below this are too small to be dimensioned (mm)."""


def _unit(start: Space, end: Space) -> Space:
    x, y, z = (b - a for a, b in zip(start, end, strict=True))
    length = (x * x + y * y + z * z) ** 0.5
    return (x / length, y / length, z / length) if length else (1.0, 0.0, 0.0)


def _weight(frame: Frame, _leg: str) -> Marks:
    """The line between the bindings as a lever, and where the weight stands on it."""
    view, at = plan_view(frame.settled.inputs), model.weight_of(frame)
    if not isfinite(at.share):
        return {}
    rear, front = _ends(frame)
    middle = along(rear, _unit(rear, front), 0.5 * at.apart + at.along)
    mass = frame.settled.posture.mass_centre
    over = view.seen((float(mass[0]), float(mass[1]), 0.0))
    on = view.seen(middle)
    half = view.seen(along(rear, _unit(rear, front), 0.5 * at.apart))
    share = tr("{share} %", share=round(100.0 * at.share))
    return {
        "above": (
            Line("why.lever", "why.line", (view.seen(rear), view.seen(front))),
            Line("why.over", "why.thin", (over, on)),
            Dot("why.half", "why.dot", half, 2.5),
            Dot("why.on", "why.dot", on, 5.0),
            _word("share", on, share, 1, (12.0, 4.0)),
        )
    }


# From the front


def _rule(frame: Frame, leg: str) -> Marks:
    """The triangle of half the difference and the hip height."""
    inputs, rule = frame.settled.inputs, model.rule_of(frame, leg)
    view, text = front_view(inputs, frame.look), frame.lengths.text
    centre = _figure(frame, leg).centre
    turned, side = radians(rule.angle_deg), 1.0 if leg == "front" else -1.0
    outward = (side * cos(turned), -side * sin(turned), 0.0)
    natural = along(centre, outward, -rule.half)
    top = along(natural, UP, rule.hip)
    here, there, high = view.seen(centre), view.seen(natural), view.seen(top)
    outer = 1 if view.seen(outward)[0] >= 0.0 else -1
    return {
        "front": (
            Area("why.triangle", "why.area", (there, here, high)),
            Line("why.upright", "why.thin", (there, high)),
            Line("why.leg", "why.line", (here, high)),
            Line("why.half", "why.line", (there, here)),
            _word("cant", high, angle(rule.cant_deg), 0, (0.0, -6.0)),
            _word("hip", _middle(there, high), text(rule.hip, 0), -outer, (-7.0 * outer, 0.0)),
            _word("half_is", here, text(rule.half, 0), outer, (9.0 * outer, -2.0)),
        )
    }


def _knee(frame: Frame, leg: str) -> Marks:
    """The line from ankle to hip against the sole, what boot and ankle give, and what is left."""
    inputs, at, figure = frame.settled.inputs, model.solved_of(frame, leg), _figure(frame, leg)
    view, text = front_view(inputs, frame.look), frame.lengths.text
    ankle, hip = view.seen(figure.ankle), view.seen(figure.hip)
    inside = along(figure.hip, figure.hinge_axis, -at.miss)
    square = view.seen(along(figure.ankle, figure.sole_axes.up, at.up))
    outer = 1 if view.seen(figure.sole_axes.outer)[0] >= 0.0 else -1
    paper = FootPaper(figure, inputs.leg(leg), inputs.hand if leg == "front" else -inputs.hand)
    reach = figure.shank + 0.55 * figure.thigh
    cuff, given = (paper.at(paper.ankle, reach, lean) for lean in (figure.cuff_lean, figure.lean))
    normal = paper.at(paper.ankle, reach, 0.0)
    side = 1 if paper.outward > 0.0 else -1
    return {
        "front": (
            Line("why.square", "why.thin", (ankle, square)),
            Line("why.to_hip", "why.line", (ankle, hip)),
            Line("why.miss", "why.line", (view.seen(inside), hip)),
            _word("hip_lean", square, angle(at.hip_lean_deg), outer, (6.0 * outer, 0.0)),
            _word("miss_is", hip, text(abs(at.miss), 0), 0, (0.0, -12.0)),
        ),
        _foot_key(leg): (
            Line("why.normal", "why.thin", (paper.ankle, normal)),
            Line("why.cuff", "why.line", (paper.ankle, cuff)),
            Line("why.given", "why.line", (paper.ankle, given)),
            _word("cuff_is", paper.at(paper.ankle, 0.45 * reach, 0.0), angle(at.cuff_deg), side,
                  (22.0 * side, 0.0)),
            _word("given_is", paper.at(paper.ankle, 0.8 * reach, 0.0), _signed(at.given_deg), side,
                  (18.0 * side, 0.0)),
        ),
    }  # fmt: skip


def _signed(deg: float) -> str:
    return angle(deg) if deg < 0.0 else f"+{angle(deg)}"


def _hip(frame: Frame, leg: str) -> Marks:
    """How far the hip is spread and bent, beside its joint."""
    inputs, figure = frame.settled.inputs, _figure(frame, leg)
    views = {
        "front": front_view(inputs, frame.look),
        "side": side_view(inputs),
        "above": plan_view(inputs),
    }
    drawn: Marks = {}
    for each in model.movements_of(frame, leg):
        key = _SEEN[each.name]
        view, said = views[key], f"{tr(each.name)} {angle(each.angle_deg)}"
        hip = view.seen(figure.hip)
        if key == "above":
            drawn[key] = (Dot("why.hip", "why.dot", hip, 4.0),
                          _word("turned", hip, said, 0, (0.0, -14.0)))  # fmt: skip
            continue
        under = view.seen(along(figure.hip, UP, -0.7 * figure.thigh))
        drawn[key] = (
            Line("why.upright", "why.thin", (hip, under)),
            Line("why.thigh", "why.line", (hip, view.seen(figure.knee))),
            _word("moved", under, said, 0, (0.0, 14.0)),
        )
    return drawn


_SEEN: Final = {
    "flexion": "side",
    "extension": "side",
    "abduction": "front",
    "adduction": "front",
    "internal rotation": "above",
    "external rotation": "above",
}
"""In which view a movement of the hip is seen."""


# From the side


def _bend(frame: Frame, leg: str) -> Marks:
    """From ankle to hip, and the angle of the bend at the knee."""
    figure, view = _figure(frame, leg), side_view(frame.settled.inputs)
    at = model.solved_of(frame, leg)
    ankle, hip = view.seen(figure.ankle), view.seen(figure.hip)
    half = figure.boot_flex - 0.5 * figure.knee_flexion
    beside = mixed(figure.knee, figure.plane_up, figure.along, 0.42 * figure.thigh, half)
    reach = frame.lengths.text(at.reach, 0)
    return {
        "side": (
            Line("why.reach", "why.line", (ankle, hip)),
            _word("reach_is", _middle(ankle, hip), reach),
            _word("bend_is", view.seen(beside), angle(at.bend_deg), 0, (0.0, 4.0)),
        )
    }


def _boot(frame: Frame, leg: str) -> Marks:
    """The boot's flex from square to the sole, and the ends of its range."""
    figure, view = _figure(frame, leg), side_view(frame.settled.inputs)
    boot = model.flexed_of(frame, leg)

    def at(share: float, deg: float) -> Point:
        fan = (figure.ankle, figure.plane_up, figure.along)
        return view.seen(mixed(*fan, share * figure.shank, radians(deg)))

    ankle = view.seen(figure.ankle)
    arc = tuple(at(0.5, boot.flex_deg * i / ARC) for i in range(ARC + 1))
    ahead = 1 if at(1.0, 90.0)[0] >= ankle[0] else -1
    return {
        "side": (
            Line("why.square", "why.thin", (ankle, at(0.9, 0.0))),
            Line("why.low", "why.line", (ankle, at(0.62, boot.low_deg))),
            Line("why.high", "why.line", (ankle, at(0.62, boot.high_deg))),
            Line("why.flex", "why.line", arc),
            _word("low_is", at(0.66, boot.low_deg), angle(boot.low_deg), -ahead,
                  (-6.0 * ahead, 0.0)),
            _word("high_is", at(0.66, boot.high_deg), angle(boot.high_deg), ahead,
                  (8.0 * ahead, 8.0)),
            _word("flex_is", at(0.28, 0.0), angle(boot.flex_deg), -ahead, (-6.0 * ahead, 0.0)),
        )
    }  # fmt: skip


# What to begin with


def _of_answer(frame: Frame, asked: Asked, answer: Answer | None) -> Marks:
    if answer is None or not answer.foot(asked.leg).exists:
        return {}
    begin = answer.foot(asked.leg).begin
    if asked.topic == topics.CANT:
        return _cant(frame, asked.leg, begin.cant_deg)
    return _lift(frame, asked.leg, begin.lift_deg)


def _cant(frame: Frame, leg: str, cant_deg: float) -> Marks:
    """The slope of the sole with the cant on, beside how it lies now."""
    inputs = frame.settled.inputs
    half = 0.26 * SOLE_LENGTH * inputs.leg(leg).foot_length_mm
    outward = inputs.hand if leg == "front" else -inputs.hand
    slope = radians(cant_deg)
    across, high = half * cos(slope), half * sin(slope)
    low, top = (-outward * across, -high), (outward * across, high)
    level = ((-half, 0.0), (half, 0.0))
    word = _word("begin", top, angle(abs(cant_deg)), 0, (0.0, -8.0))
    return {
        _foot_key(leg): (
            Line("why.level", "why.thin", level),
            Line("why.begin", "why.line", (low, top)),
            word,
        )
    }


def _lift(frame: Frame, leg: str, lift_deg: float) -> Marks:
    """The slope along the foot with the lift on, beside how it lies now."""
    inputs, figure = frame.settled.inputs, _figure(frame, leg)
    view, turned = side_view(inputs), radians(getattr(inputs, f"{leg}_angle_deg"))
    half, slope = 0.62 * SOLE_LENGTH * inputs.leg(leg).foot_length_mm, radians(lift_deg)
    ahead = (sin(turned), cos(turned), 0.0)
    sloped = (cos(slope) * ahead[0], cos(slope) * ahead[1], sin(slope))
    heel, toe = (view.seen(along(figure.centre, sloped, way * half)) for way in (-1.0, 1.0))
    level = tuple(view.seen(along(figure.centre, ahead, way * half)) for way in (-1.0, 1.0))
    high = toe if lift_deg >= 0.0 else heel
    return {
        "side": (
            Line("why.level", "why.thin", level),
            Line("why.begin", "why.line", (heel, toe)),
            _word("begin_is", high, angle(abs(lift_deg)), 0, (0.0, -8.0)),
        )
    }


_WITHOUT_POSTURE: Final = frozenset({topics.SPACING, topics.RULE})
_DRAWN: Final[dict[str, Callable[[Frame, str], Marks]]] = {
    topics.SPACING: _spacing,
    topics.RULE: _rule,
    topics.KNEE: _knee,
    topics.BEND: _bend,
    topics.BOOT: _boot,
    topics.HIP: _hip,
    topics.WEIGHT: _weight,
}
