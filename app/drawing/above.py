"""From above: the board, the feet and their axes, the legs in plan."""

from __future__ import annotations

from math import cos, isnan, nan, radians, sin
from typing import Final, NamedTuple

from app.drawing.marks import (
    STEP,
    Area,
    Dot,
    Label,
    Line,
    Mark,
    Point,
    Scene,
    Span,
    Window,
    outward,
    window_around,
)
from app.drawing.projection import Space, View, along, hull
from app.drawing.solids import FOOTPRINT, SOLE_LENGTH, Figure
from app.rider.inputs import Inputs
from app.words.language import msgid, tr
from app.words.lengths import IN_MM, Lengths
from app.words.sentences import plain
from geometry import Stance, long_axes_apart, short_axes_apart

WAIST = 250.0
"""Width of the board as drawn at its waist (mm); it grows under wide spacings."""
SIDECUT = 0.00010
"""How the half width grows from the waist: per mm of distance squared."""
CLEAR = 18.0
"""Between the toes and the first dimension line (mm)."""
LEAST_SPAN = 8.0
"""Distances below this are not dimensioned (mm): there is nothing to see."""
FREE = 64.0
"""Between a limb and a dimension line whose figure stands on the limb's side (mm)."""
BARE = 55.0
"""Between a limb and a dimension line whose figure stands on the other side (mm)."""
HEEL = 0.55
"""How far behind the middle of a foot its angle is written, as a share of half the sole."""
HEEL_LABEL = 0.52
"""How far beside the foot's axis its angle is written, as a share of half the sole."""
BELOW_HEEL = 9.0
"""How far under that point a centred angle stands, clear of the sole (logical px)."""
OFF_ARROW = 5.0
"""How far beside it, away from the arrow of the dimension line ahead (logical px)."""
NAME = 185.0
"""What an angle and the figure beside it take in height (mm)."""
HEELS, TOES = 400.0, 400.0
"""What is shown at least on either side of the board's middle (mm)."""
LEAST_HALF = 300.0
"""What is shown at least ahead of the middle and behind it (mm)."""
STACK = 90.0
"""What the second dimension line and its figure take beyond the first (mm)."""
_ANGLES = {"front": msgid("front {angle}°"), "rear": msgid("rear {angle}°")}
"""What stands beside a heel."""
_LEADS = {
    "left": msgid(
        "From above: left foot in front, binding angles {front} and {rear} degrees, "
        "stance length {length}; the feet's long axes are {apart} apart, your natural "
        "spacing is {natural}."
    ),
    "right": msgid(
        "From above: right foot in front, binding angles {front} and {rear} degrees, "
        "stance length {length}; the feet's long axes are {apart} apart, your natural "
        "spacing is {natural}."
    ),
}
"""The plan in words, by the foot in front."""


class Balance(NamedTuple):
    """Where the weight stands.

    Attributes:
        centre: centre of mass (mm); nan without a posture.
        front_share: of the weight on the front foot; nan where it cannot be told.
    """

    centre: Space
    front_share: float


NO_BALANCE: Final = Balance((nan, nan, nan), nan)


def plan_view(inputs: Inputs) -> View:
    """The view from above, the nose up the paper."""
    return View(right=(0.0, inputs.hand, 0.0), up=(1.0, 0.0, 0.0), toward=(0.0, 0.0, 1.0))


def scene_above(
    inputs: Inputs,
    stance: Stance,
    figures: dict[str, Figure],
    states: dict[str, str],
    lengths: Lengths = IN_MM,
    *,
    balance: Balance = NO_BALANCE,
) -> Scene:
    """The plan view; ``figures`` and ``states`` by "front" and "rear"."""
    view = plan_view(inputs)
    plan = _Plan(inputs, stance, figures, view, lengths)
    half = outward(max(0.5 * inputs.stance_length_mm + 225.0, plan.top), STEP)
    marks = [*_board(half, inputs), *_base(figures, plan), *_dimensions(plan, figures)]
    for name in ("rear", "front"):
        marks += _foot(name, figures[name], plan)
    for name in ("rear", "front"):
        marks += _leg(name, figures[name], states[name], view)
    marks += [*_pelvis(figures, inputs, view), *_mass(balance, view, min(-half, plan.lowest))]
    window = window_around(marks, 4.0, STEP).joined(_least_window(inputs))
    return Scene("above", tr("From above"), window, tuple(marks), _words(inputs, plan))


def _least_window(inputs: Inputs) -> Window:
    """What is shown of every stance, so that the drawing keeps its scale from one to the next."""
    behind, before = (HEELS, TOES) if inputs.lead_foot == "left" else (TOES, HEELS)
    return Window(-behind, -LEAST_HALF, before, LEAST_HALF)


