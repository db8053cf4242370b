"""Checkouts to start, each with an environment that was made once for all of them."""

from __future__ import annotations

from pathlib import Path

import pytest
from checkouts import Checkout, bare_checkout


@pytest.fixture(scope="session")
def first_start(tmp_path_factory: pytest.TempPathFactory) -> tuple[Checkout, str, str]:
    """A checkout after its first start, and what that printed and said."""
    checkout = bare_checkout(tmp_path_factory.mktemp("first"))
    made = checkout.start("rider.json", "--numbers")
    return checkout, made.stdout, made.stderr


@pytest.fixture
def checkout(first_start: tuple[Checkout, str, str], tmp_path: Path) -> Checkout:
    """A checkout whose environment is ready."""
    return first_start[0].copied(tmp_path / "checkout")
