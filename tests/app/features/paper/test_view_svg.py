"""Each view as SVG, read back by Python's own XML parser."""

from __future__ import annotations

from xml.etree import ElementTree

import pytest
from PySide6.QtCore import QByteArray
from PySide6.QtGui import QImage, QPainter
from PySide6.QtSvg import QSvgRenderer

from app.drawing.marks import Label, Span
from app.drawing.theme import DARK, LIGHT
from app.features.paper.view_svg import view_svgs
from app.files.resources import ASSETS
from app.frame import frame
from app.qt.painting.lettering import load_fonts
from app.rider.setup import Setup, edited
from app.stance.findings import CAUTION

SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture(autouse=True)
def drafting_face(qapp: object) -> None:
    assert load_fonts(ASSETS / "fonts")


def trees(setup: Setup) -> dict[str, ElementTree.Element]:
    svgs = view_svgs(frame(setup), LIGHT)
    return {key: ElementTree.fromstring(data) for key, data in svgs.items()}


def texts(tree: ElementTree.Element) -> list[str]:
    return [element.text or "" for element in tree.iter(f"{SVG}text")]


def test_there_is_one_drawing_of_each_view_with_title_and_description() -> None:
    shown = frame(Setup(name="Kim"))
    made = trees(Setup(name="Kim"))
    assert made.keys() == shown.scenes.keys()
    for key, tree in made.items():
        assert tree.findtext(f"{SVG}title") == f"{shown.scenes[key].title}: Kim"
        assert shown.scenes[key].text in (tree.findtext(f"{SVG}desc") or "")


def test_the_caution_stands_in_every_drawing_to_be_read() -> None:
    for tree in trees(Setup()).values():
        # A line may end behind a hyphen.
        said = " ".join(" ".join(texts(tree)).split()).replace("- ", "-")
        assert CAUTION in said
        assert CAUTION in (tree.findtext(f"{SVG}desc") or "")


def test_every_figure_and_label_of_a_view_is_text() -> None:
    setup = edited(Setup(), front_cant_deg=3.0)
    for key, tree in trees(setup).items():
        marks = frame(setup).scenes[key].marks
        assert {m.text for m in marks if isinstance(m, Label | Span)} <= set(texts(tree))


@pytest.mark.parametrize("name", ["A & B <c>", 'the "quick" one', "Ærø ▲", "bell\a", "a\nb"])
def test_any_name_leaves_the_file_readable(name: str) -> None:
    assert set(trees(Setup(name=name))) == set(frame(Setup()).scenes)


def test_words_have_a_plain_face_to_fall_back_on_where_ours_is_not_installed() -> None:
    for tree in trees(Setup()).values():
        families = {element.get("font-family") for element in tree.iter()} - {None}
        assert all(
            family.startswith("'Kneeline Drafting', ") and family.endswith(", sans-serif")
            for family in families
            if family
        )


@pytest.mark.parametrize("theme", [LIGHT, DARK])
def test_another_renderer_draws_it_whole(theme: object) -> None:
    for data in view_svgs(frame(Setup()), theme).values():  # type: ignore[arg-type]
        drawn = QSvgRenderer(QByteArray(data))
        image = QImage(drawn.defaultSize(), QImage.Format.Format_RGB32)
        image.fill(0)
        with QPainter(image) as painter:
            drawn.render(painter)
        shades = {image.pixel(x, y) for x in range(0, 300, 3) for y in range(60, 500, 3)}
        assert len(shades) > 20
