"""What every bench has noted beside its times, printed under the table."""

from __future__ import annotations

import pytest


def pytest_terminal_summary(
    terminalreporter: pytest.TerminalReporter, config: pytest.Config
) -> None:
    session = getattr(config, "_benchmarksession", None)
    noted = [each for each in getattr(session, "benchmarks", []) if each.extra_info]
    if not noted:
        return
    terminalreporter.section("noted")
    for each in noted:
        terminalreporter.line(each.name)
        for name, value in each.extra_info.items():
            terminalreporter.line(f"    {name} {value}")
