"""Both legs, boots, hinge planes and the board as seen from any side.

Each body is the silhouette of a convex solid.  What is nearer is painted later: one leg after
the other by where their shanks stand, and within a leg in an order that no sorting by centres
finds, since a shank runs through its boot: the boot from the sole up, the shank, its cuff, and
the thigh before or behind them.
"""

from __future__ import annotations

from math import cos, pi, radians, sin
from typing import Final, NamedTuple

from app.drawing.front import pelvis_marks
from app.drawing.leg_marks import bone_marks, limb_marks, wedge_marks
from app.drawing.marks import Area, Label, Line, Mark, Scene, Window, outward
from app.drawing.projection import Space, View, along
from app.drawing.solids import PLATE_DEPTH, Figure, figure_of
from app.frame import Frame
from app.rider.inputs import Inputs
from app.words.language import msgid, tr
from app.words.sentences import plain

LOWEST_DEG: Final = -30.0
HIGHEST_DEG: Final = 90.0
"""How far from below and from above one can look (degrees)."""
BOARD_DEPTH: Final = 10.0
HALF_WAIST: Final = 125.0
"""Half of the board's width as drawn, and its thickness (mm)."""
BEYOND: Final = 225.0
"""How far the board goes on beyond a binding (mm)."""
_DISC: Final = tuple((cos(i * pi / 8.0), sin(i * pi / 8.0)) for i in range(16))
_FEET: Final = {"front": msgid("front"), "rear": msgid("rear")}


class Look(NamedTuple):
    """From where one looks.

    Attributes:
        around_deg: round the rider, 0 from before along the facing, 90 from the side of the
            nose.
        above_deg: how far from above, 0 level.
    """

    around_deg: float
    above_deg: float

    def turned(self, around_deg: float, above_deg: float) -> Look:
        """The look after so much more of both, from no lower or higher than one can."""
        return Look(
            (self.around_deg + around_deg + 180.0) % 360.0 - 180.0,
            min(max(self.above_deg + above_deg, LOWEST_DEG), HIGHEST_DEG),
        )


HOME: Final = Look(35.0, 18.0)
"""From where one looks at first."""


def standard_looks(inputs: Inputs) -> dict[str, Look]:
    """The looks of the other views, by their names; the plan has the nose at its top."""
    return {
        "front": Look(0.0, 0.0),
        "side": Look(-90.0, 0.0),
        "above": Look((-90.0 - inputs.facing_deg + 180.0) % 360.0 - 180.0, 90.0),
        "nose": Look(90.0, 0.0),
        "behind": Look(-180.0, 0.0),
        "home": HOME,
    }


def view_of(inputs: Inputs, look: Look) -> View:
    """The way of looking in the axes of the geometry."""
    around, above = radians(inputs.facing_deg + look.around_deg), radians(look.above_deg)
    s, c, up, level = sin(around), cos(around), sin(above), cos(above)
    return View(
        right=(inputs.hand * c, -inputs.hand * s, 0.0),
        up=(-up * s, -up * c, level),
        toward=(level * s, level * c, up),
    )


def figures_of(frame: Frame) -> dict[str, Figure]:
    """The bodies of both legs as they stand."""
    inputs, posture = frame.settled.inputs, frame.settled.posture
    return {
        "front": figure_of(posture.front, inputs.front),
        "rear": figure_of(posture.rear, inputs.rear),
    }


def scene_orbit(frame: Frame, figures: dict[str, Figure], look: Look) -> Scene:
    """Both legs as seen from a look; the window has one size, however one turns."""
    inputs = frame.settled.inputs
    view = view_of(inputs, look)
    board = _board(inputs, view)
    # Behind all else: they would hide the other leg, and are there to be seen past.
    planes = [_plane(name, each, view) for name, each in figures.items() if each.stands]
    legs = [
        mark
        for name in sorted(figures, key=lambda name: view.nearness(_stand(figures[name])))
        for mark in _leg(name, figures[name], frame, view)
    ]
    over = pelvis_marks(figures, view) if figures["front"].stands else []
    solids = [*board, *planes, *legs] if look.above_deg >= 0.0 else [*planes, *legs, *board]
    marks = [*solids, *over]
    marks += _names(figures, view)
    title = tr("All round")
    return Scene("orbit", title, _window(inputs, view), tuple(marks), _words(frame, look))


def _stand(figure: Figure) -> Space:
    """Where a leg stands: the middle of its shank, or of its sole without a posture."""
    if not figure.stands:
        return figure.centre
    (ax, ay, az), (kx, ky, kz) = figure.ankle, figure.knee
    return 0.5 * (ax + kx), 0.5 * (ay + ky), 0.5 * (az + kz)


