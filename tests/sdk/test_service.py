"""Every method against a running service: published figures arrive as printed, refusals as the right error."""

from __future__ import annotations

import json
import statistics
from collections.abc import Callable
from decimal import Decimal
from typing import Any

import pytest
import requests

from boltwright import Client, Column
from boltwright.decoding import Result
from boltwright.errors import (
    BadRequestError,
    DesignationError,
    InvalidRequestError,
    MemberError,
    NotFoundError,
    NotStandardisedError,
    ReadingsError,
    UnitError,
)

BOLT = "ISO 4014 - M10x60 - 8.8"
MANDATORY: dict[str, Any] = {
    "width_across_flats": [15.73, 16.00],
    "width_across_corners": [17.77, 18.1],
    "head_height": [6.22, 6.58],
    "body_diameter": [9.78, 10.00],
    "length": [59.4, 60.6],
    "thread_go_gauge": [True, True],
    "thread_not_go_gauge": [True, True],
    "marking": [True, True],
    "hardness_core": [250, 320],
    "tensile_load": [46400.0, 50000.0],
    "fracture_location": ["thread", "shank"],
}

LOOK_UPS: list[tuple[str, dict[str, Any], Callable[[Client], Result]]] = [
    ("standards", {}, lambda client: client.standards()),
    ("units", {}, lambda client: client.units()),
    ("thread-limits", {"designation": "M10-6g"}, lambda client: client.thread_limits("M10-6g")),
    ("thread-limits", {"designation": "M10-6H/6g"}, lambda client: client.thread_limits("M10-6H/6g")),
    (
        "thread-limits",
        {"designation": "M10-6g", "unit": "in"},
        lambda client: client.thread_limits("M10-6g", unit="in"),
    ),
    (
        "thread-limits",
        {"designation": "M10-6g", "explain": "true"},
        lambda client: client.thread_limits("M10-6g", explain=True),
    ),
    ("threads", {"series": "coarse", "limit": 5}, lambda client: client.threads(series="coarse", limit=5)),
    (
        "threads",
        {"system": "Unified inch", "choice": 1, "min_diameter": "0.5", "max_diameter": 1, "unit": "in"},
        lambda c: c.threads(system="Unified inch", choice=1, min_diameter="0.5", max_diameter=1, unit="in"),
    ),
    (
        "tolerance-classes",
        {"member": "internal", "thread": "M10"},
        lambda client: client.tolerance_classes(member="internal", thread="M10"),
    ),
    (
        "thread-fit",
        {"external": "M10-6g", "internal": "M10-6H", "unit": "um"},
        lambda client: client.thread_fit("M10-6g", "M10-6H", unit="um"),
    ),
    (
        "coating-limits",
        {"designation": "M10-6g", "coating": "Fe/Zn8", "length": "60", "property_class": "10.9"},
        lambda c: c.coating_limits("M10-6g", coating="Fe/Zn8", length="60", property_class="10.9"),
    ),
    ("gauge-sizes", {"designation": "M10-6H"}, lambda client: client.gauge_sizes("M10-6H")),
    ("mechanical-minimums", {"thread": "M10", "property_class": "8.8"}, lambda c: c.mechanical_minimums("M10", "8.8")),
    (
        "mechanical-minimums",
        {"thread": "M10", "property_class": "8", "member": "internal", "style": 1},
        lambda client: client.mechanical_minimums("M10", "8", member="internal", style=1),
    ),
    (
        "mechanical-minimums",
        {"thread": "M12", "property_class": "8.8", "structural": "true", "unit": "kN"},
        lambda client: client.mechanical_minimums("M12", "8.8", structural=True, unit="kN"),
    ),
    (
        "mechanical-minimums",
        {"thread": "3/4-10", "grade": "ASTM A194 2H", "form": "hex"},
        lambda client: client.mechanical_minimums("3/4-10", grade="ASTM A194 2H", form="hex"),
    ),
    ("equivalents", {"designation": "ISO 4032 - M12 - 8"}, lambda client: client.equivalents("ISO 4032 - M12 - 8")),
    ("pairing", {"bolt": "M12 - 12.9"}, lambda client: client.pairing("M12 - 12.9")),
    ("pairing", {"bolt": "ISO 4014 - M10x60 - 8.8U - tZn"}, lambda c: c.pairing("ISO 4014 - M10x60 - 8.8U - tZn")),
    (
        "hardness-conversion",
        {"value": "323", "from": "HV", "to": "HRC"},
        lambda client: client.hardness_conversion(323, "HV", "HRC"),
    ),
    (
        "product-dimensions",
        {"standard": "ISO 4014", "size": "M10", "length": 60},
        lambda client: client.product_dimensions("ISO 4014", "M10", 60),
    ),
    ("specification", {"designation": BOLT}, lambda client: client.specification(BOLT)),
    ("specification", {"designation": "ISO 8673 - M12x1.25 - 8"}, lambda c: c.specification("ISO 8673 - M12x1.25 - 8")),
    (
        "sampling-plan",
        {"scheme": "ISO 2859-1", "lot_size": 12000, "aql": 1.0, "fractions": "0.01,0.05"},
        lambda client: client.sampling_plan("ISO 2859-1", 12000, aql=1.0, fractions=[0.01, 0.05]),
    ),
    ("specification", {"designation": "M10-6g"}, lambda client: client.specification("M10-6g")),
]


