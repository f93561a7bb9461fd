"""Decision rules: from limits and uncertainty to the regions in which a reading conforms or does not.

simple: the limits themselves. guarded: ISO 14253-1:1998 and :2013 (2 u) and :2017 (95 %). absolute, rounded: ASTM E29;
ties of rounded go to the even digit, or to the greater one (ISO 80000-1:2009, rules A and B).
Everything is exact in rationals; a bound becomes a double only at the end, by `threshold`.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from statistics import NormalDist

from ..quantities import Basis
from ..standards import other_source

#: ISO 14253-1:2017: 95 % against one limit is 1.65 u; ISO 14253-1:2013: U with k = 2.
ONE_SIDED_2017 = Fraction(165, 100)
GUARD_2013 = Fraction(2)
_TWO_SIDED_BELOW, _UNATTAINABLE_BELOW = 6, Fraction(392, 100)
_PROBABILITY = 0.95


@dataclass(frozen=True, slots=True)
class DecisionRule:
    """A rule by name; `edition` is the edition of its standard."""

    rule: str
    edition: str | None = None
    ties: str = "even"

    @property
    def operator(self) -> str:
        """How a reading exactly at a bound is taken."""
        return {
            "simple": "a reading equal to a limit conforms",
            "absolute": "a reading equal to a limit conforms; any excess counts",
            "guarded": "a reading equal to an acceptance limit conforms; one equal to the outer edge is undecided",
            "rounded": f"the reading is rounded once to the limit's last digit, ties to the {self.ties} digit",
        }[self.rule]

    @property
    def basis(self) -> Basis:
        """The standard that the rule is taken from."""
        if self.ties == "greater":
            return other_source("ISO 80000-1", "Annex B, rule B")
        standard, clause = {
            "simple": ("JCGM 106", "clause 8.2, simple acceptance"),
            "guarded": ("ISO 14253-1", "default decision rule"),
            "absolute": ("ASTM E29", "absolute method"),
            "rounded": ("ASTM E29", "rounding method, half to even"),
        }[self.rule]
        return other_source(standard, clause, self.edition if self.rule == "guarded" else None)


RULES = ("simple", "guarded", "absolute", "rounded")
EDITIONS = ("1998", "2013", "2017")
TIES = ("even", "greater")
SIMPLE = DecisionRule("simple")


@dataclass(frozen=True, slots=True)
class Edge:
    """One end of a region; `inclusive` says whether a reading on it belongs to the region."""

    at: Fraction
    inclusive: bool = True


@dataclass(frozen=True, slots=True)
class Regions:
    """Where a reading conforms and where it is nonconforming; between them it is undecided.

    `attainable` is False where the tolerance is too small against the uncertainty to prove conformity at all.
    """

    conforming_low: Edge | None
    conforming_high: Edge | None
    reject_low: Edge | None
    reject_high: Edge | None
    attainable: bool = True


def regions(
    rule: DecisionRule,
    low: Fraction | None,
    high: Fraction | None,
    u: Fraction | None,
    quanta: tuple[Fraction | None, Fraction | None] = (None, None),
) -> Regions:
    """Return the regions of a rule; limits, u and `quanta` (last stated digit of each limit) in the readings' unit."""
    if rule.rule == "rounded":
        lower, upper = _rounded_low(low, quanta[0], rule.ties), _rounded_high(high, quanta[1], rule.ties)
        return Regions(lower, upper, _outside(lower), _outside(upper))
    if rule.rule == "guarded" and u:
        return _guarded(rule.edition or "2017", low, high, u)
    lower = None if low is None else Edge(low)
    upper = None if high is None else Edge(high)
    return Regions(lower, upper, _outside(lower), _outside(upper))


def _outside(edge: Edge | None) -> Edge | None:
    return None if edge is None else Edge(edge.at, not edge.inclusive)


