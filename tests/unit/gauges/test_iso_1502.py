"""Gauges of other positions: es and EI shift every zone and change no width.

ISO 1502:1996, clause 13. Published values exist for 6g and 6H only; the shift follows from the formulas.
"""

from decimal import Decimal

import pytest

from boltwright_server.gauges import Gauge, gauge_sizes
from boltwright_server.threads import MetricSize, ToleranceClass, sizes
from boltwright_server.threads.iso_metric_tolerances import tolerances

COMMON = [size for size in sizes() if size.series == "coarse" and Decimal(3) <= size.d <= 64]


def gauges(size: MetricSize, name: str) -> dict[str, Gauge]:
    return {gauge.id: gauge for gauge in gauge_sizes(size, ToleranceClass.parse(name)).gauges}


@pytest.mark.parametrize(("basic", "shifted"), [("6h", "6g"), ("6h", "6f"), ("6H", "6G")])
@pytest.mark.parametrize("size", COMMON, ids=lambda size: size.designation)
def test_a_position_shifts_every_limit_by_the_fundamental_deviation(size: MetricSize, basic: str, shifted: str) -> None:
    deviation = tolerances(size, ToleranceClass.parse(shifted)).deviation / 1000
    there, here = gauges(size, basic), gauges(size, shifted)
    for id, gauge in there.items():
        for name, bounds in gauge.dimensions.items():
            other = here[id].dimensions[name]
            for side in ("min", "max", "wear_limit"):
                before, after = getattr(bounds, side), getattr(other, side)
                assert after == (None if before is None else before + deviation), (id, name, side)


def test_a_not_go_gauge_stands_at_the_other_end_of_the_tolerance() -> None:
    """New NOT GO zones lie outside the product limit, worn ones reach inside (notes on ISO 1502)."""
    for size in COMMON:
        cells = tolerances(size, ToleranceClass.parse("6H"))
        plugs = gauges(size, "6H")
        go = plugs["go_screw_plug"].dimensions["pitch_diameter"]
        not_go = plugs["not_go_screw_plug"].dimensions["pitch_diameter"]
        assert go.max is not None
        assert not_go.min is not None
        assert not_go.wear_limit is not None
        assert not_go.wear_limit < not_go.min
        assert abs(not_go.min - go.max) < cells.pitch / 1000
