"""Answers of every resource, a digest a request: `python tests/snapshots/recorded_answers.py` writes them anew.

Same fingerprint and request, same bytes: where a digest moves, the fingerprint must have moved, by a table or by
ENGINE_VERSION, and docs/changes says what moved. The script refuses to record moved answers under the old fingerprint.
"""

from __future__ import annotations

import csv
import hashlib
import json
import re
import sys
from collections.abc import Iterator
from decimal import Decimal
from pathlib import Path
from typing import Any
from urllib.parse import urlencode

from flask.testing import FlaskClient

from boltwright_server.designations import ProductDesignation, parse_size
from boltwright_server.mechanical import grades
from boltwright_server.products import Product, products
from boltwright_server.quantities import Refusal
from boltwright_server.specification.configuration import Configuration
from boltwright_server.standards.fingerprint import fingerprint
from boltwright_server.web.app import create_app

RECORD = Path(__file__).with_name("recorded_answers.csv")
BOLT, NUT, SCREW = "ISO 4014 - M10x60 - 8.8", "ISO 4032 - M10 - 8", "ASME B18.2.1 hex cap screw - 1/2-13x2 - SAE J429 5"
THREADS = ("M10-6g", "M10x1.25-6H", "M12-6az", "M16-6AZ", "M10-6H/6g", "M20-5g6g", "1/2-13 UNC-2A", "1/4-28 UNF-3B")
PLANS: tuple[dict[str, Any], ...] = (
    {"scheme": "ISO 2859-1", "lot_size": 12000, "aql": 1},
    {"scheme": "ISO 2859-1", "lot_size": 500, "aql": "0.65", "level": "S-4", "severity": "tightened"},
    {"scheme": "ISO 3269", "lot_size": 12000, "aql": 1, "group": "A"},
    {"scheme": "zero-acceptance", "lot_size": 2000, "limiting_quality": "0.05", "consumer_risk": "0.1"},
)
ROWS: tuple[dict[str, Any], ...] = (
    {"part_number": "1", "description": "HEX BOLT M10X60 8.8 ISO 4014"},
    {"part_number": "2", "description": "SKT SCHR DIN 933 M12x40 10.9 verzinkt", "mates_with": NUT},
    {"part_number": "3", "designation": BOLT, "tensile_load": 46400, "width_across_flats": "17,0"},
    {"part_number": "4", "designation": "ISO 4032 - M16 - 8Z - tZn"},
    {"part_number": "5", "description": "ECROU HEX M16 CL 10"},
    {"part_number": "6", "designation": "ISO 4014 - M16x80 - 8.8S"},
    {"part_number": "7", "description": "VITE TE M8X30 A2-70 UNI 5739"},
    {"part_number": "8", "description": "TORNILLO 1/2-13 X 2 GR 5 UNC"},
    {"part_number": "9", "description": "what is this"},
)
_LOT = {
    "lot_size": 12000,
    "readings": {
        "width_across_flats": {"values": [15.8, 15.81, 16.0, 15.73], "expanded_uncertainty": 0.01},
        "head_height": {"values": [6.4, 6.41, 6.39, 6.22], "expanded_uncertainty": 0.02},
        "tensile_load": {"values": [49.2, 48.8], "unit": "kN", "expanded_uncertainty": 0.1},
        "fracture_location": ["thread", "thread"],
        "thread_go_gauge": [True, True, True, False],
        "hardness_core": {"values": [270, 280, None, None], "unit": "HV", "expanded_uncertainty": 3},
    },
}


#: How long a catalogue took is told with its answer and is no part of what is recorded.
_VARIES = re.compile(rb'"rows_per_second":[0-9.]+')


def requests() -> Iterator[tuple[str, str, Any]]:
    """Yield verb, path with query, and body."""
    yield from _look_ups()
    for product in products():
        yield from _of_product(product)
    for grade in grades():
        thread = "1/2-13" if re.match(r"SAE|ASTM (?!F568M)", grade.name) else "M12"
        yield _get("mechanical-minimums", thread=thread, grade=grade.name, member=grade.member)
    yield from _judgements()


def _look_ups() -> Iterator[tuple[str, str, Any]]:
    for path in ("standards", "units", "tolerance-classes", "products", "look-alikes"):
        yield _get(path)
    yield _get("threads", limit=50)
    for thread in THREADS:
        yield _get("thread-limits", designation=thread, explain="true")
        yield _get("gauge-sizes", designation=thread)
        coating = "tZn" if "z" in thread.lower() else "Fe/Zn8"
        yield _get("coating-limits", designation=thread.split("/6g")[0], coating=coating)
    yield _get("thread-fit", external="M12-6az", internal="M12-6H")
    yield _get("hardness-conversion", value=320, **{"from": "HV", "to": "HRC"})
    yield _get("size-limits", nominal=17, feature="width_across_flats", grade="A")
    yield _get("size-limits", nominal=17, tolerance_class="h13")
    for bolt in (BOLT, SCREW, "M8 - A2-70", "ISO 4014 - M12x60 - 10.9U - tZn"):
        yield _get("pairing", bolt=bolt)
    for designation in (BOLT, NUT, "ISO 7089 - 10 - 200 HV"):
        yield _get("equivalents", designation=designation)
    for plan in PLANS:
        yield _get("sampling-plan", **plan)