class _Plan:
    """The directions and distances that the plan's axes and dimensions share."""

    def __init__(
        self,
        inputs: Inputs,
        stance: Stance,
        figures: dict[str, Figure],
        view: View,
        lengths: Lengths,
    ) -> None:
        self.inputs = inputs
        self.lengths = lengths
        self.view = view
        angle = float(stance.mean_angle)
        self.ahead, self.aside = _directions(angle)
        self.long_apart = float(long_axes_apart(stance))
        self.short_apart = float(short_axes_apart(stance))
        self.toes = {end: 0.5 * SOLE_LENGTH * inputs.leg(end).foot_length_mm for end in figures}
        self.longest = max(self.toes.values())
        self.long_line = 0.5 * abs(self.short_apart) + self.longest + CLEAR
        self.top = (self.long_line + STACK) * abs(self.ahead[0])
        self.joints = [p for figure in figures.values() for p in _joints(figure)]
        self.short_line = -(0.5 * abs(self.long_apart) + 95.0)
        if self.shows_short:
            rear = (*figures["rear"].sole, *self.joints)
            beside = min(_part(self.aside, p) for p in rear)
            # The rear foot's angle stands beside its heel, in letters that stay upright.
            named = _part(self.aside, self.beside_heel("rear", figures["rear"])[1])
            height = NAME * self.ahead[1] ** 2
            # Of a foot turned more than the other they reach on towards the line.
            turned = max(0.0, sin(radians(inputs.rear_angle_deg) - angle))
            self.short_line = min(
                self.short_line, beside - FREE, named - height - 1.2 * NAME * turned
            )

    @property
    def shows_short(self) -> bool:
        """Whether the across axes stand far enough apart to be dimensioned."""
        return abs(self.short_apart) > 5.0 * LEAST_SPAN

    @property
    def lowest(self) -> float:
        """The lower end of the dimension line between the across axes, or the middle's height."""
        if not self.shows_short:
            return 0.0
        half = 0.5 * abs(self.short_apart)
        return min(self.at(way * half, self.short_line)[1] for way in (-1.0, 1.0))

    def beside_heel(self, name: str, figure: Figure) -> tuple[Space, Space]:
        """Where a foot's heel is, and the point beside it on the outer side."""
        ahead, aside = _directions(radians(getattr(self.inputs, f"{name}_angle_deg")))
        outward = HEEL_LABEL if name == "front" else -HEEL_LABEL
        heel = along(figure.centre, ahead, -HEEL * self.toes[name])
        return heel, along(heel, aside, outward * self.toes[name])

    def at(self, ahead: float, aside: float) -> Point:
        """A point so far ahead of the middle and to the front leg's side."""
        return self.view.seen(along(along((0.0, 0.0, 0.0), self.ahead, ahead), self.aside, aside))


def _joints(figure: Figure) -> tuple[Space, ...]:
    """The ends of a leg's bones, and where the hip would be in the hinge plane, if it stands."""
    if not figure.stands:
        return ()
    return figure.ankle, figure.knee, figure.hip, _hip_in_plane(figure)


def _hip_in_plane(figure: Figure) -> Space:
    return along(figure.hip, figure.hinge_axis, -figure.thigh * sin(figure.off_plane))


def _directions(angle: float) -> tuple[Space, Space]:
    """Unit vectors along a binding angle, and square to it to the front leg's side."""
    s, c = sin(angle), cos(angle)
    return (s, c, 0.0), (c, -s, 0.0)


def _board(half: float, inputs: Inputs) -> list[Mark]:
    """The board between two break lines, its centre line, nose and tail on the heels' side."""
    heels = -1 if inputs.lead_foot == "left" else 1
    waist = max(WAIST, abs(inputs.across_spacing_mm) + 150.0)
    stations = [half * i / 10.0 for i in range(-10, 11)]
    edge = [(0.5 * waist + SIDECUT * x * x, x) for x in stations]
    tip = edge[-1][0]
    other = [(-y, x) for y, x in reversed(edge)]
    outline = (*edge, *_break(tip, half, 1.0), *other, *_break(tip, -half, -1.0))
    return [
        Area("board", "board", tuple(outline)),
        Line("board.centre", "centre", ((0.0, -half - 14.0), (0.0, half + 14.0))),
        Label("board.nose", "word", (heels * tip, half), tr("nose"), heels, (6.0 * heels, 8.0)),
        Label("board.tail", "word", (heels * tip, -half), tr("tail"), heels, (6.0 * heels, -8.0)),
    ]


def _break(tip: float, at: float, way: float) -> list[Point]:
    """A zigzag from one edge to the other: the board goes on beyond the drawing."""
    zigzag = ((0.14, 0.0), (0.05, 13.0), (-0.05, -13.0), (-0.14, 0.0))
    return [(way * share * tip, at + rise) for share, rise in zigzag]


