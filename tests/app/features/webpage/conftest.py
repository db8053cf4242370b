"""One browser for all tests of the page that need one; they are skipped where there is none."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from browser import COMMAND, DESKTOP, PHONE, WHY_NOT, Browser, Page, browser, page
from web_pages import written

from app.rider.setup import DEMO


@pytest.fixture(scope="session")
def chromium(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Browser]:
    if COMMAND is None:
        pytest.skip(WHY_NOT)
    with browser(tmp_path_factory.mktemp("profile")) as running:
        yield running


@pytest.fixture(scope="session")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("pages")


@pytest.fixture(scope="session")
def demo(folder: Path) -> Path:
    return written(DEMO, folder / "demo.html")


@pytest.fixture(scope="session")
def phone(chromium: Browser) -> Iterator[Page]:
    with page(chromium, PHONE) as shown:
        yield shown


@pytest.fixture(scope="session")
def desktop(chromium: Browser) -> Iterator[Page]:
    with page(chromium, DESKTOP) as shown:
        yield shown
