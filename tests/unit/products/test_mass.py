"""Nominal mass: solids against closed forms, parts against masses that the trade prints."""

from decimal import Decimal
from math import pi, sqrt

import pytest

from boltwright_server.designations import parse_product
from boltwright_server.products import dimensions, find_product
from boltwright_server.products.mass import DENSITY_G_PER_MM3, Part, frustum, hexagon, mass_per_1000, tapped_section
from boltwright_server.products.product import size_of
from boltwright_server.quantities import Bounds


def _kg(mass: Bounds | None) -> float:
    assert mass is not None
    assert mass.nominal is not None
    return float(mass.nominal)


@pytest.mark.parametrize(
    ("size", "s", "m", "printed"),
    [
        ("M6", 10, 5, 2.5),
        ("M8", 13, 6.5, 5.2),
        ("M10", 17, 8, 11.6),
        ("M12", 19, 10, 17.3),
        ("M16", 24, 13, 33.3),
        ("M20", 30, 16, 64.4),
        ("M24", 36, 19, 110),
    ],
)
def test_nuts_of_the_former_sizes_weigh_what_catalogues_print(size: str, s: float, m: float, printed: float) -> None:
    """Nuts to DIN 934, kg per 1000: catalogue masses from memory, so within 4 percent."""
    thread = size_of(size)
    sizes = {"width_across_flats": s, "nut_height": m, "bearing_face_inner_diameter": 1.04 * float(thread.d)}
    found = mass_per_1000("hexagon", "nut", Part(thread, 0, None, sizes), inch=False)
    assert _kg(found) == pytest.approx(printed, rel=0.04)


@pytest.mark.parametrize(("size", "printed"), [("M10", "3.57"), ("M12", "6.27"), ("M16", "11.3"), ("M20", "17.2")])
def test_washers_weigh_what_catalogues_print(size: str, printed: str) -> None:
    """Washers to ISO 7089, kg per 1000: catalogue masses from memory; the ring is exact, so to the printed digit."""
    mass = dimensions(find_product("ISO 7089"), size_of(size), None).mass_per_1000
    assert _kg(mass) == float(printed)


def test_a_hexagon_without_chamfer_is_the_prism() -> None:
    assert hexagon(16, 10, 0) == pytest.approx(sqrt(3) / 2 * 16**2 * 10)


def test_a_chamfer_takes_little_and_both_ends_take_twice() -> None:
    """The cone of 30 degrees on a circle of 0.95 s cannot reach deeper than (1.1547 - 0.95) s / 2 x tan 30."""
    one = hexagon(16, 10, 0) - hexagon(16, 10, 1)
    assert 0 < one < (sqrt(3) / 2 - pi / 4 * 0.95**2) * 16**2 * (2 / sqrt(3) - 0.95) * 16 / 2 * 0.5774
    assert hexagon(16, 10, 0) - hexagon(16, 10, 2) == pytest.approx(2 * one)


def test_a_cone_and_a_cylinder_are_frustums() -> None:
    assert frustum(6, 0, 9) == pytest.approx(pi * 3**2 * 9 / 3)
    assert frustum(6, 6, 9) == pytest.approx(pi * 3**2 * 9)


def test_a_tapped_hole_lies_between_minor_and_major_diameter() -> None:
    """M10: D1 8.376, D 10; the mean section is a little more than that of D2 = 9.026."""
    section = tapped_section(size_of("M10"))
    assert pi / 4 * 9.026**2 < section < pi / 4 * 9.2**2


def test_ten_more_millimetres_of_shank_weigh_ten_millimetres_of_rod() -> None:
    product = find_product("ISO 4014")
    shorter, longer = (_kg(dimensions(product, size_of("M20"), Decimal(one)).mass_per_1000) for one in (100, 110))
    assert longer - shorter == pytest.approx(pi / 4 * 20**2 * 10 * DENSITY_G_PER_MM3, abs=1)


@pytest.mark.parametrize("product", ["ISO 7040", "ISO 4161", "ISO 4162", "ISO 4027", "ISO 4028", "ISO 4029"])
def test_a_form_that_is_not_held_has_no_mass(product: str) -> None:
    found = find_product(product)
    assert dimensions(found, size_of("M10"), Decimal(50) if found.has_length else None).mass_per_1000 is None


def test_an_inch_bolt_weighs_the_same_in_kg() -> None:
    """3/4-10 x 4 in against M20x100: as thick within 5 percent, as long within 2."""
    wanted = parse_product("ASME B18.2.1 hex cap screw - 3/4-10x4")
    inch = dimensions(wanted.product, wanted.size, wanted.length).mass_per_1000
    metric = dimensions(find_product("ISO 4014"), size_of("M20"), Decimal(100)).mass_per_1000
    assert _kg(inch) == pytest.approx(_kg(metric), rel=0.1)