def _of_product(product: Product) -> Iterator[tuple[str, str, Any]]:
    sizes = [one.value for one in Configuration(product).next_step()[1].values]
    for name in dict.fromkeys((sizes[0], sizes[len(sizes) // 2], sizes[-1])):
        size = parse_size(product, name)
        length = Decimal(2 if product.family.inch else 60) if product.has_length else None
        given = {} if length is None else {"length": length}
        yield _get("product-dimensions", standard=product.id, size=name, **given)
        try:
            _, choices = Configuration(product, size, length).next_step()
        except Refusal:
            continue
        for choice in choices.values[:2]:
            named = ProductDesignation(product, size, length, choice.value)
            yield _get("specification", designation=named.canonical)


def _judgements() -> Iterator[tuple[str, str, Any]]:
    for designation in (BOLT, "ISO 4014 - M10x60 - 8.8 - Fe/Zn8", "ISO 4017 - M10x60 - 10.9 - tZn"):
        for rule in ("simple", "guarded", "absolute", "rounded"):
            yield _post("conformance", {"designation": designation, "decision_rule": rule, **_LOT})
    hardness = {"values": [190], "unit": "HV"}
    yield _post("conformance", {"designation": NUT, "readings": {"nut_proof_load": [True], "hardness_core": hardness}})
    yield _post("part-masters/validation", {"part_masters": list(ROWS)})
    yield _post("part-masters/impact", {"change": {"from": "DIN 933", "to": "ISO 4017"}, "part_masters": list(ROWS)})
    values = [15.8, 15.81, 15.83, 15.84, 15.79, 15.82, 15.8, 15.81, 15.85, 15.8] * 3
    for path in ("capability", "histogram", "control-chart", "narrow-limits", "trend"):
        limits = {} if path == "control-chart" else {"min": 15.73, "max": 16}
        size = {"subgroup_size": 5} if path in ("capability", "control-chart") else {}
        yield _post(path, {"values": values, **limits, **size})
    lots = [{"lot_size": 1200, "nonconforming": count} for count in (0, 0, 5, 6, 0, 0, 0, 0)]
    yield _post("sampling-plan/switching", {"aql": 1, "lots": lots})
    yield from _stations()
    gauge = {"designation": "M10-6g", "gauge": "go_screw_ring", "measured": {"value": 9.001, "unit": "mm"}}
    yield _post("gauge-sizes/check", gauge)
    requirements = {"width_across_flats": {"min": 15.8, "unit": "mm"}}
    yield _post("specification", {"designation": BOLT, "requirements": requirements})


def _stations() -> Iterator[tuple[str, str, Any]]:
    for designation in (BOLT, NUT, "M10-6g", "3/4-16 UNF-2A", "ISO 4032 - M12 - 8Z - tZn"):
        yield _get("set-points", designation=designation)
    plant = {"wire_diameter": 9.65, "head_trim": 0.02, "elongation": 0.005, "tools": {"chamfer_circle": 15.2}}
    yield _post("set-points", {"designation": BOLT, "aims": {"thread_length": 26}, "explain": True, **plant})
    before, after = [8.9, 8.91, 8.92, 8.9, 8.915, 8.905, 8.9, 8.91, 8.92, 8.9], [8.905] * 5 + [8.915] * 5
    yield _post("state-limits", {"min": 8.862, "max": 8.994, "unit": "mm", "before": before, "after": after})
    station = {"min": 8.869, "max": 8.979, "resolution": 0.001}
    readings = [{"number": number, "value": value} for number, value in enumerate((8.92, 8.93, 8.91, 8.95, 8.97), 1)]
    yield _post("piece-decision", {"station": station, "readings": readings})


def _get(path: str, **query: Any) -> tuple[str, str, Any]:
    return "GET", f"/v1/{path}?{urlencode(query)}".rstrip("?"), None


def _post(path: str, body: Any) -> tuple[str, str, Any]:
    return "POST", f"/v1/{path}", body


def digests(client: FlaskClient) -> dict[str, str]:
    """Return the digest of every answer, its fingerprint left out, by request."""
    found = {}
    for verb, path, body in requests():
        answer = client.open(path, method=verb, json=body)
        bare = _VARIES.sub(b"", answer.get_data().replace(fingerprint().encode(), b""))
        name = f"{verb} {path}" if body is None else f"{verb} {path} {json.dumps(body, separators=(',', ':'))}"
        found[name] = f"{answer.status_code} {hashlib.sha256(bare).hexdigest()[:24]}"
    return found


def recorded() -> tuple[str, dict[str, str]]:
    """Return the fingerprint under which the answers were recorded, and the digests by request."""
    with RECORD.open(encoding="utf-8", newline="") as file:
        (_, known), *rows = csv.reader(file)
    return known, dict(rows)


def moved(before: dict[str, str], after: dict[str, str]) -> list[str]:
    """Return the requests whose answers are not those recorded."""
    return [name for name in before if after.get(name, before[name]) != before[name]]


def main() -> int:
    """Write the record; refuse it where answers moved and the fingerprint did not."""
    after = digests(create_app().test_client())
    known, before = recorded() if RECORD.exists() else ("", {})
    others = moved(before, after)
    if others and known == fingerprint():
        print("\n".join(others[:20]))
        print(f"{len(others)} answers moved under the fingerprint {known}: raise ENGINE_VERSION first", file=sys.stderr)
        return 1
    with RECORD.open("w", encoding="utf-8", newline="") as file:
        csv.writer(file, lineterminator="\n").writerows([("fingerprint", fingerprint()), *after.items()])
    print(f"{len(after)} answers, {len(others)} moved")
    return 0


if __name__ == "__main__":
    sys.exit(main())
