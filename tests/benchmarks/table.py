"""The printed result: one line a benchmark, with its goal."""

from __future__ import annotations

from dataclasses import dataclass
from statistics import median


@dataclass(frozen=True, slots=True)
class Line:
    """One result; `goal` is the ratio to reach, `at_least` says from which side."""

    name: str
    ours: str
    baseline: str
    ratio: float
    goal: float | None = None
    at_least: bool = True

    def __str__(self) -> str:
        if self.goal is None:
            verdict = ""
        else:
            met = self.ratio >= self.goal if self.at_least else self.ratio <= self.goal
            verdict = f"{'>=' if self.at_least else '<='} {self.goal:g} {'met' if met else 'MISSED'}"
        return f"{self.name:<58} {self.ours:>16} {self.baseline:>16} {self.ratio:>7.2f}  {verdict}"


HEADER = f"{'':<58} {'ours':>16} {'baseline':>16} {'ratio':>7}  goal"


def middle_ratio(ours: list[float], baseline: list[float]) -> float:
    """Return the median of the ratios of interleaved rounds: what disturbs the machine disturbs both."""
    return median(one / other for one, other in zip(ours, baseline, strict=True))
