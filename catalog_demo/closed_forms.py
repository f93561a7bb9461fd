"""Chances of the rule of /v1/piece-decision for one check of a normal process, in closed form.

A check is a piece, and after a first yellow a second one, and after two on one side four fresh ones. Common practice
(narrow limits with confirmation). The four fresh pieces are taken as normal: that a red one among them stops is added
apart, which changes the fourth digit.
"""

from __future__ import annotations

import math
from dataclasses import dataclass


@dataclass(frozen=True)
class Check:
    """Chances of one check."""

    stop: float
    adjust: float

    @property
    def ends(self) -> float:
        """Either of the two: the machine does not run on."""
        return self.stop + self.adjust

    def checks_until(self, share: float) -> int:
        """Return after how many checks a share of all runs has ended: the checks are independent."""
        return math.ceil(math.log(1 - share) / math.log(1 - self.ends))


def below(deviations: float) -> float:
    """Return the share of a normal distribution below so many standard deviations."""
    return math.erfc(-deviations / math.sqrt(2)) / 2


def check(half_zone: float, shift: float = 0.0) -> Check:
    """Return the chances for limits `half_zone` standard deviations off the target, a mean `shift` of them off."""
    low, high = below(-half_zone - shift), below(shift - half_zone)
    yellow_low = below(-half_zone / 2 - shift) - low
    yellow_high = below(shift - half_zone / 2) - high
    red = low + high
    same, opposite = yellow_low**2 + yellow_high**2, 2 * yellow_low * yellow_high
    red_in_four = 1 - (1 - red) ** 4
    off_the_band = below(2 * (-1 - shift)) + below(2 * (shift - 1))
    stop = red + (yellow_low + yellow_high) * red + opposite + same * red_in_four
    return Check(stop, same * (1 - red_in_four) * off_the_band)
