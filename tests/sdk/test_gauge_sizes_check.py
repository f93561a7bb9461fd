"""Measured gauges and Unified threads through the SDK and the command, against a running service.

ISO 1502:1996: GO ring M10-6g new 8.977 to 8.995, worn at 9.007. ASME B1.1: 1/2-13 UNC-2A as every handbook prints it.
"""

from __future__ import annotations

from decimal import Decimal

import pytest

from boltwright import Client, MeasuredGauge
from boltwright.command_line import main
from boltwright.errors import NotCoveredError, NotFoundError


def ring(value: float | Decimal, gauge: str = "go_screw_ring") -> MeasuredGauge:
    return MeasuredGauge(designation="M10-6g", gauge=gauge, value=value, unit="mm")


def test_a_list_of_gauges(client: Client) -> None:
    plug = MeasuredGauge(designation="1/2-13 UNC-2B", gauge="go_screw_plug", value=Decimal("0.4499"), unit="in")
    used, worn, small, inch = client.gauge_sizes_check([ring(9.001), ring(9.0071), ring(8.9), plug]).gauges
    assert (used.status, used.within_new_limits, used.remaining_wear, used.passes_outside) == (
        "fit_for_use",
        False,
        0.006,
        0.007,
    )
    assert used.limits.exact_wear_limit == Decimal("9.0070")
    assert used.limits.zone is not None
    assert used.limits.zone.outside == 13
    assert "measure outside its limits" in used.reasons[1]
    assert (worn.status, small.status, small.remaining_wear) == ("worn", "out_of_new_limits", None)
    assert (inch.status, inch.gauge_standard, inch.unit) == ("worn", "ASME B1.2-1983", "in")


def test_refusals_name_the_gauge(client: Client) -> None:
    with pytest.raises(NotFoundError) as unknown:
        client.gauge_sizes_check([ring(9), ring(9, "go_screw_plug")])
    assert unknown.value.errors[0].pointer == "/gauges/1/gauge"
    assert "go_screw_ring" in unknown.value.nearest
    with pytest.raises(NotCoveredError):
        client.gauge_sizes_check([ring(9, "go_plain_ring")])
    with pytest.raises(ValueError, match="no reading"):
        client.gauge_sizes_check([ring(float("nan"))])


def test_unified_threads(client: Client) -> None:
    found = client.thread_limits("1/2-13 UNC-2A")
    assert str(found.limits["pitch_diameter"]) == "0.4435 to 0.4485 in"
    assert found.threads_per_inch == 13
    assert found.stress_areas["nominal"].exact_min == Decimal("0.1419")
    assert str(found.limits["pitch_diameter"].basis).startswith("ASME B1.1-2003, ")
    gages = client.gauge_sizes("M10-6H", standard="ASME B1.16M")
    assert gages.gauge_standard == "ASME B1.16M-1984"
    assert {gauge.turns_allowed for gauge in gages.gauges} == {None, 3}


@pytest.mark.parametrize(
    ("arguments", "code", "words"),
    [
        (["M10-6g", "go_screw_ring", "9.001"], 0, "FIT FOR USE"),
        (["M10-6g", "go_screw_ring", "9.008"], 1, "WORN"),
        (["M10-6g", "go_screw_ring", "8.9"], 1, "OUT OF NEW LIMITS"),
        (["1/2-13 UNC-2B", "go_plain_plug", "0.41705", "--unit", "in", "--dimension", "minor_diameter"], 0, "FIT"),
    ],
)
def test_the_command(
    service: str,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
    arguments: list[str],
    code: int,
    words: str,
) -> None:
    monkeypatch.setenv("BOLTWRIGHT_URL", service)
    assert main(["gauge", *arguments]) == code
    assert words in capsys.readouterr().out


def test_the_command_says_what_other_prints_show(
    service: str, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("BOLTWRIGHT_URL", service)
    assert main(["limits", "#10-24 UNC-2B"]) == 0
    said = capsys.readouterr().out
    assert "24 threads per inch" in said
    assert "minor diameter: other prints show max 0.156" in said
