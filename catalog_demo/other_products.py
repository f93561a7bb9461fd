"""Invented lots and part masters of other products: sockets, flanges, washers, inch, rods."""

from __future__ import annotations

from lots import THREAD, Lot, Measured

LOTS = (
    Lot(
        "T-2611",
        "ISO 4762 - M8x45 - 12.9",
        10000,
        "Everything conforms.",
        "accept",
        {
            "socket_width_across_flats": Measured(6.055, 0.02, 3),
            "head_diameter": Measured(12.90, 0.06),
            "head_height": Measured(7.82, 0.08),
            "body_diameter": Measured(7.90, 0.05),
            "socket_depth": Measured(4.30, 0.12),
            "length": Measured(45.0, 0.3),
            **THREAD,
            "marking": "pass",
            "hardness_core [HV]": Measured(408, 8, 0, 5),
            "tensile_load [kN]": Measured(46.5, 0.8, 1, 4),
            "fracture_location": "thread of 4",
        },
    ),
    Lot(
        "T-2612",
        "ISO 7089 - 10 - 200 HV",
        50000,
        "Strip of the wrong thickness at the end of the coil: one washer is too thin.",
        "reject",
        {
            "inner_diameter": Measured(10.62, 0.06),
            "outer_diameter": Measured(19.75, 0.12),
            "thickness": Measured(1.98, 0.06),
            "hardness_core [HV]": Measured(240, 12, 0, 5),
        },
        {(7, "thickness"): "1.74"},
    ),
    Lot(
        "T-2613",
        "ASME B18.2.1 hex cap screw - 1/2-13x2 - SAE J429 5",
        7500,
        "Everything conforms, in inches and pounds.",
        "accept",
        {
            "width_across_flats": Measured(0.743, 0.004, 3),
            "width_across_corners": Measured(0.853, 0.006, 3),
            "body_diameter": Measured(0.4965, 0.002, 4),
            "head_height": Measured(0.312, 0.006, 3),
            "length": Measured(1.98, 0.015),
            **THREAD,
            "marking": "pass",
            "hardness_core [HRC]": Measured(29, 2, 0, 5),
            "tensile_load [lbf]": Measured(18100, 500, 0, 4),
            "fracture_location": "thread of 4",
        },
    ),
    Lot(
        "T-2614",
        "threaded rod - M12x1000 - 8.8",
        800,
        "No product standard is named, so the length is the order's; the rods hold what their class asks.",
        "accept",
        {
            **THREAD,
            "marking": "pass",
            "hardness_core [HV]": Measured(283, 10, 0, 5),
            "tensile_load [kN]": Measured(71.5, 1.0, 1, 4),
            "fracture_location": "thread of 4",
        },
    ),
    Lot(
        "T-2615",
        "ISO 4014 - M42x200 - 8.8",
        300,
        "Above M39 the strength is as agreed with the purchaser, and nothing was recorded of it.",
        "incomplete",
        {
            "width_across_flats": Measured(64.2, 0.4),
            "width_across_corners": Measured(73.0, 0.6),
            "head_height": Measured(26.0, 0.2),
            "body_diameter": Measured(41.7, 0.15),
            "length": Measured(200.0, 1.2, 1),
            **THREAD,
        },
    ),
    Lot(
        "T-2616",
        "ISO 4161 - M10 - 8",
        25000,
        "The flange of one nut was pressed too wide.",
        "reject",
        {
            "width_across_flats": Measured(14.87, 0.06),
            "width_across_corners": Measured(16.95, 0.1),
            "flange_diameter": Measured(21.5, 0.15),
            "nut_height": Measured(9.82, 0.09),
            **THREAD,
            "marking": "pass",
            "hardness_core [HV]": Measured(245, 12, 0, 5),
            "nut_proof_load": "pass of 3",
        },
        {(4, "flange_diameter"): "21.93"},
    ),
)
#: (description, designation, stored width across flats). The flange nut M10 has 15 mm in ISO 4161:2012, Table 1; 16 mm
#: is the width of an older standard (EN 1661). What has no hexagon outside stores no width.
PART_MASTERS = (
    ("socket head cap screw M8x45 12.9", "ISO 4762 - M8x45 - 12.9", ""),
    ("countersunk screw M6x30 8.8", "ISO 10642 - M6x30 - 8.8", ""),
    ("button head screw M6x16 10.9", "ISO 7380-1 - M6x16 - 010.9", ""),
    ("set screw M8x12 45H", "ISO 4026 - M8x12 - 45H", ""),
    ("hexagon bolt with flange M10x50 8.8", "ISO 4162 - M10x50 - 8.8", "13"),
    ("hexagon nut with flange M10 8", "ISO 4161 - M10 - 8", "15"),
    ("hexagon nut with flange M10 8, old width", "ISO 4161 - M10 - 8", "16"),
    ("prevailing torque nut M10 8", "ISO 7040 - M10 - 8", "16"),
    ("plain washer 10 200 HV", "ISO 7089 - 10 - 200 HV", ""),
    ("hex cap screw 1/2-13x2 grade 5", "ASME B18.2.1 hex cap screw - 1/2-13x2 - SAE J429 5", ""),
    ("threaded rod M12x1000 8.8", "threaded rod - M12x1000 - 8.8", ""),
    ("hexagon bolt M42x200 8.8", "ISO 4014 - M42x200 - 8.8", "65"),
)
