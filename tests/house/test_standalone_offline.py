"""The command that makes the stand-alone, where it cannot be made."""

from __future__ import annotations

import subprocess

from checkouts import CLOSED, Checkout


def test_without_the_network_it_says_so_and_leaves_what_was_made_before(
    checkout: Checkout,
) -> None:
    before = checkout.root / "dist" / "kneeline" / "kneeline"
    before.parent.mkdir(parents=True)
    before.write_text("made before")
    answer = subprocess.run(
        ["/bin/sh", checkout.root / "app" / "package.sh"],
        env=checkout.machine(**CLOSED),
        capture_output=True,
        text=True,
        check=False,
    )
    assert answer.returncode == 2
    assert "the packages cannot be reached" in answer.stderr
    assert before.read_text() == "made before"
