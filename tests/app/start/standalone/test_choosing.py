"""What goes into the stand-alone, of all that PyInstaller finds."""

from __future__ import annotations

import pytest

from app.start.standalone import choosing
from app.start.standalone.choosing import is_chosen

SPOKEN = ("en", "de")
ENVIRONMENT = "/tmp/environment/lib/python3.11/site-packages"


@pytest.mark.parametrize(
    "name",
    [
        "PySide6/QtWidgets.abi3.so",
        "PySide6/Qt/lib/libQt6Core.so.6",
        "PySide6/Qt/lib/libicudata.so.73",
        "PySide6/Qt/plugins/platforms/libqxcb.so",
        "PySide6/Qt/translations/qtbase_de.qm",
        "libpython3.11.so.1.0",
        "numpy/_core/_multiarray_umath.cpython-311-x86_64-linux-gnu.so",
        "app/assets/icon.svg",
        "base_library.zip",
    ],
)
def test_what_the_program_runs_on_comes_along(name: str) -> None:
    assert is_chosen(name, f"{ENVIRONMENT}/{name}", SPOKEN)


@pytest.mark.parametrize(
    "name",
    [
        "PySide6/QtNetwork.abi3.so",
        "PySide6/Qt/lib/libQt6Network.so.6",
        "PySide6/Qt/plugins/platformthemes/libqgtk3.so",
        "PySide6/Qt/plugins/platforms/libqeglfs.so",
        "PySide6/Qt/translations/qtbase_fr.qm",
        "PySide6/Qt/translations/qt_de.qm",
    ],
)
def test_the_parts_of_qt_that_it_does_without_stay_behind(name: str) -> None:
    assert not is_chosen(name, f"{ENVIRONMENT}/{name}", SPOKEN)


@pytest.mark.parametrize(
    "folder", ["/lib/x86_64-linux-gnu", "/usr/lib/x86_64-linux-gnu", "/usr/lib64"]
)
def test_the_systems_libraries_stay_with_the_system(folder: str) -> None:
    for name in ("libglib-2.0.so.0", "libstdc++.so.6", "libfontconfig.so.1"):
        assert not is_chosen(name, f"{folder}/{name}", SPOKEN)
    assert is_chosen("libscipy_openblas64_-1.so", f"{ENVIRONMENT}/numpy.libs/x.so", SPOKEN)


def test_a_library_comes_along_only_where_its_notice_does(
    monkeypatch: pytest.MonkeyPatch, tmp_path_factory: pytest.TempPathFactory
) -> None:
    notice = tmp_path_factory.mktemp("doc") / "copyright"
    monkeypatch.setattr(choosing, "notice_of", lambda _: str(notice))
    where = "/usr/lib/x86_64-linux-gnu/libxcb-cursor.so.0"
    assert not is_chosen("libxcb-cursor.so.0", where, SPOKEN)
    notice.write_text("free")
    assert is_chosen("libxcb-cursor.so.0", where, SPOKEN)


def test_links_go_where_what_they_lead_to_goes() -> None:
    assert is_chosen("libQt6Core.so.6", "PySide6/Qt/lib/libQt6Core.so.6", SPOKEN)
    assert not is_chosen("libQt6Network.so.6", "PySide6/Qt/lib/libQt6Network.so.6", SPOKEN)
