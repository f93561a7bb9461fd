"""Drawings of parts: to scale, with the symbols and limits of the product standards."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from math import sqrt

import pytest
from drawn import Drawing

from boltwright_server.documents import part_drawing
from boltwright_server.products import Product, products
from boltwright_server.quantities import Refusal
from boltwright_server.specification import Specification, specification
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
    # ISO 4762:2004, Table 1: dk 16, k max 10.00 and min 9.64, t min 5, s nominal 8, b 32; ISO 10642:2004: dk
    # theoretical 22.40, k 6.20, t 3.6; the length includes the countersunk head. ISO 7380-1:2011: dk 17.50, k 5.20 to
    # 5.50.
    "ISO 4762 - M10x60 - 8.8": {
        "head_diameter": 16.00,
        "head_height": 9.82,
        "washer_face_diameter": 15.33,
        "socket_depth": 5,
        "socket_width_across_flats": 8,
        "socket_width_across_corners": 8 * 2 / sqrt(3),
        "thread_length": 32,
        "grip_length": 28,
        "length": 60,
    },
    "ISO 10642 - M10x60 - 8.8": {
        "head_diameter_theoretical": 22.40,
        "head_diameter": 19.22,
        "head_height": 6.20,
        "socket_depth": 3.6,
        "grip_length": 28,
        "length": 60,
    },
    "ISO 7380-1 - M10x30 - 10.9": {"head_diameter": 17.50, "head_height": 5.35, "socket_depth": 3.12, "length": 30},
    # ISO 4162:2012 and ISO 4161:2012, Table 1, M10: dc 20.8 and 21.8, dw 18.7 and 19.6, s 13.00 and 15.00.
    "ISO 4162 - M10x60 - 8.8": {
        "flange_diameter": 20.8,
        "washer_face_diameter": 18.7,
        "width_across_flats": 13.00,
        "head_height": 9.7,
        "length": 60,
    },
    "ISO 4161 - M10 - 8": {
        "flange_diameter": 21.8,
        "washer_face_diameter": 19.6,
        "flange_thickness": 1.5,
        "width_across_flats": 15.00,
        "nut_height": 10.00,
    },
    # ISO 7040:2012, M10: h 11.20 to 11.90, m min 8.04. ISO 4028:2003, M8: dp 5.20 to 5.50, z long 4.00 to 4.30.
    "ISO 7040 - M10 - 8": {"nut_overall_height": 11.55, "nut_height": 8.04, "width_across_flats": 16.00},
    "ISO 4028 - M8x20 - 45H": {"point_diameter": 5.35, "point_length": 4.15, "socket_depth": 5.0, "length": 20},
    "ISO 4029 - M8x20 - 45H": {"cup_diameter": 4.85, "thread_major_diameter": 8, "length": 20},
    "threaded rod - M20x50 - 8.8": {"thread_major_diameter": 20, "length": 50},
    "ISO 7089 - 10 - 200 HV": {"inner_diameter": 10.50, "outer_diameter": 20.00, "thickness": 2},
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
    "ISO 4762 - M10x60 - 8.8": {
        "head_diameter": "dk 16.00 15.73",
        "socket_width_across_flats": "s 8.115 8.025",
        "socket_depth": "t ≥ 5",
    },
    "ISO 4027 - M8x20 - 45H": {"cone_tip_diameter": "dt ≤ 2.00"},
    "ISO 4161 - M10 - 8": {"flange_diameter": "dc ≤ 21.8", "flange_thickness": "c ≥ 1.5"},
    "ISO 7089 - 10 - 200 HV": {"inner_diameter": "d1 10.77 10.50", "thickness": "h 2.20 1.80"},
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


def test_a_broken_part_is_cut_where_nothing_ends() -> None:
    """ISO 128-3: the middle is left out; of M1.6x150 with b = 15 both the thread and what ls and lg end at stay."""
    drawn = drawing("ISO 4014 - M1.6x150 - 8.8")
    d = drawn.measured("thread_major_diameter")
    assert drawn.measured("thread_length") == pytest.approx(15 / 1.6 * d, abs=0.05)
    assert drawn.measured("grip_length") - drawn.measured("body_length") == pytest.approx(5 * 0.35 / 1.6 * d, abs=0.05)


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


def test_a_thread_alone_has_no_drawing_of_a_part() -> None:
    assert part_drawing(specification("M10-6g")) is None


#: Forms whose drawing is not held: the sheet says so.
UNDRAWN = (
    *("cap_nut", "castle_nut", "collar_nut", "square_nut"),
    *("slotted_screw", "recessed_screw", "hexalobular_screw", "square_neck_bolt"),
)
#: Lengths in diameters: short, usual and long; a set screw is shorter.
MULTIPLES = {"set screw": (0.8, 1.5, 2, 4), "bolt or screw": (1.5, 3, 8, 16), "threaded rod": (2.5, 100)}


def metric_products() -> Iterator[tuple[Product, str]]:
    """Every size of every metric product: short, usual and long."""
    for product in products():
        for size in () if product.family.inch else product.size_keys():
            d = float(size.removeprefix("M").split("x")[0])
            multiples = MULTIPLES[product.family.item] if product.has_length else ()
            lengths = [f"x{round(multiple * d)}" for multiple in multiples] or [""]
            name = size if product.names_thread else size.removeprefix("M")
            yield from ((product, f"{product.id} - {name}{length}") for length in lengths)


def inch_products() -> Iterator[tuple[Product, str]]:
    """Every size of every inch product with its coarse thread: short, usual and long."""
    coarse = {size.name: size.short for size in UNIFIED_INCH.sizes() if size.series_symbol == "UNC"}
    for product in products():
        for size in product.size_keys() if product.family.inch else ():
            lengths = ["x1", "x2", "x4", "x8"] if product.has_length else [""]
            yield from ((product, f"{product.id} - {coarse[size]}{length}") for length in lengths if size in coarse)


def specified(product: Product, name: str) -> Specification | None:
    """The first class in which the product can be specified at the size."""
    listed = [] if product.classes is None else [str(key[0]) for key in product.classes.rows]
    for property_class in [*listed, "SAE J429 5", "SAE J995 5", "SAE J995 2", "ASTM A574"]:
        try:
            return specification(f"{name} - {property_class}")
        except Refusal:
            continue
    return None


@pytest.mark.parametrize(("named", "least"), [(metric_products, 1000), (inch_products, 280)], ids=["metric", "inch"])
def test_no_text_meets_a_text_or_a_line_or_leaves_the_paper_in_any_size(
    named: Callable[[], Iterator[tuple[Product, str]]], least: int
) -> None:
    """Every product has a drawing: none of them is left to its numbers alone, but where its width is withheld."""
    seen = 0
    for product, name in named():
        found = specified(product, name)
        if found is None or product.row(found.size).withheld().keys() & {"s_max", "m_nom"}:
            continue
        if product.standard.family in UNDRAWN:
            assert part_drawing(found) is None
            continue
        drawn = Drawing(part_drawing(found) or "")
        assert not drawn.clashes(), name
        assert not drawn.struck_through(), name
        assert not drawn.outside(), name
        seen += 1
    assert seen > least