def _guarded(edition: str, low: Fraction | None, high: Fraction | None, u: Fraction) -> Regions:
    """Guard band inward for conformity, outward for nonconformity; exactly on an outer edge is not beyond it."""
    outward = (ONE_SIDED_2017 if edition == "2017" else GUARD_2013) * u
    inward = _inward_2017(low, high, u) if edition == "2017" else outward
    reject_low = None if low is None else Edge(low - outward, inclusive=False)
    reject_high = None if high is None else Edge(high + outward, inclusive=False)
    if inward is None or (low is not None and high is not None and low + inward > high - inward):
        return Regions(None, None, reject_low, reject_high, attainable=False)
    return Regions(
        None if low is None else Edge(low + inward),
        None if high is None else Edge(high - inward),
        reject_low,
        reject_high,
    )


def _inward_2017(low: Fraction | None, high: Fraction | None, u: Fraction) -> Fraction | None:
    """1.65 u, or the two-sided guard band where T < 6 u and it is larger; None where T < 3.92 u."""
    if low is None or high is None:
        return ONE_SIDED_2017 * u
    ratio = (high - low) / u
    if ratio < _UNATTAINABLE_BELOW:
        return None
    if ratio >= _TWO_SIDED_BELOW:
        return ONE_SIDED_2017 * u
    return max(ONE_SIDED_2017, two_sided_factor(ratio)) * u


def two_sided_factor(ratio: Fraction) -> Fraction:
    """Return g/u at which a reading g inside one limit conforms with 95 %, both limits counted; `ratio` = T/u."""
    width = float(ratio)
    cdf = NormalDist().cdf
    near, far = 1.0, width / 2
    for _ in range(80):
        middle = (near + far) / 2
        if cdf(width - middle) - cdf(-middle) >= _PROBABILITY:
            far = middle
        else:
            near = middle
    return Fraction(Decimal(repr(round(far, 9))))


def _rounded_low(limit: Fraction | None, quantum: Fraction | None, ties: str) -> Edge | None:
    """Readings from half a digit below the limit round up to it; the tie itself by the rule for ties."""
    if limit is None or quantum is None:
        return None
    return Edge(limit - quantum / 2, ties == "greater" or _even(limit, quantum))


def _rounded_high(limit: Fraction | None, quantum: Fraction | None, ties: str) -> Edge | None:
    if limit is None or quantum is None:
        return None
    return Edge(limit + quantum / 2, ties == "even" and _even(limit, quantum))


def _even(limit: Fraction, quantum: Fraction) -> bool:
    steps = limit / quantum
    return steps.denominator == 1 and steps.numerator % 2 == 0


def stated_digit(limit: Decimal, unit: str) -> Decimal:
    """Return the last digit in which a limit is stated: 16.00 mm to 0.01, 46 400 N to 100 N, 320 HV to 1 HV.

    Loads are printed with three significant digits or finer; other whole numbers are stated to the unit.
    """
    exponent = limit.as_tuple().exponent
    if isinstance(exponent, int) and exponent < 0:
        return Decimal(1).scaleb(exponent)
    whole = int(limit)
    if unit not in ("N", "lbf") or whole == 0:
        return Decimal(1)
    trailing = len(str(whole)) - len(str(whole).rstrip("0"))
    return Decimal(10) ** max(0, min(trailing, len(str(abs(whole))) - 3))


def last_digit(limit: Decimal | None, unit: str) -> Fraction | None:
    """Return `stated_digit` as an exact fraction; None for an open side."""
    return None if limit is None else Fraction(stated_digit(limit, unit))


def least_double(edge: Edge) -> float:
    """Return the smallest double whose shortest decimal text lies inside a lower edge.

    Comparing float64 readings with it is then exact: every double next to the edge is decided here, in decimals.
    """
    candidate = float(edge.at)
    for _ in range(2):
        candidate = math.nextafter(candidate, -math.inf)
    while not _inside_low(candidate, edge):
        candidate = math.nextafter(candidate, math.inf)
    return candidate


def greatest_double(edge: Edge) -> float:
    """Return the largest double whose shortest decimal text lies inside an upper edge."""
    return -least_double(Edge(-edge.at, edge.inclusive))


def _inside_low(reading: float, edge: Edge) -> bool:
    written = Fraction(repr(reading))
    return written >= edge.at if edge.inclusive else written > edge.at