def _foot(name: str, figure: Figure, plan: _Plan) -> list[Mark]:
    """One sole with its long and its across axis produced to their dimension lines."""
    view, centre = plan.view, figure.centre
    degrees = getattr(plan.inputs, f"{name}_angle_deg")
    ahead, aside = _directions(radians(degrees))
    outline = _sole(name, figure, plan)
    behind = plan.toes[name] + 20.0
    to_long = plan.long_line + 10.0 - _part(plan.ahead, centre)
    to_short = plan.short_line - 10.0 - _part(plan.aside, centre)
    across = _produced(view, centre, aside, to_short, 100.0)
    return [
        Area(f"{name}.sole", f"{name}.sole", outline),
        Line(f"{name}.across_axis", f"{name}.across", across),
        Line(f"{name}.axis", f"{name}.axis", _produced(view, centre, ahead, -behind, to_long)),
        Dot(f"{name}.centre", f"{name}.centre", view.seen(centre), 2.5),
        _angle_label(name, figure, plan),
    ]  # fmt: skip


def _sole(name: str, figure: Figure, plan: _Plan) -> tuple[Point, ...]:
    """The outline of one sole."""
    ring = figure.sole_axes.ring(FOOTPRINT, 2.0 * plan.toes[name], 0.0)
    return tuple(plan.view.all_seen(ring))


def _angle_label(name: str, figure: Figure, plan: _Plan) -> Label:
    """The binding angle beside the heel on the outer side, clear of leg and dimensions."""
    degrees = getattr(plan.inputs, f"{name}_angle_deg")
    start, at = (plan.view.seen(p) for p in plan.beside_heel(name, figure))
    lean = (at[0] - start[0]) / (HEEL_LABEL * plan.toes[name])
    align = 0 if abs(lean) < 0.4 else (1 if lean > 0.0 else -1)
    # Upright of the foot's side the text needs room for its own height.
    aside, rise = 0.0, -8.0 * (at[1] - start[1]) / (HEEL_LABEL * plan.toes[name])
    if name == "rear" and plan.shows_short:
        # Words that began here would end at the arrow of the dimension line ahead of them.
        align, rise = 0, max(rise, BELOW_HEEL)
        aside = -OFF_ARROW * plan.view.right[1]
    text = tr(_ANGLES[name], angle=plain(degrees))
    return Label(f"{name}.angle", f"{name}.number", at, text, align, (aside, rise))


def _part(direction: Space, p: Space) -> float:
    return direction[0] * p[0] + direction[1] * p[1]


def _produced(view: View, centre: Space, way: Space, start: float, end: float) -> tuple[Point, ...]:
    return view.seen(along(centre, way, start)), view.seen(along(centre, way, end))


def _leg(name: str, figure: Figure, state: str, view: View) -> list[Mark]:
    """Shank and thigh in plan, the hinge plane's trace, and how far the hip misses it."""
    if not figure.stands:
        return []
    ankle, knee, hip = (view.seen(p) for p in (figure.ankle, figure.knee, figure.hip))
    in_plane = _hip_in_plane(figure)
    trace = _produced(view, in_plane, figure.along, -55.0, 130.0)
    return [
        Line(f"{name}.trace", f"trace.{state}", trace),
        Line(f"{name}.miss", f"miss.{state}", (view.seen(in_plane), hip)),
        Line(f"{name}.bones", f"{name}.plan", (ankle, knee, hip)),
        Dot(f"{name}.knee", f"{name}.joint.near", knee, 4.5),
    ]


def _pelvis(figures: dict[str, Figure], inputs: Inputs, view: View) -> list[Mark]:
    """The line between the hips and the way it faces."""
    front, rear = figures["front"].hip, figures["rear"].hip
    if not figures["front"].stands:
        return []
    facing, _ = _directions(radians(inputs.facing_deg))
    middle = along(along((0.0, 0.0, 0.0), front, 0.5), rear, 0.5)
    return [
        Line("facing", "facing", _produced(view, middle, facing, 0.0, 74.0)),
        Line("pelvis", "pelvis.plan", (view.seen(rear), view.seen(front))),
        Dot("front.hip", "hip", view.seen(front), 4.5),
        Dot("rear.hip", "hip", view.seen(rear), 4.5),
    ]


def _base(figures: dict[str, Figure], plan: _Plan) -> list[Mark]:
    """The outline around both soles, within which the weight has to stand."""
    rings = [_sole(name, figure, plan) for name, figure in figures.items()]
    return [Area("balance.base", "balance.base", tuple(hull([p for ring in rings for p in ring])))]


