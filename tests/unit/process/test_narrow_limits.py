"""Chances of the narrow-limit rules, against printed figures and by playing the rules out."""

from __future__ import annotations

from fractions import Fraction

import numpy as np
import pytest

from boltwright_server.statistics.narrow_limits import chances, decide, zones

#: Common practice, recomputed: false stops of a check and pieces in the target zone of a centred process, by Cp.
FALSE_STOPS = {1.00: 0.020, 4 / 3: 0.0022, 5 / 3: 0.00015}
IN_TARGET = {1.00: 0.866, 4 / 3: 0.954, 5 / 3: 0.988}
BOTH = zones(Fraction(-6), Fraction(6), None)


@pytest.mark.parametrize("cp", FALSE_STOPS)
def test_a_centred_process(cp: float) -> None:
    found = chances(BOTH, 0.0, 2 / cp)
    assert found.stop == pytest.approx(FALSE_STOPS[cp], rel=0.04)
    assert found.target_zone == pytest.approx(IN_TARGET[cp], abs=0.001)
    assert found.qualification == pytest.approx(found.target_zone**5)


def test_chances_are_those_of_the_rules_played_out() -> None:
    """20 000 checks of a wide process off its centre: the share that stops is what the formula says."""
    found = chances(BOTH, 1.5, 4.0)
    rng = np.random.default_rng(4)
    stops = 0
    set_up = [Fraction(0)] * 5
    for pair in rng.normal(1.5, 4.0, (20_000, 2)):
        steps = decide([*set_up, *(Fraction(repr(float(one))) for one in pair)], BOTH)[5:]
        last = steps[1] if steps[0].action == "measure_next" else steps[0]
        stops += last.action != "continue"
    assert stops / 20_000 == pytest.approx(found.stop, abs=0.01)


def test_with_one_limit_the_far_side_is_target_zone() -> None:
    found = chances(zones(Fraction(0), None, Fraction(6)), 6.0, 2.0)
    assert found.target_zone == pytest.approx(0.9332, abs=1e-4)  # normal distribution at 1.5
    assert found.outside == pytest.approx(0.00135, abs=1e-5)
    assert found.target_zone + found.warning_zones + found.outside == pytest.approx(1)