@pytest.mark.parametrize(("path", "query", "call"), LOOK_UPS)
def test_the_result_is_what_the_service_sends(
    service: str, client: Client, path: str, query: dict[str, Any], call: Callable[[Client], Result]
) -> None:
    sent = requests.get(f"{service}/v1/{path}", params=query, timeout=10)
    found = call(client)
    assert found.raw == sent.json()
    assert found.body == sent.content
    assert found.fingerprint == sent.json()["fingerprint"]
    assert call(client) == found


def test_thread_limits_as_printed(client: Client) -> None:
    """ISO 965-2:1998, Table 1, M10, bolts of quality medium."""
    found = client.thread_limits("M10-6g").limits
    assert str(found["major_diameter"]) == "9.732 to 9.968 mm"
    assert str(found["pitch_diameter"]) == "8.862 to 8.994 mm"
    fit = client.thread_limits("M10-6H/6g")
    assert fit.external is not None
    assert fit.internal is not None
    assert fit.external.limits == found
    assert str(fit.internal.limits["pitch_diameter"]) == "9.026 to 9.206 mm"


def test_mechanical_minimums_as_printed(client: Client) -> None:
    """ISO 898-1:2013, Tables 3, 4 and 5, M10, class 8.8."""
    found = client.mechanical_minimums("M10", "8.8")
    assert str(found.stress_area) == "58.0 mm2"
    assert str(found.loads["tensile_load"]) == "at least 46400 N"
    assert str(found.loads["proof_load"]) == "at least 33700 N"
    assert str(found.properties["hardness_vickers"]) == "250 to 320 HV"


def test_which_nuts_hold_a_bolt(client: Client) -> None:
    """ISO 898-2:2012, Table 2; class 12 proves less than 12.9 bears (M12: 100 300, 103 000 N)."""
    found = client.pairing("M12 - 12.9")
    assert [(nut.nut, nut.style) for nut in found.holding] == [("12", 1), ("12", 2)]
    assert all("100300" in nut.warnings[0] and "103000" in nut.warnings[0] for nut in found.holding)
    assert not next(nut for nut in found.nuts if nut.nut == "05").holds


def test_a_converted_hardness_says_that_it_is_an_estimate(client: Client) -> None:
    """ISO 18265:2013, Table A.1: 320 HV is 32.2 HRC."""
    found = client.hardness_conversion(320, "HV", "HRC")
    assert (found.estimate, found.unit, found.is_estimate) == (32.2, "HRC", True)
    assert "estimate" in found.notices[0]


