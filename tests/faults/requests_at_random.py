"""Requests of the kinds that the interface knows, with members left out, added and filled with whatever people send."""

from __future__ import annotations

import copy
import random
from collections.abc import Iterator, Mapping
from typing import Any

BOLT = "ISO 4014 - M10x60 - 8.8"
TEXTS = ("M10-6g", "M10-6H/6g", "1/2-13 UNC-2A", "M10x1.25", "ISO 4014", BOLT, "ISO 7089 - 10 - 200 HV", "8.8", "tZn",
         "ASME B18.2.1 hex cap screw - 1/2-13x2 - SAE J429 5", "threaded rod - M12x1000 - 8.8", "Fe/Zn8", "mm", "HRC",
         "", "0", "-1", "1e309", "NaN", "1e-400", "9" * 20, "1_000", "\u0663", "\u00bd", "\x00", "\U0001f600", "0x10",
         "a" * 300, "{}", "null", "../..", "M0", "M-1", "1/0-13", "M10x60x60", "ISO 4014 - M10x0 - 8.8", "1,5",
         "ISO 4014 - M10x99999 - 8.8", f"{BOLT} - tZn - tZn")  # fmt: skip
VALUES = (0, 1, -1, 1.5, 60, 15.9, 10**20, 1e308, 5e-324, -0.0, None, True, False, [], {}, [1], [None], {"x": 1}, [[1]])
#: What the requests are made from, by path: each is answered as it stands.
BODIES: dict[str, dict[str, Any]] = {
    "conformance": {"designation": BOLT, "lot_size": 100, "decision_rule": "guarded",
                    "readings": {"length": {"values": [60, None], "expanded_uncertainty": 0.01}},
                    "requirements": {"length": {"min": 59.5, "unit": "mm", "basis": {"document": "D"}}}},
    "capability": {"values": [1, 2, 3, 2, 1, 2], "min": 0, "max": 4, "subgroup_size": 2},
    "control-chart": {"values": [1, 2, 3, 2, 1, 2, 3, 1], "chart": "individuals", "rule_set": "ISO 7870-2"},
    "histogram": {"values": [15.9, 15.8], "designation": BOLT, "characteristic": "width_across_flats"},
    "narrow-limits": {"values": [1, 2, 3], "min": 0, "max": 4},
    "trend": {"values": [1, 2, 3, 4, 5, 6], "max": 9},
    "gauge-sizes/check": {"gauges": [{"designation": "M10-6g", "gauge": "go_screw_ring",
                                      "measured": {"value": 9.0, "unit": "mm"}}]},
    "sampling-plan/switching": {"aql": 1, "level": "II", "lots": [{"lot_size": 1000, "nonconforming": 0}]},
    "specification": {"designation": BOLT, "requirements": {"length": {"min": 59.5, "unit": "mm"}}},
    "conformance/replay": {"request": {"designation": BOLT, "readings": {"length": [60]}}},
    "part-masters/validation": {"part_masters": [{"description": BOLT, "tensile_load": 46400}]},
    "part-masters/impact": {"change": {"from": "ISO 4014", "to": "ISO 4016"},
                            "part_masters": [{"description": BOLT}]},
}  # fmt: skip


def queries(chance: random.Random, parameters: list[Mapping[str, Any]], count: int) -> Iterator[dict[str, str]]:
    """Yield query strings of an operation that OpenAPI describes."""
    for _ in range(count):
        sent = {}
        for one in parameters:
            if chance.random() < (0.9 if one.get("required") else 0.4):
                known = [
                    *one["schema"].get("enum", ()),
                    *filter(None, (one.get("example"), one["schema"].get("example"))),
                ]
                sent[one["name"]] = chance.choice(known if known and chance.random() < 0.6 else TEXTS)
        yield sent


def bodies(chance: random.Random, body: dict[str, Any], count: int) -> Iterator[Any]:
    """Yield a body with one to three of its members changed, removed or added."""
    for _ in range(count):
        changed = copy.deepcopy(body)
        for _ in range(chance.randint(1, 3)):
            _change(chance, changed)
        yield changed


def _change(chance: random.Random, node: Any) -> None:
    keys = list(node) if isinstance(node, dict) else list(range(len(node)))
    if not keys:
        return
    key = chance.choice(keys)
    inner = node[key]
    if isinstance(inner, dict | list) and inner and chance.random() < 0.7:
        _change(chance, inner)
    elif chance.random() < 0.7:
        node[key] = copy.deepcopy(chance.choice((*VALUES, *TEXTS)))
    elif isinstance(node, dict) and chance.random() < 0.5:
        node[chance.choice(TEXTS)] = copy.deepcopy(chance.choice(VALUES))
    else:
        del node[key]
