"""Files from which a wedge is made: STL to print it, DXF to mill, cut or drill it.

Both are in millimetres, whichever unit the rider chose, and their notes in English,
since they go to others.  An STL file has no units;
slicers take its figures as millimetres.  A DXF file says what it is in, and keeps
arcs and holes as true arcs and circles, which an STL file cannot.
"""

from __future__ import annotations

from io import StringIO
from math import tan
from pathlib import Path
from textwrap import wrap
from typing import TYPE_CHECKING, Any, Final

import numpy as np
from numpy.typing import NDArray

from app.features.wedge.words import CAUTION, MILLIMETRES, Part, facts
from app.files.safe_files import FileError, shown, write_atomically
from app.words.language import in_english, tr
from geometry.hardware.wedge_mesh import Mesh, wedge_mesh
from geometry.hardware.wedge_problems import wedge_problems
from geometry.hardware.wedge_views import Elevation, elevation

if TYPE_CHECKING:
    from ezdxf.layouts.layout import Modelspace

# Binary STL: 80 bytes for anything, the count, and 50 bytes for each triangle.
_TRIANGLE: Final = np.dtype(
    [("normal", "<f4", (3,)), ("corners", "<f4", (3, 3)), ("attribute", "<u2")]
)
_HEADER_BYTES: Final = 80

LAYERS: Final = {
    "OUTLINE": 7,
    "HOLES": 1,
    "RECESSES": 3,
    "AXES": 8,
    "ELEVATIONS": 7,
    "SOLID": 5,
    "NOTES": 8,
}
"""Layers of the DXF file and their colour numbers."""
_SIGNS: Final = str.maketrans({"⌀": "%%c", "°": "%%d", "\N{NO-BREAK SPACE}": " ", "−": "-"})
"""Signs that the letters of CAD programs may lack, as DXF files spell them."""
_GAP: Final = 40.0
"""Between the views in the DXF file (mm)."""
_TYPE: Final = 4.0
"""Height of its notes (mm)."""


def save_stl(path: Path, part: Part) -> None:
    """Write a wedge as a binary STL file.

    Raises:
        FileError: the wedge cannot be made, or the file cannot be written.
    """
    write_atomically(path, wedge_bytes(path, part))


def save_dxf(path: Path, part: Part) -> None:
    """Write a wedge as a DXF file.

    Raises:
        FileError: the wedge cannot be made, or the file cannot be written.
    """
    write_atomically(path, wedge_bytes(path, part))


def wedge_bytes(path: Path, part: Part) -> bytes:
    """A wedge as the bytes of the STL or the DXF file that a path's ending names.

    Raises:
        FileError: the wedge cannot be made.
    """
    _require_possible(path, part)
    if path.suffix.lower() == ".dxf":
        return dxf_bytes(part)
    with in_english():
        title = part.title
    return stl_bytes(wedge_mesh(part.wedge, part.outer_side), title)


def _require_possible(path: Path, part: Part) -> None:
    problems = MILLIMETRES.reasons(wedge_problems(part.wedge))
    if problems:
        raise FileError(
            tr("cannot save {file}: {reason}", file=shown(path), reason="; ".join(problems))
        )


def stl_bytes(mesh: Mesh, title: str) -> bytes:
    """A mesh as the bytes of a binary STL file.

    Args:
        mesh: in mm.
        title: for the header; nobody but people reads it.
    """
    triangles = np.zeros(len(mesh.triangles), _TRIANGLE)
    triangles["normal"] = mesh.normals
    triangles["corners"] = mesh.corners
    # A header that began with "solid" would make readers take the file for text.
    header = f"Kneeline, mm: {title}".encode("ascii", "replace")[:_HEADER_BYTES]
    count = np.array(len(triangles), "<u4")
    return header.ljust(_HEADER_BYTES) + count.tobytes() + triangles.tobytes()


