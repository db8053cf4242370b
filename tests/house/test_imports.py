"""The one-way streets between the packages, as pyproject.toml declares them."""

from __future__ import annotations

from pathlib import Path

import pytest
from importlinter.cli import EXIT_STATUS_SUCCESS, lint_imports

ROOT = Path(__file__).parents[2]


def test_every_import_goes_the_declared_way(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(ROOT)
    status = lint_imports(config_filename=str(ROOT / "pyproject.toml"), no_cache=True)
    assert status == EXIT_STATUS_SUCCESS, capsys.readouterr().out
