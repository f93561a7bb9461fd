"""Classes of a histogram whose edges never fall on a reading.

Common practice: readings stand in steps of the instrument, so a class is a whole number of steps wide and its edges lie
half a step beside them. The width is at least that of 1 + log2 n classes, or twice the distance of the quartiles over
the cube root of n where that is less, and 1, 2 or 5 of a decade of steps.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from .subgroups import Floats, free_of_dust

MOST_CLASSES = 60
#: Readings with more decimals are computed figures without steps.
_MOST_DECIMALS = 9
_LOOKED_AT = 2000
_OFF_STEP = 0.01
#: Edges half a step beside the readings are still told apart from them in a double.
_MOST_STEPS = 1e13


@dataclass(frozen=True, slots=True)
class Histogram:
    """Readings counted in classes of equal width; `edges` has one more entry than `counts`."""

    edges: Floats
    counts: npt.NDArray[np.int64]
    #: The step in which the readings stand, in their unit; 0 where there is none.
    step: float

    @property
    def width(self) -> float:
        """Width of a class."""
        return float(self.edges[1] - self.edges[0])


def histogram(values: Floats) -> Histogram:
    """Return the classes of one value or more, in the unit of the values."""
    ordered = np.sort(values)
    step, steps = steps_of(ordered)
    wanted = _width(ordered)
    if steps is None:
        return _continuous(ordered, wanted or abs(float(ordered[0])) or 1.0)
    per_class = round(_round_up(max(wanted / step, 1.0, (steps[-1] + 1) / MOST_CLASSES)))
    counts = np.bincount(steps // per_class).astype(np.int64)
    edges = ordered[0] + step * (per_class * np.arange(len(counts) + 1) - 0.5)
    return Histogram(free_of_dust(edges, ordered), counts, step)


def steps_of(ordered: Floats) -> tuple[float, npt.NDArray[np.int64] | None]:
    """Return the step in which ascending readings stand, and each reading counted in it from the least.

    Readings with very many decimals, or of very different sizes, stand in no step: (0, None).
    """
    decimals = max(_decimals(value) for value in ordered[:: max(1, len(ordered) // _LOOKED_AT)].tolist())
    largest = float(np.abs(ordered[[0, -1]]).max())
    if decimals > _MOST_DECIMALS or largest * 10.0**decimals > _MOST_STEPS:
        return 0.0, None
    scaled = (ordered - ordered[0]) * 10.0**decimals
    whole = np.rint(scaled).astype(np.int64)
    if np.abs(scaled - whole).max() > _OFF_STEP:  # a reading that was not looked at has more decimals
        return 0.0, None
    common = int(np.gcd.reduce(whole)) or 1
    return common / 10.0**decimals, whole // common


def _decimals(value: float) -> int:
    """Return the decimals with which a reading was written, by its shortest text."""
    text = repr(value)
    if "e" in text:
        return _MOST_DECIMALS + 1 if "e-" in text else 0
    return 0 if text.endswith(".0") else len(text.partition(".")[2])


def _width(ordered: Floats) -> float:
    count, reach = len(ordered), float(ordered[-1] - ordered[0])
    sturges = reach / (math.log2(count) + 1)
    quarters = float(np.subtract(*np.percentile(ordered, [75, 25])))
    spread = 2 * quarters * count ** (-1 / 3)
    return min(sturges, spread) if spread > 0 else sturges


def _round_up(least: float) -> float:
    """Return the least of 1, 2 and 5 of a decade that is not below, give or take the last bits."""
    decade = 10.0 ** math.floor(math.log10(least))
    return next(size * decade for size in (1, 2, 5, 10) if size * decade >= least * (1 - 1e-9))


def _continuous(ordered: Floats, wanted: float) -> Histogram:
    reach = float(ordered[-1] - ordered[0])
    width = _round_up(max(wanted, reach / MOST_CLASSES))
    classes = max(1, math.ceil(reach / width * (1 + 1e-12)))
    middle = (ordered[0] + ordered[-1]) / 2
    edges = middle + width * (np.arange(classes + 1) - classes / 2)
    counts, _ = np.histogram(np.clip(ordered, edges[0], edges[-1]), edges)
    return Histogram(edges, counts.astype(np.int64), 0.0)
