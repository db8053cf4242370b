"""Bodies drawn at random from a large survey; the file names its source."""

from __future__ import annotations

import csv
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

FILE = Path(__file__).parents[1] / "cases" / "ansur-ii-sample.csv"


def sample() -> dict[str, NDArray[np.float64]]:
    """Lengths of 400 grown-ups by name (mm), and which of them are men."""
    with FILE.open(encoding="utf-8") as lines:
        rows = list(csv.DictReader(line for line in lines if not line.startswith("#")))
    lengths = {
        name.removesuffix("_mm"): np.array([float(row[name]) for row in rows])
        for name in rows[0]
        if name != "figures"
    }
    return lengths | {"is_man": np.array([row["figures"] == "man" for row in rows])}
