"""A save that is killed half way leaves a whole file, and what it litters is swept up."""

import os
import subprocess
import sys
import time
from pathlib import Path

import pytest

from app.files.safe_files import ABANDONED_AFTER, write_atomically

ROOT = Path(__file__).parents[3]


@pytest.mark.skipif(not hasattr(os, "fork"), reason="needs a Unix system")
@pytest.mark.parametrize(("what", "times"), [("saved", 200), ("kept", 100)])
def test_all_is_whole_after_each_of_many_kills_in_the_middle(tmp_path, what, times):
    path = tmp_path / "a.json"
    script = ROOT / "tests" / "helpers" / "killed_saves.py"
    done = subprocess.run(
        [sys.executable, script, path, str(times), what],
        env={**os.environ, "PYTHONPATH": str(ROOT)}, capture_output=True, text=True, check=True,
    )  # fmt: skip
    assert int(done.stdout) == times
    # Kills that hit nothing would prove nothing.
    assert len(list(tmp_path.rglob(".kneeline-*.part"))) > times / 10


def half_written(folder, name, age):
    part = folder / f".kneeline-{name}.part"
    part.write_bytes(b"half")
    then = time.time() - age
    os.utime(part, (then, then))
    return part


def test_what_a_killed_save_left_is_swept_up_once_nobody_can_be_writing_it(tmp_path):
    old = half_written(tmp_path, "0123456789abcdef", ABANDONED_AFTER + 60.0)
    fresh = half_written(tmp_path, "fedcba9876543210", 60.0)
    strange = half_written(tmp_path, "notes", ABANDONED_AFTER + 60.0)
    write_atomically(tmp_path / "a.json", b"whole")
    assert not old.exists()
    assert fresh.exists()
    assert strange.exists()
