"""Readings far from the rest: flagged, never dropped.

Modified z-score above 3.5 by the median absolute deviation, or by the mean one where more than half of the readings are
the same: common practice.
"""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from .readings import Floats

_LIMIT, _FEWEST = 3.5, 5
#: What makes a standard deviation of the median and of the mean absolute deviation of a normal sample.
_OF_MEDIAN, _OF_MEAN = 1 / 0.6745, 1.253314
_NONE: npt.NDArray[np.intp] = np.array([], dtype=np.intp)


def outliers(values: Floats, ordered: Floats) -> npt.NDArray[np.intp]:
    """Return the positions of outlying readings; none with fewer than five readings or without spread.

    `ordered` holds the measured readings in ascending order.
    """
    if len(ordered) < _FEWEST:
        return _NONE
    middle = (ordered[(len(ordered) - 1) // 2] + ordered[len(ordered) // 2]) / 2
    deviation = _OF_MEDIAN * _median_distance(ordered, middle) or _OF_MEAN * np.abs(ordered - middle).mean()
    if max(middle - ordered[0], ordered[-1] - middle) <= _LIMIT * deviation:
        return _NONE
    return np.flatnonzero(np.abs(values - middle) > _LIMIT * deviation)


def _median_distance(ordered: Floats, middle: float) -> float:
    """Return the median absolute distance from the middle: the least reach of half of the readings, side by side."""
    half = len(ordered) // 2
    reach = np.maximum(middle - ordered[: len(ordered) - half], ordered[half:] - middle)
    return float(np.minimum.reduce(reach))
