"""Readings far from the rest: flagged, never dropped.

Modified z-score above 3.5 by the median absolute deviation: common practice.
"""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from .readings import Floats

_LIMIT, _SCALE, _FEWEST = 3.5, 0.6745, 5
_NONE: npt.NDArray[np.intp] = np.array([], dtype=np.intp)


def outliers(values: Floats, ordered: Floats) -> npt.NDArray[np.intp]:
    """Return the positions of outlying readings; none with fewer than five readings or without spread.

    `ordered` holds the measured readings in ascending order.
    """
    if len(ordered) < _FEWEST:
        return _NONE
    middle = (ordered[(len(ordered) - 1) // 2] + ordered[len(ordered) // 2]) / 2
    distances = np.abs(ordered - middle)
    half = len(distances) // 2
    deviation = np.partition(distances, half)[half]
    if deviation == 0 or max(distances[0], distances[-1]) * _SCALE <= _LIMIT * deviation:
        return _NONE
    return np.flatnonzero(np.abs(values - middle) * _SCALE > _LIMIT * deviation)
