"""The rule of /v1/piece-decision once more, in whole numbers and from its text, and random readings of a line for it.

Common practice: narrow limits for samples; same-side yellows are confirmed by four fresh pieces, which alone decide on
an adjustment. Figures in ten-thousandths of a millimetre. Nothing of the project is imported here.
"""

from __future__ import annotations

import random
from dataclasses import dataclass, field

LOW, HIGH, RESOLUTION = 88_690, 89_780, 10
#: (target, standard deviation, step)
STATIONS = ((89_235, 136, 10), (89_300, 136, 20), (89_000, 200, 30), (89_235, 100, 100))
Reading = tuple[int, int | None]
#: decision, pieces, amount, repeat, gap
Answer = tuple[str, int | None, int | None, bool, int]


@dataclass(slots=True)
class Plain:
    """One station."""

    target: int
    sigma: int
    step: int
    phase: str = "set-up"
    greens: int = 0
    yellow: int = 0
    fresh: list[int] = field(default_factory=list)
    number: int = 0
    value: int | None = None
    last: Answer | None = None

    def answer(self, number: int, value: int | None) -> Answer:
        """Answer one reading."""
        if number < self.number or (number == self.number and (value is None or value != self.value)):
            return "refused", None, None, False, 0
        if number == self.number:
            assert self.last is not None
            return *self.last[:3], True, self.last[4]
        gap = number - self.number - 1
        if value is None:
            return "measure_next", 1, None, False, gap
        word, pieces, amount = self._judge(value)
        self.number, self.value, self.last = number, value, (word, pieces, amount, False, gap)
        return self.last

    def _start(self, phase: str) -> None:
        self.phase, self.greens, self.yellow, self.fresh = phase, 0, 0, []

    def _judge(self, value: int) -> tuple[str, int | None, int | None]:
        if not LOW <= value <= HIGH:
            self._start("set-up")
            return "stop", None, None
        side = -1 if 2 * value < self.target + LOW else 1 if 2 * value > self.target + HIGH else 0
        return {"set-up": self._set_up, "run": self._run, "confirm": self._confirm}[self.phase](side, value)

    def _set_up(self, side: int, value: int) -> tuple[str, int | None, int | None]:
        if side and self.yellow:
            self._start("set-up")
            return "adjust", None, None
        self.greens, self.yellow = (0, side) if side else (self.greens + 1, 0)
        if self.greens < 5:
            return "measure_next", 5 - self.greens, None
        self._start("run")
        return "continue", None, None

    def _run(self, side: int, value: int) -> tuple[str, int | None, int | None]:
        before, self.yellow = self.yellow, side
        if not side:
            return "continue", None, None
        if not before:
            return "measure_next", 1, None
        self._start("confirm" if before == side else "set-up")
        return ("measure_next", 4, None) if before == side else ("stop", None, None)

    def _confirm(self, side: int, value: int) -> tuple[str, int | None, int | None]:
        self.fresh.append(value)
        if len(self.fresh) < 4:
            return "measure_next", 4 - len(self.fresh), None
        off = sum(self.fresh) - 4 * self.target
        self._start("run" if abs(off) <= 4 * self.sigma else "set-up")
        if self.phase == "run":
            return "continue", None, None
        steps = abs(off) // (4 * self.step)
        return "adjust", None, -steps * self.step if off > 0 else steps * self.step


def readings_of_a_line(chance: random.Random, most: int) -> list[Reading]:
    """Return readings with lost, repeated, late and missing ones, of a line whose mean wanders."""
    readings: list[Reading] = []
    number, mean = 0, chance.uniform(88_950, 89_550)
    for _ in range(chance.randint(1, most)):
        kind = chance.random()
        if readings and kind < 0.08:
            readings.append(readings[-1])
        elif readings and kind < 0.12:
            readings.append((max(1, number - chance.randint(0, 3)), round(mean / 10) * 10))
        else:
            number += 1 + (kind > 0.9) * chance.randint(1, 4)
            mean += chance.gauss(0, 20)
            value = round(chance.gauss(mean, 160) / 10) * 10
            readings.append((number, None if 0.12 < kind < 0.17 else value))
    return readings
