"""Keys of rows against numpy's own sorting of rows."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra import numpy as npst

from geometry.rows import row_keys


@given(
    npst.arrays(
        np.int64,
        st.tuples(st.integers(1, 12), st.integers(1, 9)),
        elements=st.integers(-3, 3) | st.integers(-(2**30), 2**30),
    )
)
def test_keys_sort_and_tell_apart_as_rows_do(rows: np.ndarray) -> None:
    wanted = np.unique(rows, axis=0, return_inverse=True)[1].ravel()
    assert np.array_equal(np.unique(row_keys(rows), return_inverse=True)[1].ravel(), wanted)


@pytest.mark.parametrize("columns", [3, 70])
def test_rows_of_many_columns_are_told_apart_too(columns: int) -> None:
    rows = np.eye(columns)
    assert len(np.unique(row_keys(rows))) == columns
    assert np.all(np.diff(row_keys(rows)) < 0)
