"""Volumes of heads and nuts: worked cases, and an independent integration of each body.

Solid geometry. Bodies are integrated over their cross-sections or their height by scipy's quadrature; no formula of the
engine is used.
"""

import math
from collections.abc import Callable
from decimal import Decimal
from typing import Any

import numpy as np
import pytest
from case_files import worked
from scipy import integrate

from boltwright_server.products import solids
from boltwright_server.products.solids import Body
from boltwright_server.quantities import Basis
from boltwright_server.quantities.derivation import Derivation

CASES = worked("solids")["cases"]
UNITS = {"volume": "mm3", "length": "mm", "ratio": "1"}
ANGLES = ("chi", "phi", "alpha", "beta", "delta")
NO_SOCKET = {"sw": 0.0, "t": 0.0, "D": 0.0, "phi": 120.0}
GIVEN = Basis("geometry", "-", "test", "computed", "formula")


def body_of(kind: str, given: dict[str, float]) -> tuple[Body, dict[str, float]]:
    """Return the body of a case and its sizes by the engine's symbols."""
    s, dc = given.get("s", 0), given.get("dc", 0)
    if kind == "hexagon_head":
        return solids.hexagon_head(s, dc), {**given, "chi": 30}
    if kind == "flange_head":
        return solids.flange_head(s, dc), {**given, "chi": 30, "dcf": given["dflange"]}
    if kind == "socket_head":
        return solids.CYLINDER_HEAD, {**given, "phi": 120}
    if kind == "countersunk_head":
        cone = {"dk": given["dk"], "ds": given["d"], "alpha": given["angle"], "f": given["land"]}
        return solids.COUNTERSUNK_HEAD, {**cone, **NO_SOCKET}
    if kind == "button_head":
        button = {"dk": given["dk"], "k": given["k"], "u": given["flat"], "f": given["f"]}
        return solids.BUTTON_HEAD, {**button, **NO_SOCKET}
    nut = {"s": s, "m": given["m"], "D1": given["bore"], "da": given["da"], "dc": dc, "beta": given["incl"], "chi": 30}
    return solids.nut(s, dc, flange=False), nut


@pytest.mark.parametrize("case", CASES, ids=[f"{one['kind']} {one['name']}" for one in CASES])
def test_a_worked_volume(case: dict[str, Any]) -> None:
    body, sizes = body_of(case["kind"], {name: float(size) for name, size in case["input_mm"].items()})
    assert solids.volume(body, sizes) == pytest.approx(float(case["numerical_mm3"]), rel=1e-7)


@pytest.mark.parametrize("case", CASES, ids=[f"{one['kind']} {one['name']}" for one in CASES])
def test_the_way_that_is_shown_gives_the_same_volume(case: dict[str, Any]) -> None:
    """The exact evaluation of the same lines, with fifty digits."""
    body, sizes = body_of(case["kind"], {name: float(size) for name, size in case["input_mm"].items()})
    work = Derivation()
    for name, size in sizes.items():
        work.given(name, Decimal(repr(size)), "deg" if name in ANGLES else "mm", GIVEN)
    for line in body:
        work.step(line.symbol, line.expression, UNITS[line.kind], GIVEN)
    assert float(work.number(body[-1].symbol)) == pytest.approx(solids.volume(body, sizes), rel=1e-12)


def hexagon_integral(s: float, upper: Callable[[float], float], lower: Callable[[float], float]) -> float:
    """Integrate a height that depends on the radius over a hexagon, by angle and radius."""

    def ray(angle: float) -> float:
        edge = s / 2 / math.cos(angle)
        found, _ = integrate.quad(lambda r: (upper(r) - lower(r)) * r, 0, edge, limit=200, epsabs=1e-12)
        return float(found)

    total, _ = integrate.quad(ray, 0, math.pi / 6, limit=200, epsabs=1e-11)
    return 12 * float(total)


