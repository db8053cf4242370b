"""One elevation of a wedge: what is seen, what is hidden, and the heights at both ends."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from numpy.typing import NDArray

from app.drawing.marks import Area, Label, Line, Mark, Point, Span
from geometry.hardware.wedge_views import Elevation


def elevation_marks(
    key: str,
    seen: Elevation,
    place: Callable[[Point], Point],
    title: str,
    *,
    rises_away: bool,
    figure: Callable[[float], str],
) -> list[Mark]:
    """The marks of one elevation.

    Args:
        key: "side" or "end".
        seen: the wedge from there.
        place: from its points to those of the paper.
        title: what stands under it.
        rises_away: whether the top is seen from there, rather than its far edge hidden.
        figure: writes a height.
    """
    outline, rim = _points(seen.silhouette, place), _points(seen.rim, place)
    least, most = float(seen.silhouette[0, 0]), float(seen.silhouette[1, 0])
    return [
        Area(key, "part.face", outline),
        *(
            Line(f"{key}.hidden.{i + 1}", "part.hidden", _points(line, place))
            for i, line in enumerate(seen.hidden)
        ),
        Line(f"{key}.rim", "part.thin" if rises_away else "part.hidden", (*rim, rim[0])),
        Line(f"{key}.outline", "part", (*outline, outline[0])),
        Label(f"{key}.title", "word", place((0.5 * (least + most), 0.0)), title, 0, (0.0, 24.0)),
        *(
            _height(f"{key}.{end}", place, top, way, figure(top[1]))
            for end, top, way in (
                ("left", (least, float(seen.silhouette[-1, 1])), -1.0),
                ("right", (most, float(seen.silhouette[2, 1])), 1.0),
            )
        ),
    ]


def _height(key: str, place: Callable[[Point], Point], top: Point, way: float, text: str) -> Mark:
    """The height at one end, its dimension line outside."""
    return Span(key, "dimension", place((top[0], 0.0)), place(top), text, (way, 0.0), 1)


def _points(points: NDArray[Any], place: Callable[[Point], Point]) -> tuple[Point, ...]:
    return tuple(place((x, y)) for x, y in points.tolist())