def _mass(balance: Balance, view: View, lowest: float) -> list[Mark]:
    """The centre of mass in the plan, and the share of the weight on the front foot.

    Limbs and dimensions leave no room beside the mass, so the share stands under all of
    them, which end at the height ``lowest`` (mm).
    """
    if isnan(balance.centre[0]):
        return []
    at = view.seen(balance.centre)
    dots: list[Mark] = [
        Dot("balance.mass", "balance.mass", at, 6.0),
        Dot("balance.point", "balance.point", at, 2.0),
    ]
    if isnan(balance.front_share):
        return dots
    share = tr("{share} % of the weight in front", share=round(100.0 * balance.front_share))
    return [*dots, Label("balance.share", "balance.word", (0.0, lowest), share, 0, (0.0, 13.0))]


def _dimensions(plan: _Plan, figures: dict[str, Figure]) -> list[Mark]:
    """Stance length, the distances of the axes, and where the legs hang."""
    marks: list[Mark] = [_neutral(plan), *_length(plan, figures), *_across(plan, figures)]
    half, at = 0.5 * plan.long_apart, plan.long_line
    if abs(plan.long_apart) > LEAST_SPAN:
        text = tr("feet {length}", length=plan.lengths.dimension(abs(plan.long_apart)))
        marks.append(Span("long_axes", "dimension", plan.at(at, half), plan.at(at, -half), text))
    half, at = 0.5 * plan.short_apart, plan.short_line
    if plan.shows_short:
        text = plan.lengths.dimension(abs(plan.short_apart))
        # A figure too wide for its line stands past its end: ahead, since the angle is behind.
        behind, ahead = plan.at(-abs(half), at), plan.at(abs(half), at)
        marks.append(Span("short_axes", "dimension", behind, ahead, text))
    return marks


def _neutral(plan: _Plan) -> Span:
    """Where the legs hang by themselves, beside where the feet stand."""
    at, half = plan.long_line, 0.5 * plan.inputs.neutral_spacing_mm
    text = tr("natural {length}", length=plan.lengths.dimension(plan.inputs.neutral_spacing_mm))
    out = plan.view.seen(plan.ahead)
    return Span("neutral", "dimension", plan.at(at, half), plan.at(at, -half), text, out, 1)


def _length(plan: _Plan, figures: dict[str, Figure]) -> list[Mark]:
    """The stance length, beside board and legs on the heel side."""
    if plan.inputs.stance_length_mm <= LEAST_SPAN:
        return []
    rear, front = (plan.view.seen(figures[name].centre) for name in ("rear", "front"))
    hand = plan.view.right[1]
    heels = plan.longest * max(abs(cos(radians(a))) for a in _angles(plan.inputs)) + 95.0
    # The figure stands at the left of its line, wherever the legs are.
    free = BARE if hand > 0.0 else FREE
    legs = max((free - hand * plan.view.seen(p)[0] for p in plan.joints), default=0.0)
    x = -hand * max(max(250.0, heels) + 0.5 * abs(plan.inputs.across_spacing_mm), legs)
    lines = [
        Line("length.projection", "projection", (c, (x - 8.0 * hand, c[1]))) for c in (rear, front)
    ]
    text = plan.lengths.dimension(plan.inputs.stance_length_mm)
    return [*lines, Span("length", "dimension", (x, rear[1]), (x, front[1]), text)]


def _angles(inputs: Inputs) -> tuple[float, float]:
    return inputs.front_angle_deg, inputs.rear_angle_deg


def _across(plan: _Plan, figures: dict[str, Figure]) -> list[Mark]:
    """The across spacing, behind feet and legs."""
    if abs(plan.inputs.across_spacing_mm) <= LEAST_SPAN:
        return []
    rear, front = (plan.view.seen(figures[name].centre) for name in ("rear", "front"))
    lowest = min((plan.view.seen(p)[1] for p in plan.joints), default=0.0)
    y = min(min(rear[1], front[1]) - plan.longest - 46.0, lowest - FREE)
    lines = [Line("across.projection", "projection", (c, (c[0], y - 8.0))) for c in (rear, front)]
    text = plan.lengths.dimension(abs(plan.inputs.across_spacing_mm))
    return [*lines, Span("across", "dimension", (rear[0], y), (front[0], y), text)]


def _words(inputs: Inputs, plan: _Plan) -> str:
    """The plan in words."""
    known = (inputs.stance_length_mm, abs(plan.long_apart), inputs.neutral_spacing_mm)
    stance, apart, natural = (plan.lengths.text(each, 0) for each in known)
    return tr(
        _LEADS[inputs.lead_foot],
        front=plain(inputs.front_angle_deg),
        rear=plain(inputs.rear_angle_deg),
        length=stance,
        apart=apart,
        natural=natural,
    )