@pytest.mark.parametrize("dc", [14.0, 15.2, 16.0, 16.9, 18.2, 20.0])
@pytest.mark.parametrize("chi", [15.0, 30.0])
def test_a_chamfer_by_integration(dc: float, chi: float) -> None:
    """The circle within the flats, on them, between flats and corners, beyond the corners."""
    s, k = 16.0, 6.4
    slope = math.tan(math.radians(chi))
    whole = hexagon_integral(s, lambda r: k - max(0.0, (r - dc / 2) * slope), lambda r: 0.0)
    body = solids.hexagon_head(s, dc)
    assert solids.volume(body, {"s": s, "k": k, "dw": 0, "c": 0, "dc": dc, "chi": chi}) == pytest.approx(
        whole, rel=1e-6
    )


@pytest.mark.parametrize(("delta", "c"), [(15.0, 1.5), (25.0, 1.5), (30.0, 0.8)])
def test_a_flange_by_integration(delta: float, c: float) -> None:
    """The ring between hexagon and rim, its top a cone."""
    s, outer = 13.0, 20.8
    slope = math.tan(math.radians(delta))

    def ray(angle: float) -> float:
        found, _ = integrate.quad(lambda r: (c + (outer / 2 - r) * slope) * r, s / 2 / math.cos(angle), outer / 2)
        return float(found)

    ring = 12 * float(integrate.quad(ray, 0, math.pi / 6)[0])
    sizes = {"s": s, "c": c, "dcf": outer, "delta": delta}
    assert solids.volume(solids.FLANGE, sizes) == pytest.approx(ring, rel=1e-6)


def revolved(height: float, radius: Callable[[float], float]) -> float:
    """Integrate a body of revolution over its height."""
    found, _ = integrate.quad(lambda z: math.pi * radius(z) ** 2, 0, height, limit=200, epsabs=1e-10)
    return float(found)


def test_round_heads_by_integration() -> None:
    """A zone of a sphere from the rim to the flat, a cone, a cylinder with its edge, a drill's point."""
    a, b, f, k = 7.0, 2.0, 0.3, 4.4
    h = k - f
    centre = (b * b - a * a + h * h) / (2 * h)
    sphere = math.sqrt(a * a + centre * centre)
    button = {"dk": 2 * a, "k": k, "u": 2 * b, "f": f, **NO_SOCKET}
    zone = revolved(h, lambda z: math.sqrt(sphere**2 - (z - centre) ** 2)) + math.pi * a * a * f
    assert solids.volume(solids.BUTTON_HEAD, button) == pytest.approx(zone, rel=1e-6)
    cone = revolved(4.2, lambda z: 4 + z) + math.pi * 8.2**2 * 0.76
    sunk = {"dk": 16.4, "ds": 8.0, "alpha": 90, "f": 0.76, **NO_SOCKET}
    assert solids.volume(solids.COUNTERSUNK_HEAD, sunk) == pytest.approx(cone, rel=1e-6)
    edge = revolved(0.8, lambda z: 6.5 - z) + math.pi * 6.5**2 * 7.2
    point = revolved(3 / math.tan(math.radians(59)), lambda z: 3 - z * math.tan(math.radians(59)))
    socket = 6 * 6 / 2 * math.sqrt(3) * 4 + point
    screw = {"dk": 13, "k": 8, "sw": 6, "t": 4, "v": 0.8, "D": 6, "phi": 118}
    assert solids.volume(solids.CYLINDER_HEAD, screw) == pytest.approx(edge - socket, rel=1e-6)


def test_nominal_mass_keeps_the_volume_of_its_chamfer() -> None:
    """The mean over the corners in doubles, by a fine sum: what nominal mass takes off a hexagon."""
    s, dc = 24.0, 0.95 * 24.0
    angles = (np.arange(20_000) + 0.5) * math.pi / 6 / 20_000
    outer, inner = s / 2 / np.cos(angles), dc / 2
    sectors = (outer**3 - inner**3) / 3 - inner * (outer**2 - inner**2) / 2
    cut = 12 * float(sectors.mean()) * math.pi / 6 * math.tan(math.radians(30))
    assert solids.volume(solids.chamfer(s, dc), {"s": s, "dc": dc, "chi": 30}) == pytest.approx(cut, rel=1e-6)
