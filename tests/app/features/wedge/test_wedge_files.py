"""Files of a wedge, read back by libraries that did not write them (the DXF file by its own)."""

from __future__ import annotations

import io
import math
from pathlib import Path

import ezdxf
import numpy as np
import pytest
import trimesh
from wedges import four_screws, wedge

from app.features.wedge.stl_dxf import save_dxf, save_stl, stl_bytes
from app.features.wedge.words import Part
from app.files.safe_files import FileError
from geometry.hardware.footprint import Footprint, rectangle
from geometry.hardware.screws import Screws
from geometry.hardware.wedge_mesh import wedge_mesh

SCREWS = four_screws(30.0, diameter=6.5, head_diameter=12.0, head_height=4.0)


def part(foot: str = "left", **wishes: object) -> Part:
    return Part("front", foot, wedge(**{"screws": SCREWS, "centre_height": 20.0, **wishes}))


def drawn(path: Path, part: Part) -> ezdxf.document.Drawing:
    save_dxf(path, part)
    return ezdxf.readfile(path)


def on_layer(document: ezdxf.document.Drawing, layer: str) -> list[ezdxf.entities.DXFEntity]:
    return list(document.modelspace().query(f'*[layer=="{layer}"]'))


def test_an_stl_file_reads_back_as_the_closed_solid(tmp_path: Path) -> None:
    path, asked = tmp_path / "wedge.stl", part()
    save_stl(path, asked)
    mesh = trimesh.load_mesh(path)
    assert mesh.is_watertight
    assert mesh.is_winding_consistent
    assert mesh.volume == pytest.approx(asked.wedge.volume, rel=1e-3)
    assert mesh.euler_number == 2 - 2 * 4
    assert mesh.bounds[0, 2] == 0.0


def test_the_planes_of_an_stl_file_stand_at_the_angles_asked_for(tmp_path: Path) -> None:
    path = tmp_path / "wedge.stl"
    save_stl(path, part(screws=Screws()))
    normals = trimesh.load_mesh(path).face_normals
    x, y, z = normals[normals[:, 2] > 0.5][0]
    along, across = math.degrees(math.atan2(-x, z)), math.degrees(math.atan2(-y, z))
    assert along == pytest.approx(3.0, abs=0.01)
    assert across == pytest.approx(6.0, abs=0.01)


def test_an_stl_file_has_the_bytes_of_the_format() -> None:
    mesh = wedge_mesh(part().wedge, 1.0)
    data = stl_bytes(mesh, "Wedge for the front foot (left)")
    assert len(data) == 84 + 50 * len(mesh.triangles)
    assert int.from_bytes(data[80:84], "little") == len(mesh.triangles)
    assert not data.startswith(b"solid")
    assert np.frombuffer(data[84:96], "<f4") == pytest.approx(mesh.normals[0], abs=1e-6)


def test_a_title_in_any_script_leaves_the_header_at_its_80_bytes() -> None:
    data = stl_bytes(wedge_mesh(part(screws=Screws()).wedge, 1.0), "Ярослав " * 30)
    assert trimesh.load_mesh(io.BytesIO(data), file_type="stl").is_watertight


def test_a_dxf_file_is_sound_and_in_millimetres(tmp_path: Path) -> None:
    document = drawn(tmp_path / "wedge.dxf", part())
    audit = document.audit()
    assert not audit.errors
    assert not audit.fixes
    assert document.units == ezdxf.units.MM


@pytest.mark.parametrize(("foot", "hand"), [("left", 1.0), ("right", -1.0)])
def test_holes_in_a_dxf_file_are_true_circles_in_their_places(
    tmp_path: Path, foot: str, hand: float
) -> None:
    document = drawn(tmp_path / "wedge.dxf", part(foot))
    for layer, radius in (("HOLES", 3.25), ("RECESSES", 6.0)):
        circles = on_layer(document, layer)
        assert {circle.dxf.radius for circle in circles} == {radius}
        found = np.array([(c.dxf.center.x, c.dxf.center.y) for c in circles])
        assert found == pytest.approx(np.array(SCREWS.centres) * (1.0, hand))


@pytest.mark.parametrize("foot", ["left", "right"])
def test_the_outline_in_a_dxf_file_has_true_arcs(tmp_path: Path, foot: str) -> None:
    shape = Footprint(((90.0, -50.0), (90.0, 30.0), (20.0, 20.0), (0.0, 60.0), (-80.0, 0.0)), 8.0)
    document = drawn(tmp_path / "wedge.dxf", part(foot, footprint=shape, screws=Screws()))
    (outline,) = on_layer(document, "OUTLINE")
    pieces = list(outline.virtual_entities())
    arcs = [piece for piece in pieces if piece.dxftype() == "ARC"]
    assert [arc.dxf.radius for arc in arcs] == pytest.approx([8.0] * 5)
    points = np.array([(p.x, p.y) for p in ezdxf.path.make_path(outline).flattening(1e-4)])
    x, y = points.T
    area = 0.5 * abs(np.dot(x, np.roll(y, -1)) - np.dot(y, np.roll(x, -1)))
    assert area == pytest.approx(shape.moments.area, rel=1e-4)


def test_the_solid_in_a_dxf_file_is_the_closed_one(tmp_path: Path) -> None:
    asked = part()
    (solid,) = on_layer(drawn(tmp_path / "wedge.dxf", asked), "SOLID")
    mesh = trimesh.Trimesh(list(solid.vertices), list(solid.faces), process=False)
    assert mesh.is_watertight
    assert mesh.volume == pytest.approx(asked.wedge.volume, rel=1e-3)


def test_a_dxf_file_carries_facts_and_caution(tmp_path: Path) -> None:
    notes = [n.plain_text() for n in on_layer(drawn(tmp_path / "wedge.dxf", part()), "NOTES")]
    said = " ".join(notes)
    assert "4 holes ⌀6.5" in said.replace("Ø", "⌀")
    assert "3.0° toe lift" in said
    assert "largest lift, cant and height that the makers" in said


def test_a_dxf_file_names_millimetres_in_its_notes(tmp_path: Path) -> None:
    notes = [n.plain_text() for n in on_layer(drawn(tmp_path / "wedge.dxf", part()), "NOTES")]
    assert any(note.startswith("Sizes in mm.") for note in notes)


def test_an_stl_file_names_millimetres_in_its_header(tmp_path: Path) -> None:
    save_stl(tmp_path / "wedge.stl", part())
    assert (tmp_path / "wedge.stl").read_bytes().startswith(b"Kneeline, mm: ")


def test_the_elevations_in_a_dxf_file_stand_clear_of_the_plan(tmp_path: Path) -> None:
    document = drawn(tmp_path / "wedge.dxf", part(footprint=rectangle(180.0, 110.0)))
    for line in document.modelspace().query('LWPOLYLINE[layer=="ELEVATIONS"]'):
        assert min(y for _, y, *_ in line.get_points()) > 55.0


@pytest.mark.parametrize("save", [save_stl, save_dxf])
def test_a_wedge_that_cannot_be_made_leaves_no_file(tmp_path: Path, save: object) -> None:
    path = tmp_path / "wedge.out"
    with pytest.raises(FileError, match=r"cannot save .*: hole 1 lies outside the footprint"):
        save(path, part(screws=Screws(((300.0, 0.0),))))  # type: ignore[operator]
    assert not path.exists()


def test_a_folder_that_is_not_there_is_told(tmp_path: Path) -> None:
    with pytest.raises(FileError, match="there is no such folder"):
        save_stl(tmp_path / "nowhere" / "wedge.stl", part())
