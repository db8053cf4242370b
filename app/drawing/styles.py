"""How each role of a mark looks: the one table between scenes and painter."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache, partial
from typing import Final, NamedTuple, TypeVar

from app.drawing.theme import DASHED, HEAVY, LONG_DASH_DOT, SOLID, THICK, THIN, Theme, mixed
from app.stance.findings import DRIFTING, IN_PLANE, NO_POSTURE, OUT_OF_PLANE

_Made = TypeVar("_Made")


class Style(NamedTuple):
    """Pen, brush and type of a role; an empty colour draws nothing.

    ``size`` is the height of the type and ``weight`` its weight, in logical
    pixels and in the hundreds that fonts use.  ``jointed`` lines have a joint painted
    over each of their corners, ``cleared`` words stand among lines and take them away,
    and ``kept_in`` words stay within their view.
    """

    stroke: str = ""
    width: float = THIN
    dash: tuple[float, ...] = SOLID
    fill: str = ""
    text: str = ""
    size: float = 13.0
    weight: int = 400
    hatch: bool = False
    jointed: bool = False
    cleared: bool = False
    kept_in: bool = False


SMALL: Final = 12.5
TITLE: Final = 13.0
BIG: Final = 25.0


class ByRole(dict[str, _Made]):
    """What roles stand for, each made when first asked for: far quicker than a cache."""

    def __init__(self, make: Callable[[str], _Made]) -> None:
        super().__init__()
        self._make = make

    def __missing__(self, role: str) -> _Made:
        made = self[role] = self._make(role)
        return made


@cache
def book(theme: Theme) -> ByRole[Style]:
    """The styles of a theme by role.

    Raises:
        KeyError: no mark should have that role.
    """
    return ByRole(partial(style, theme))


def style(theme: Theme, role: str) -> Style:
    """The style of a role.

    Raises:
        KeyError: no mark should have that role.
    """
    first, _, rest = role.partition(".")
    if first in {"front", "rear"}:
        return _leg_style(theme, first, rest)
    if first in {"wedge", "trace", "miss"}:
        return _state_style(theme, first, rest)
    return _plain_styles(theme)[role]


def _plain_styles(theme: Theme) -> dict[str, Style]:
    ink, quiet, faint, paper = theme.ink, theme.quiet, theme.faint, theme.paper
    accent = theme.accent
    return {
        "board": Style(faint, THIN, fill=mixed(faint, paper, 0.12)),
        "plate": Style(faint, THIN, fill=mixed(faint, paper, 0.30)),
        "centre": Style(faint, THIN, LONG_DASH_DOT),
        "projection": Style(mixed(quiet, paper, 0.55), THIN),
        "dimension": Style(quiet, THIN, text=quiet, size=SMALL, weight=500),
        "facing": Style(ink, THIN, text=ink),
        "pelvis": Style(ink, HEAVY * 1.6),
        "pelvis.plan": Style(ink, HEAVY),
        "hip": Style(ink, THICK, fill=paper),
        "balance.base": Style(faint, THIN, DASHED),
        "balance.mass": Style(ink, THIN, fill=paper),
        "balance.point": Style(ink, THIN, fill=ink),
        "balance.word": Style(text=ink, size=SMALL, weight=500, cleared=True, kept_in=True),
        "word": Style(text=quiet, size=SMALL),
        "board.face": Style("", fill=mixed(faint, paper, 0.12)),
        "board.edge": Style(ink, THICK),
        "snow": Style(quiet, THICK),
        "snow.early": Style(accent, THICK),
        "snow.wanted": Style(quiet, THIN, DASHED),
        "reach": Style(quiet, THIN, text=ink, size=SMALL, weight=500),
        "reach.early": Style(accent, 1.4, text=theme.accent_text, size=SMALL, weight=600),
        "part": Style(ink, THICK, fill=mixed(faint, paper, 0.12)),
        "part.face": Style("", fill=mixed(faint, paper, 0.12)),
        "part.thin": Style(ink, THIN),
        "part.hidden": Style(quiet, THIN, DASHED),
        "part.hole": Style(ink, THICK, fill=paper),
        "part.corner": Style(ink, THIN, fill=ink),
        "part.word": Style(text=ink, size=SMALL),
        "part.title": Style(text=ink, size=15.0, weight=600),
        "body": Style(quiet, THIN, fill=mixed(faint, paper, 0.16)),
        "body.fill": Style("", fill=mixed(faint, paper, 0.16)),
        "body.line": Style(quiet, THIN),
        "body.boot": Style(quiet, THIN, fill=mixed(faint, paper, 0.30)),
        "body.sole": Style(quiet, THIN, fill=mixed(faint, paper, 0.60)),
        "body.floor": Style(ink, THICK),
        "bone": Style(quiet, THIN, fill=mixed(faint, paper, 0.16)),
        "bone.gap": Style(quiet, THIN, fill=paper),
        "bone.edge": Style(quiet, THIN, DASHED),
        "joint": Style(quiet, THIN, fill=quiet),
        "landmark": Style(
            theme.accent, THICK, fill=paper, text=theme.accent_text, size=SMALL, weight=600
        ),
        "plot.frame": Style(quiet, THIN),
        "plot.zero": Style(ink, THIN),
        "plot.band": Style("", fill=mixed(faint, paper, 0.22)),
        "plot.limit": Style(theme.accent_text, THIN, DASHED),
        "plot.now": Style(quiet, THIN, LONG_DASH_DOT),
        "why.area": Style("", fill=mixed(ink, paper, 0.10)),
        "why.line": Style(ink, THICK),
        "why.thin": Style(ink, THIN, DASHED),
        "why.span": Style(ink, THIN, text=ink, size=SMALL, weight=600),
        "why.word": Style(text=ink, size=SMALL, weight=600, cleared=True, kept_in=True),
        "why.dot": Style(ink, THIN, fill=ink),
        "ghost": Style(mixed(quiet, paper, 0.70), THIN, DASHED),
        "caution": Style(text=theme.accent_text, size=SMALL),
        "notice": Style(text=theme.accent_text, size=15.0, weight=600),
        "title": Style(text=quiet, size=TITLE, weight=500),
    }


def _leg_style(theme: Theme, name: str, part: str) -> Style:
    hue, words, paper = theme.leg(name), theme.leg_text(name), theme.paper
    far = mixed(hue, paper, 0.68 if theme.dark else 0.90)
    styles = {
        "limb.near": Style(mixed(hue, paper, 0.45), THIN, fill=mixed(hue, paper, 0.15)),
        "limb.far": Style(mixed(hue, paper, 0.30), THIN, fill=mixed(hue, paper, 0.08)),
        "bone.near": Style(hue, HEAVY, jointed=True),
        "bone.far": Style(far, HEAVY, jointed=True),
        "joint.near": Style(hue, THICK, fill=paper),
        "joint.far": Style(far, THICK, fill=paper),
        "plan": Style(hue, 3.0, jointed=True),
        "curve": Style(hue, THICK, SOLID if name == "front" else DASHED),
        "boot": Style(mixed(hue, paper, 0.50), THIN, fill=""),
        "sole": Style(hue, THIN, fill=mixed(hue, paper, 0.26)),
        "mount": Style(hue, THIN, fill=mixed(hue, paper, 0.55), hatch=True),
        "axis": Style(hue, THIN, LONG_DASH_DOT),
        "across": Style(mixed(hue, paper, 0.70), THIN, LONG_DASH_DOT),
        "centre": Style(hue, THIN, fill=hue),
        "thin": Style(mixed(hue, paper, 0.80), THIN),
        "fan": Style("", fill=mixed(hue, paper, 0.16)),
        "left": Style(mixed(hue, paper, 0.34), THIN),
        "path": Style(mixed(hue, paper, 0.80), THICK),
        "rest": Style(mixed(hue, paper, 0.55), THIN, LONG_DASH_DOT),
        "number": Style(text=words, size=13.5, weight=500, cleared=True),
        "word": Style(text=words, size=13.5, weight=500),
        "slope": Style(text=words, size=SMALL, kept_in=True),
        "true": Style(words, THIN, text=words, size=20.0, weight=600),
        "callout": Style(words, THIN, text=words, size=BIG, weight=600),
    }
    return styles[part]


def _state_style(theme: Theme, kind: str, state: str) -> Style:
    """The hinge plane's trace and the wedge: quiet in plane, loud out of it."""
    accent, quiet, paper = theme.accent, theme.quiet, theme.paper
    if state in {IN_PLANE, NO_POSTURE}:
        strokes = {"wedge": Style("", fill=mixed(quiet, paper, 0.35)),
                   "trace": Style(quiet, THIN, DASHED),
                   "miss": Style(quiet, THIN)}  # fmt: skip
        return strokes[kind]
    strength = {DRIFTING: 0.50, OUT_OF_PLANE: 0.92}[state]
    return {
        "wedge": Style(accent, THIN, fill=mixed(accent, paper, strength), hatch=state == DRIFTING),
        "trace": Style(theme.accent_text, THIN, DASHED),
        "miss": Style(accent, HEAVY),
    }[kind]
