"""The median of readings without NaN, without the masked arrays that numpy's own brings in."""

import numpy as np

from diagnose.batch.probe.log import FloatArray


def median(values: FloatArray) -> float:
    """The median of one or more values, none of them NaN."""
    return float(medians(values[None])[0])


def medians(rows: FloatArray) -> FloatArray:
    """The median of each row; rows x values in, rows out."""
    upper = rows.shape[1] // 2
    lower = upper if rows.shape[1] % 2 else upper - 1
    ordered = np.partition(rows, sorted({lower, upper}), axis=1)
    return np.asarray((ordered[:, lower] + ordered[:, upper]) / 2.0, dtype=np.float64)
