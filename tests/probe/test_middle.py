"""The median of readings. Source: numpy's own median, a general-purpose reference library."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.batch.probe.middle import median, medians

VALUES = st.lists(st.floats(-1e6, 1e6), min_size=1, max_size=12)


@given(VALUES)
def test_the_median_is_that_of_the_reference(values: list[float]) -> None:
    assert median(np.array(values)) == pytest.approx(float(np.median(values)), rel=1e-15)


@given(st.lists(st.tuples(*[st.floats(-1e6, 1e6)] * 11), min_size=1, max_size=5))
def test_each_row_has_the_median_of_the_reference(rows: list[tuple[float, ...]]) -> None:
    assert medians(np.array(rows)) == pytest.approx(np.median(rows, axis=1), rel=1e-15)
