"""Switching asked of the engine itself; the rules stand in tests/web/test_sampling_plan_switching.py."""

from decimal import Decimal

import pytest

from boltwright_server.quantities import UnknownName
from boltwright_server.sampling import InspectedLot, switching


def test_a_severity_that_the_standard_does_not_have_is_refused() -> None:
    with pytest.raises(UnknownName, match="normal, tightened, reduced"):
        switching([InspectedLot(2000, 0)], Decimal("1.0"), start="strict")
