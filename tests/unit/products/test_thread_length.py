"""Thread, grip and shank lengths."""

from decimal import Decimal

import pytest

from boltwright_server.products import ProductDimensions, dimensions, find_product
from boltwright_server.products.product import size_of
from boltwright_server.threads import UNIFIED_INCH


def _part(product: str, size: str, length: str) -> ProductDimensions:
    return dimensions(find_product(product), size_of(size), Decimal(length))


def test_grip_and_shank_of_a_hexagon_bolt() -> None:
    """ISO 4014, M12x80: b = 30, so lg max = 50 and ls min = 50 - 5 x 1.75 = 41.25 (rule: memory)."""
    found = _part("ISO 4014", "M12", "80").dimensions
    assert found["thread_length"].nominal == 30
    assert found["grip_length"].max == 50
    assert found["body_length"].min == Decimal("41.25")


@pytest.mark.parametrize(
    ("size", "to_head", "with_shank"),
    [
        ("M3", "20", "25"),
        ("M5", "25", "30"),
        ("M6", "30", "35"),
        ("M8", "35", "40"),
        ("M10", "40", "45"),
        ("M12", "50", "55"),
        ("M16", "60", "65"),
        ("M20", "70", "80"),
        ("M24", "80", "90"),
    ],
)
def test_short_socket_screws_are_threaded_to_the_head(size: str, to_head: str, with_shank: str) -> None:
    """ISO 4762:2004, stepped line of Table 1: longest screw without and shortest with a plain shank; memory."""
    short, long = _part("ISO 4762", size, to_head), _part("ISO 4762", size, with_shank)
    assert short.fully_threaded
    assert "body_diameter" not in short.dimensions
    assert not long.fully_threaded
    assert "body_diameter" in long.dimensions


def test_flange_bolts_are_threaded_to_the_head_up_to_the_length_of_the_table() -> None:
    """ISO 15071:2011, Table 1: M10 up to 40 mm; one reproduction."""
    assert _part("ISO 15071", "M10", "40").fully_threaded
    assert not _part("ISO 15071", "M10", "45").fully_threaded


def test_a_bolt_too_short_for_a_shank_names_the_screw_to_order() -> None:
    assert any("ISO 4017" in notice for notice in _part("ISO 4014", "M10", "30").notices)
    assert any("ISO 4018" in notice for notice in _part("ISO 4016", "M10", "30").notices)


@pytest.mark.parametrize(("length", "depth", "point"), [("6", "2.0", "1.50"), ("12", "3.5", "3.00"), ("8", None, None)])
def test_set_screws_between_short_and_long_have_no_depth(length: str, depth: str | None, point: str | None) -> None:
    """ISO 4028:2003, M6: t 2.0 or 3.5, z 1.50 or 3.00, two reproductions; the line between them is not held."""
    found = _part("ISO 4028", "M6", length)
    given = [found.dimensions[id].min if id in found.dimensions else None for id in ("socket_depth", "point_length")]
    assert given == [None if one is None else Decimal(one) for one in (depth, point)]
    assert (depth is None) == any("between d and 2 d" in notice for notice in found.notices)


def test_the_transition_of_an_inch_bolt_is_that_of_the_printed_table() -> None:
    """ASME B18.2.1 prints Y of hex cap screws, 5 pitches to 0.001 in, two reproductions; hex bolts print none."""
    cap, bolt = (find_product(f"ASME B18.2.1 hex {name}") for name in ("cap screw", "bolt"))
    coarse = {size.name: size for size in UNIFIED_INCH.sizes() if size.series_symbol == "UNC"}
    for name in bolt.size_keys():
        printed, length = cap.row(coarse[name]).number("Y_nom"), Decimal(6)
        found = dimensions(bolt, coarse[name], length).dimensions
        assert found["grip_length"].max - found["body_length"].min == printed, name