def test_product_dimensions_as_printed(client: Client) -> None:
    """ISO 4014:2011, Table 1, M10, product grade A."""
    found = client.product_dimensions("ISO 4014", "M10", "60")
    assert found.product_grade == "A"
    assert str(found.dimensions["width_across_flats"]) == "15.73 to 16.00 mm"
    assert str(found.dimensions["head_height"]) == "6.22 to 6.58 mm"


def test_switching_lot_after_lot(client: Client) -> None:
    """ISO 2859-1:1999, 9.3.1: two of five consecutive lots refused tighten."""
    found = client.sampling_plan_switching(Decimal("1.0"), [(2000, 4), (2000, 0), (2000, 4)])
    assert [step.next_severity for step in found.steps] == ["normal", "normal", "tightened"]


def test_a_sampling_plan_as_printed(client: Client) -> None:
    """ISO 2859-1:1999, Tables 1 and 2-A: lot of 12 000, level II, code letter M, AQL 1.0: 315 pieces, 7 and 8."""
    found = client.sampling_plan("ISO 2859-1", 12000, level="II", aql=1.0)
    assert (found.code_letter, found.sample_size) == ("M", 315)
    assert (found.acceptance_number, found.rejection_number) == (7, 8)


def test_capability_by_its_definition(client: Client) -> None:
    """Pp = (H - L) / 6 s, s the standard deviation of all values, here by Python's own statistics."""
    values = [15.84, 15.86, 15.85, 15.88, 15.83, Decimal("15.87")]
    found = client.capability(values, designation=BOLT, characteristic="width_across_flats")
    assert found.pp is not None
    assert found.pp.value == pytest.approx((16.00 - 15.73) / (6 * statistics.stdev(map(float, values))))
    assert len(found.pp.confidence_interval) == 2
    assert found.limits is not None
    assert found.limits.basis is not None
    assert client.capability(values, min=Decimal("15.7"), unit="mm").pp is None


def test_a_running_process_is_watched(client: Client) -> None:
    """Individuals stand 2.66 moving ranges apart (ISO 7870-2:2013); zones and actions are common practice."""
    chart = client.control_chart([10.0, 11.0, 10.0, 11.0], chart="individuals", rules=["outside_limits"])
    assert chart.charts[0].upper_control_limit == pytest.approx(10.5 + 2.66, abs=2e-3)
    assert (chart.in_control, chart.signals) == (True, ())
    run = client.narrow_limits([2, 2, 2, 2, 2, Decimal("3.5"), 3.5], min=0, max=4)
    assert (run.zones.warning_high, run.steps[4].qualified, run.action) == (3, True, "adjust")
    drift = client.trend([1.0, 1.1, 1.2, 1.31, 1.4], max=2)
    assert drift.significant
    assert drift.limit == 2
    assert client.trend([1.0, 1.1, 1.0, 1.1, 1.0], max=2).pieces_until_limit is None


def test_a_gauge_has_limits_and_a_wear_limit(client: Client) -> None:
    """ISO 1502:1996, clause 13, GO screw plug for M10-6H; read in one reproduction and confirmed by its formula."""
    gauge = next(one for one in client.gauge_sizes("M10-6H").gauges if one.id == "go_screw_plug")
    pitch_diameter = gauge.dimensions["pitch_diameter"]
    assert str(pitch_diameter.limits) == "9.0325 to 9.0435 mm"
    assert pitch_diameter.wear_limit == 9.0205


def test_a_reading_on_every_limit_conforms(client: Client) -> None:
    """The limits that a specification gives are the limits that the judgement uses."""
    found = client.specification(BOLT)
    for id, one in found.characteristics.items():
        ends = [end for end in (one.limits.min, one.limits.max) if end is not None]
        if ends:
            judged = client.conformance(BOLT, {id: Column(ends, unit=one.limits.unit)}).characteristics[id]
            assert judged.nonconforming_count == 0, id
            assert all(one.limits.contains(end) for end in ends)


