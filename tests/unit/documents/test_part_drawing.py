"""Drawings of hexagon bolts, screws and nuts: to scale, with the symbols and limits of the product standards."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from math import sqrt

import pytest
from drawn import Drawing

from boltwright_server.documents import part_drawing
from boltwright_server.products import products
from boltwright_server.quantities import Refusal
from boltwright_server.specification import specification
from boltwright_server.threads import UNIFIED_INCH

#: Sizes drawn, in mm: the nominal value, else the middle of the limits, else the only limit. Figures of ISO 4014:2011,
#: Tables 1 and 2 (M10), ISO 4017:2014 (M24, d > 24 grade A by l), ISO 8765:2011 (M12x1.5), ISO 4032:2012 (M16), each
#: checked against two reproductions; s over corners is s 2/sqrt(3) by geometry.
PRINTED = {
    "ISO 4014 - M10x60 - 8.8": {
        "width_across_flats": 16.00,
        "width_across_corners": 16.00 * 2 / sqrt(3),
        "head_height": 6.4,
        "washer_face_diameter": 14.63,
        "body_diameter": 10.00,
        "length": 60,
        "thread_length": 26,
        "grip_length": 34,
        "body_length": 26.5,
        "thread_major_diameter": 10,
    },
    "ISO 8765 - M12x1.5x100 - 8.8": {
        "width_across_flats": 18.00,
        "head_height": 7.5,
        "washer_face_diameter": 16.63,
        "body_diameter": 12.00,
        "length": 100,
        "thread_length": 30,
        "grip_length": 70,
        "body_length": 62.5,
        "thread_major_diameter": 12,
    },
    "ISO 4017 - M24x80 - 10.9": {
        "width_across_flats": 36.00,
        "head_height": 15,
        "washer_face_diameter": 33.61,
        "length": 80,
        "unthreaded_length": (3.00 + 9.00) / 2,
        "thread_major_diameter": 24,
    },
    # ASME B18.2.1, hex cap screw 1/2: F 0.736/0.750 (middle 0.743), H 0.302/0.323, E max 0.5000, LT 1.250.
    "ASME B18.2.1 hex cap screw - 1/2-13x2 - SAE J429 5": {
        "width_across_flats": 0.743,
        "head_height": 0.3125,
        "body_diameter": 0.5,
        "length": 2,
        "thread_length": 1.25,
        "grip_length": 0.75,
    },
    "ISO 4032 - M16 - 8": {
        "width_across_flats": 24.00,
        "width_across_corners": 24.00 * 2 / sqrt(3),
        "nut_height": 14.8,
        "washer_face_diameter": 22.5,
    },
}
#: What stands at the dimensions; the upper limit of size stands above the lower one (ISO 14405-1:2016).
WRITTEN = {
    "ISO 4014 - M10x60 - 8.8": {
        "width_across_flats": "s 16.00 15.73",
        "width_across_corners": "e ≥ 17.77",
        "head_height": "k 6.58 6.22",
        "washer_face_diameter": "dw ≥ 14.63",
        "washer_face_thickness": "c 0.60 0.15",
        "bearing_face_inner_diameter": "da ≤ 11.2",
        "body_diameter": "ds 10.00 9.78",
        "fillet_radius": "r ≥ 0.40",
        "transition_length": "lf ≤ 2.0",
        "length": "l 60.60 59.40",
        "thread_length": "b (26)",
        "grip_length": "lg ≤ 34",
        "body_length": "ls ≥ 26.5",
        "thread_major_diameter": "d 9.968 9.732",
    },
    "ISO 4017 - M24x80 - 10.9": {"unthreaded_length": "a 9.00 3.00", "length": "l 80.60 79.40"},
    "ISO 4032 - M16 - 8": {
        "nut_height": "m 14.80 14.10",
        "washer_face_diameter": "dw ≥ 22.5",
        "thread_major_diameter": "D ≥ 16.000",
        "thread_minor_diameter": "D1 14.210 13.835",
        "width_across_flats": "s 24.00 23.67",
        "width_across_corners": "e ≥ 26.75",
    },
}


def drawing(designation: str) -> Drawing:
    svg = part_drawing(specification(designation))
    assert svg is not None
    return Drawing(svg)


@pytest.mark.parametrize("designation", PRINTED)
def test_every_dimension_is_drawn_to_one_scale(designation: str) -> None:
    drawn, sizes = drawing(designation), PRINTED[designation]
    longest = max(sizes, key=sizes.__getitem__)
    scale = drawn.measured(longest) / sizes[longest]
    for figure, size in sizes.items():
        assert drawn.measured(figure) == pytest.approx(scale * size, abs=0.02), figure


@pytest.mark.parametrize("designation", WRITTEN)
def test_symbols_and_limits_stand_at_the_dimensions(designation: str) -> None:
    figures = drawing(designation).figures()
    assert WRITTEN[designation].items() <= figures.items()


def test_a_very_long_bolt_is_drawn_broken_and_says_so() -> None:
    """ISO 128-3: a long part may be shortened; 500 mm of M5 would leave a head of 1 mm."""
    svg = part_drawing(specification("ISO 4014 - M5x500 - 8.8"))
    assert svg is not None
    assert "left out" in svg
    assert "left out" not in (part_drawing(specification("ISO 4014 - M10x60 - 8.8")) or "")
    drawn = Drawing(svg)
    assert drawn.measured("length") < drawn.measured("width_across_flats") * 500 / 8 / 2


def test_line_widths_are_those_of_a_technical_drawing() -> None:
    """ISO 128-2:2020: thick to thin as 2 to 1, here 0.7 and 0.35 mm; hatching may be thinner."""
    svg = part_drawing(specification("ISO 4032 - M16 - 8")) or ""
    widths = {part.split('"')[0] for part in svg.split('stroke-width="')[1:]}
    assert {"0.7", "0.35"} < widths
    assert sorted(map(float, widths))[-2:] == [0.35, 0.7]


def test_a_drawing_names_and_describes_itself() -> None:
    drawn = drawing("ISO 4014 - M10x60 - 8.8")
    names = drawn.root.attrib["aria-labelledby"].split()
    texts = {node.attrib["id"]: node.text for node in drawn.root if "id" in node.attrib}
    assert [bool(texts[name]) for name in names] == [True, True]
    assert "ISO 4014 - M10x60 - 8.8" in (texts[names[0]] or "")


def test_links_lead_the_figures_and_change_nothing_else() -> None:
    found = specification("ISO 4014 - M10x60 - 8.8")
    alone, linked = part_drawing(found) or "", part_drawing(found, {"length": "#basis-2"}) or ""
    assert "<a " not in alone
    assert linked.count("<a ") == 1
    assert linked.replace('<a href="#basis-2" tabindex="-1">', "").replace("</a>", "") == alone


@pytest.mark.parametrize("designation", ["M10-6g", "ISO 4762 - M10x50 - 8.8", "ISO 4161 - M10 - 8"])
def test_no_drawing_is_better_than_that_of_another_family(designation: str) -> None:
    assert part_drawing(specification(designation)) is None


def metric_products() -> Iterator[str]:
    """Every size of every metric hexagon product without flange: short, usual and long."""
    for product in products():
        if product.standard.family in ("hexagon_bolt", "hexagon_nut"):
            for size in product.size_keys():
                d = float(size.removeprefix("M").split("x")[0])
                lengths = [f"x{round(multiple * d)}" for multiple in (1.5, 3, 8)] if product.has_length else [""]
                yield from (f"{product.id} - {size}{length}" for length in lengths)


def inch_products() -> Iterator[str]:
    """Every size of every inch hexagon product with its coarse thread: short, usual and long."""
    coarse = {size.name: size.short for size in UNIFIED_INCH.sizes() if size.series_symbol == "UNC"}
    for product in products():
        if product.standard.family in ("inch_hexagon_bolt", "inch_hexagon_nut"):
            for size in product.size_keys():
                lengths = ["x1", "x2", "x4", "x8"] if product.has_length else [""]
                yield from (f"{product.id} - {coarse[size]}{length}" for length in lengths)


@pytest.mark.parametrize(
    ("names", "classes", "least"),
    [
        (metric_products, ("8.8", "4.6", "8", "04", "5", "10"), 250),
        (inch_products, ("SAE J429 5", "SAE J995 5", "SAE J995 2"), 150),
    ],
    ids=["metric", "inch"],
)
def test_no_text_meets_a_text_or_a_line_or_leaves_the_paper_in_any_size(
    names: Callable[[], Iterator[str]], classes: tuple[str, ...], least: int
) -> None:
    seen = 0
    for name in names():
        for property_class in classes:
            try:
                found = specification(f"{name} - {property_class}")
            except Refusal:
                continue
            drawn = Drawing(part_drawing(found) or "")
            assert not drawn.clashes(), name
            assert not drawn.struck_through(), name
            assert not drawn.outside(), name
            seen += 1
            break
    assert seen > least