def _board(inputs: Inputs, view: View) -> list[Mark]:
    """The board as a slab with its middle line."""
    half = 0.5 * inputs.stance_length_mm + BEYOND
    wide = max(HALF_WAIST, 0.5 * abs(inputs.across_spacing_mm) + 75.0)
    plan = [
        (x * half, y * wide)
        for x, y in ((1.0, 0.0), (0.96, 0.55), (0.88, 0.9), (0.78, 1.0))
        for x, y in ((x, y), (x, -y), (-x, y), (-x, -y))
    ]
    corners = [(x, y, -PLATE_DEPTH - deep) for x, y in plan for deep in (0.0, BOARD_DEPTH)]
    marks: list[Mark] = [Area("board", "board", view.outline(corners))]
    if view.toward[2] > 0.0:
        ends = [(way * half, 0.0, -PLATE_DEPTH) for way in (-1.0, 1.0)]
        marks.append(Line("board.centre", "centre", tuple(view.all_seen(ends))))
    for way, text in ((1.0, tr("nose")), (-1.0, tr("tail"))):
        tip = view.seen((way * (half + 45.0), 0.0, -PLATE_DEPTH))
        marks.append(Label(f"board.{way:+.0f}", "word", tip, text, 0, (0.0, 4.0)))
    return marks


def _leg(name: str, figure: Figure, frame: Frame, view: View) -> list[Mark]:
    """One leg from back to front."""
    boot = _boot(name, figure, view)
    if not figure.stands:
        return boot
    leg, state = frame.settled.inputs.leg(name), frame.findings.legs[name].state
    shank, thigh, cuff = limb_marks(name, figure, leg, view, "near")
    lower = [*boot, shank, cuff] if view.toward[2] >= 0.0 else [cuff, shank, *boot]
    thigh_first = view.nearness(figure.hip) < view.nearness(figure.ankle)
    solids = [thigh, *lower] if thigh_first else [*lower, thigh]
    return [
        *solids,
        *wedge_marks(name, figure, state, view),
        *bone_marks(name, figure, view, "near"),
    ]


def _boot(name: str, figure: Figure, view: View) -> list[Mark]:
    """Plate, sloped part, sole and lower boot, from the board up or from the top down."""
    marks: list[Mark] = [Area(f"{name}.plate", "plate", view.outline(_disc(figure)))]
    if figure.mount:
        marks.append(Area(f"{name}.mount", f"{name}.mount", view.outline(figure.mount)))
    marks += [
        Area(f"{name}.sole", f"{name}.sole", view.outline(figure.sole)),
        Area(f"{name}.shell", f"{name}.boot", view.outline(figure.shell)),
    ]
    return marks if view.toward[2] >= 0.0 else marks[::-1]


def _disc(figure: Figure) -> list[Space]:
    """The level plate under the sloped part."""
    (x, y, _), radius = figure.centre, figure.plate_radius
    return [
        (x + radius * c, y + radius * s, level)
        for c, s in _DISC
        for level in (-PLATE_DEPTH, figure.plate_top)
    ]


def _plane(name: str, figure: Figure, view: View) -> Mark:
    """The hinge plane of a knee: as wide as a foot, from the ankle to over the hip."""
    high, wide = figure.shank + figure.thigh, 0.5 * figure.thigh
    corners = [
        along(along(figure.ankle, figure.along, ahead), figure.plane_up, up)
        for ahead, up in ((-wide, 0.0), (wide, 0.0), (wide, high), (-wide, high))
    ]
    return Area(f"{name}.plane", f"{name}.fan", tuple(view.all_seen(corners)))


def _names(figures: dict[str, Figure], view: View) -> list[Mark]:
    """Which leg is which, beside each sole on the side away from the other."""
    soles = {name: view.all_seen(figure.sole) for name, figure in figures.items()}
    middles = {name: sum(x for x, _ in sole) / len(sole) for name, sole in soles.items()}
    marks: list[Mark] = []
    for name, other in (("front", "rear"), ("rear", "front")):
        way = 1 if middles[name] >= middles[other] else -1
        at = max(soles[name], key=lambda point: way * point[0])
        marks.append(
            Label(f"{name}.name", f"{name}.number", at, tr(_FEET[name]), way, (10.0 * way, 4.0))
        )
    return marks


def _window(inputs: Inputs, view: View) -> Window:
    """Room for rider and board from every side, about the middle of both."""
    top = inputs.highest_hip_mm
    half = outward(max(0.5 * top + 150.0, 0.5 * inputs.stance_length_mm + BEYOND + 60.0), 50.0)
    x, y = view.seen((0.0, 0.0, 0.42 * top))
    return Window(x - half, y - half, x + half, y + half)


def _words(frame: Frame, look: Look) -> str:
    """The picture in words."""
    return tr(
        "Both legs, {around}° round from the front and {above}° from above: {findings}.",
        around=plain(look.around_deg, 0),
        above=plain(look.above_deg, 0),
        findings="; ".join(leg.headline for leg in frame.findings.legs.values()),
    )