def test_accept_reject_and_incomplete(client: Client) -> None:
    assert client.conformance(BOLT, MANDATORY, lot_size=12000).verdict == "accept"
    without = {id: values for id, values in MANDATORY.items() if id != "tensile_load"}
    incomplete = client.conformance(BOLT, without)
    assert (incomplete.verdict, incomplete.missing) == ("incomplete", ("tensile_load",))
    broken = client.conformance(BOLT, {**MANDATORY, "fracture_location": ["thread", "head_junction"]})
    assert broken.verdict == "reject"
    assert broken.characteristics["fracture_location"].nonconforming_pieces == (1,)
    assert "ISO 898-1:2013" in next(one for one in broken.reasons if one.characteristic == "fracture_location").detail


def test_everything_beside_the_readings_arrives(client: Client) -> None:
    column = Column(
        [15.74, 15.9],
        unit="mm",
        expanded_uncertainty=0.02,
        coverage_factor=2,
        decision_rule={"rule": "guarded", "edition": "2013"},
        pieces=[4, 9],
        instrument="micrometer 3",
        measured_at="2026-01-31T06:00:00Z",
    )
    found = client.conformance(
        BOLT,
        {"width_across_flats": column, "length": {"values": [60.0, None]}},
        lot_size=500,
        fracture_rule="thread_only",
        requirements={"length": {"min": 59.9, "basis": {"document": "drawing 7", "revision": "B"}}, "marking": None},
        dropped={"marking": {"reason": "agreed"}},
        risks=True,
    )
    width = found.characteristics["width_across_flats"]
    assert width.decision_rule is not None
    assert (width.decision_rule.rule, width.decision_rule.edition) == ("guarded", "2013")
    assert (width.undecided_count, width.verdict) == (1, "undecided")
    assert found.characteristics["length"].count == 1
    assert str(found.characteristics["length"].limits) == "59.9 to 60.60 mm"
    assert found.characteristics["length"].basis.standard == "drawing 7"
    assert found.lot_size == 500
    assert found.fracture_rule == "thread_only"
    assert "marking" in found.dropped


def test_arrays_are_read_like_lists(client: Client) -> None:
    numpy = pytest.importorskip("numpy")
    found = client.conformance(
        BOLT, {"length": numpy.array([59.4, 60.6]), "thread_go_gauge": Column(numpy.array([True, False]))}
    )
    assert found.characteristics["length"].verdict == "conforming"
    assert found.characteristics["thread_go_gauge"].nonconforming_pieces == (1,)


def test_one_judgement_gives_the_same_bytes_again(client: Client) -> None:
    first, again = (client.conformance(BOLT, MANDATORY) for _ in range(2))
    assert first.body == again.body
    assert first.sha256 == again.sha256
    assert first.replay is not None
    assert first.replay.request == {"designation": BOLT, "readings": json.loads(json.dumps(MANDATORY))}
    replayed = client.conformance_replay(
        first.replay.request, fingerprint=first.fingerprint, answer_sha256=first.sha256
    )
    assert replayed.same is True
    assert replayed.answer == first
    assert client.conformance_replay(first.replay.request, answer_sha256="0" * 64).same is False


def test_a_specification_with_a_purchasers_requirements(client: Client) -> None:
    found = client.specification(
        BOLT,
        requirements={"length": {"min": Decimal("59.90")}, "marking": None},
        dropped={"marking": {"reason": "agreed"}},
        fracture_rule="thread_only",
    )
    assert found.characteristics["length"].limits.min == 59.9
    assert "marking" not in found.characteristics
    assert found.dropped["marking"] == {"reason": "agreed"}
    assert found.characteristics["fracture_location"].allowed == ("thread",)


def test_what_json_cannot_hold_is_refused_before_it_leaves(client: Client) -> None:
    with pytest.raises(TypeError, match="object"):
        client.conformance(BOLT, {"length": [object()]})
    with pytest.raises(ValueError, match="digits"):
        client.conformance(BOLT, {"length": [1.0]}, requirements={"length": {"min": Decimal("1.00000000000000000001")}})