def dxf_bytes(part: Part) -> bytes:
    """A wedge as the bytes of a DXF file: plan, two elevations, solid and notes.

    The plan lies at the origin, x ahead along the foot and y to its left; the
    solid stands on it.
    """
    # It takes a third of a second to load, which a start need not wait for.
    from ezdxf.filemanagement import new  # noqa: PLC0415
    from ezdxf.units import MM  # noqa: PLC0415

    document = new("R2010", units=MM)
    for name, colour in LAYERS.items():
        document.layers.add(name, color=colour)
    space = document.modelspace()
    _draw_plan(space, part)
    _draw_elevations(space, part)
    _draw_solid(space, wedge_mesh(part.wedge, part.outer_side))
    _write_notes(space, part)
    text = StringIO()
    document.write(text)
    return document.encode(text.getvalue())


def _draw_plan(space: Modelspace, part: Part) -> None:
    """Outline, holes and recesses as true arcs and circles, and the foot's axes."""
    hand, screws = part.outer_side, part.wedge.screws
    # The bulge of an arc is the tangent of a quarter of its angle.
    outline = []
    for corner in part.wedge.footprint.corners:
        bulge = hand * tan(0.25 * corner.turn) if corner.radius else 0.0
        outline.append((corner.start[0], hand * corner.start[1], bulge))
        if corner.radius:
            outline.append((corner.end[0], hand * corner.end[1], 0.0))
    space.add_lwpolyline(outline, format="xyb", close=True, dxfattribs={"layer": "OUTLINE"})
    for ahead, outer in screws.centres:
        at = (ahead, hand * outer)
        space.add_circle(at, 0.5 * screws.diameter, dxfattribs={"layer": "HOLES"})
        if screws.sunk:
            space.add_circle(at, screws.widest, dxfattribs={"layer": "RECESSES"})
    (back, low), (front, high) = part.wedge.footprint.bounds
    axes = (((back, 0.0), (front, 0.0)), ((0.0, hand * low), (0.0, hand * high)))
    for start, end in axes:
        space.add_line(start, end, dxfattribs={"layer": "AXES"})


def _draw_elevations(space: Modelspace, part: Part) -> None:
    """The wedge from the foot's right over the plan, and from the heel beside that."""
    hand = part.outer_side
    (_, low), (front, high) = part.wedge.footprint.bounds
    left = max(hand * low, hand * high)
    from_right = elevation(part.wedge, (1.0, 0.0))
    from_heel = elevation(part.wedge, (0.0, -hand))
    _draw_elevation(space, from_right, (0.0, left + _GAP))
    _draw_elevation(space, from_heel, (front + _GAP + left, left + _GAP))


def _draw_elevation(space: Modelspace, seen: Elevation, at: tuple[float, float]) -> None:
    for ring in (seen.silhouette, seen.rim):
        space.add_lwpolyline(_moved(ring, at), close=True, dxfattribs={"layer": "ELEVATIONS"})
    for line in seen.hidden:
        start, end = _moved(line, at)
        space.add_line(start, end, dxfattribs={"layer": "ELEVATIONS"})


def _moved(points: NDArray[Any], by: tuple[float, float]) -> list[tuple[float, float]]:
    return [(x, y) for x, y in (points + np.array(by)).tolist()]


def _draw_solid(space: Modelspace, mesh: Mesh) -> None:
    """The closed surface, its corners shared."""
    solid = space.add_mesh(dxfattribs={"layer": "SOLID"})
    with solid.edit_data() as data:
        data.vertices = mesh.points.tolist()
        data.faces = mesh.triangles.tolist()


def _write_notes(space: Modelspace, part: Part) -> None:
    """The heights at the corners; title, facts and caution under the plan."""
    (back, low), (_, high) = part.wedge.footprint.bounds
    hand = part.outer_side
    heights = zip(part.wedge.corner_spots, part.wedge.corner_heights, strict=True)
    notes = [((ahead, hand * outer), f"{height:.1f}") for (ahead, outer), height in heights]
    with in_english():
        texts = (part.title, *facts(part), CAUTION)
    lines = [line for text in texts for line in wrap(text, 90)]
    top = min(hand * low, hand * high) - _GAP
    notes += [((back, top - 1.6 * _TYPE * i), line) for i, line in enumerate(lines)]
    for at, text in notes:
        attributes = {"layer": "NOTES", "insert": at}
        space.add_text(text.translate(_SIGNS), height=_TYPE, dxfattribs=attributes)