@pytest.mark.parametrize(
    ("call", "kind", "code"),
    [
        (lambda client: client.thread_limits("M10x1.3-6g"), NotFoundError, "unknown_size"),
        (lambda client: client.thread_limits("M1-6H"), NotStandardisedError, "not_standardised"),
        (lambda client: client.thread_limits("M10"), DesignationError, "class_missing"),
        (lambda client: client.thread_limits("M10-6g", unit="N"), InvalidRequestError, None),
        (lambda client: client.thread_limits("x" * 10_000_000), BadRequestError, "uri_too_long"),
        (lambda client: client.specification("ISO 4014 - M10x60 - 8.7"), NotFoundError, "unknown_property_class"),
        (lambda client: client.specification("ISO 4014 - M10 - 8.8"), DesignationError, "length_missing"),
        (lambda client: client.product_dimensions("ISO 4014", "M10", -60), InvalidRequestError, None),
        (lambda client: client.conformance(BOLT, {}), ReadingsError, "no_readings"),
        (lambda client: client.conformance(BOLT, {"lenght": [60]}), ReadingsError, "unknown_characteristic"),
        (lambda client: client.conformance(BOLT, {"length": [60], "head_height": [6.4, 6.4]}), ReadingsError, None),
        (lambda client: client.conformance(BOLT, {"length": ["60"]}), MemberError, "wrong_type"),
        (lambda client: client.conformance(BOLT, {"length": [True]}), MemberError, "wrong_type"),
        (lambda client: client.conformance(BOLT, {"length": Column([60], unit="N")}), UnitError, "unit_does_not_fit"),
        (
            lambda client: client.conformance(BOLT, {"length": [60]}, decision_rule="guarded"),
            ReadingsError,
            "uncertainty_missing",
        ),
    ],
)
def test_a_refusal_is_the_error_of_its_family(
    client: Client, call: Callable[[Client], Result], kind: type[InvalidRequestError], code: str | None
) -> None:
    with pytest.raises(kind) as caught:
        call(client)
    assert caught.value.code == (code or caught.value.code)
    assert caught.value.detail
    assert caught.value.status in range(400, 500)


def test_a_refusal_names_the_nearest_the_place_and_the_request(client: Client) -> None:
    with pytest.raises(NotFoundError) as caught:
        client.thread_limits("M10x1.3-6g")
    assert caught.value.nearest[0] == "M10x1.25"
    assert caught.value.errors[0].pointer == "/designation"
    assert caught.value.type.endswith("/unknown_size")
    assert caught.value.request_id


def test_the_impact_of_a_change(client: Client) -> None:
    """Width across flats at M10: 17 mm in the former national standard, 16 mm in ISO 4017."""
    found = client.part_masters_impact("DIN 933", "ISO 4017", [{"description": "DIN 933 M10x40 8.8"}])
    (row,) = found.part_masters
    (flats,) = row.differences
    assert flats.before is not None
    assert flats.after is not None
    assert (flats.before.max, flats.after.max) == (17, 16)
    assert found.change["to"].name == "ISO 4017:2014"


def test_a_lot_by_deviation_through_the_client(client: Client) -> None:
    """45 kN agreed where 46.4 kN are asked for: said in the result and in the first lines of its summary."""
    readings = {
        **{id: column for id, column in MANDATORY.items() if id != "marking"},
        "tensile_load": Column([45.5, 48.0], unit="kN"),
        "salt_spray_240_h": [True, True],
    }
    found = client.conformance(
        BOLT,
        readings,
        requirements={
            "tensile_load": {"min": 45, "unit": "kN"},
            "salt_spray_240_h": {"kind": "attribute"},
            "marking": None,
        },
        dropped={"marking": {"reason": "unmarked by agreement"}},
    )
    assert (found.verdict, found.conforms_to_standard, found.package_marking) == ("accept", False, None)
    assert {one.id for one in found.deviations} == {"tensile_load", "marking"}
    assert next(one.why for one in found.not_looked_at) == "dropped by the purchaser: unmarked by agreement"
    assert "Verdict: ACCEPT BY DEVIATION" in found.summary()
    replay = client.conformance_replay(found.replay.request if found.replay else {}, answer=found.body)
    assert (replay.same, replay.moved) == (True, ())
