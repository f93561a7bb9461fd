"""The invented lots: what was made, about what the readings scatter, and what went wrong with it."""

from __future__ import annotations

from dataclasses import dataclass, field


@dataclass(frozen=True)
class Measured:
    """A column of readings: centre and half width of the scatter, decimals, and on how many pieces it was taken."""

    centre: float
    spread: float
    decimals: int = 2
    pieces: int = 99


@dataclass(frozen=True)
class Lot:
    """A lot; `columns` maps a header of readings.csv to its scatter or to one word for all pieces.

    `special` holds the readings that tell the story, by piece and header.
    """

    id: str
    designation: str
    lot_size: int
    story: str
    expected_verdict: str
    columns: dict[str, Measured | str]
    special: dict[tuple[int, str], str] = field(default_factory=dict)
    pieces: int = 8
    judged_by: dict[str, str] = field(default_factory=dict)
    expanded_uncertainty: dict[str, float] = field(default_factory=dict)

    def as_toml(self) -> str:
        """Return the lot file."""
        lines = [
            "# Invented.",
            f'lot = "{self.id}"',
            f'story = "{self.story}"',
            f'designation = "{self.designation}"',
            f"lot_size = {self.lot_size}",
            f'expected_verdict = "{self.expected_verdict}"',
        ]
        lines += [f'{name} = "{value}"' for name, value in self.judged_by.items()]
        if self.expanded_uncertainty:
            lines += ["", "# k = 2, in the unit of the readings", "[expanded_uncertainty]"]
            lines += [f"{name} = {value}" for name, value in self.expanded_uncertainty.items()]
        return "\n".join(lines) + "\n"


THREAD = {"thread_go_gauge": "pass", "thread_not_go_gauge": "pass"}
M10X60 = {
    "width_across_flats": Measured(15.86, 0.05),
    "width_across_corners": Measured(18.10, 0.08),
    "head_height": Measured(6.40, 0.07),
    "body_diameter": Measured(9.88, 0.04),
    "length": Measured(60.0, 0.25),
    "thread_pitch_diameter": Measured(8.925, 0.025, 3),
    **THREAD,
    "marking": "pass",
    "hardness_core [HV]": Measured(285, 10, 0, 5),
    "tensile_load [kN]": Measured(53.0, 0.9, 1, 4),
    "fracture_location": "thread of 4",
}
LOTS = (
    Lot("T-2601", "ISO 4014 - M10x60 - 8.8", 12000, "Everything conforms.", "accept", M10X60),
    Lot(
        "T-2602",
        "ISO 4017 - M8x30 - 8.8",
        20000,
        "The trimming die is worn: one head is too narrow across flats.",
        "reject",
        {
            "width_across_flats": Measured(12.80, 0.05),
            "width_across_corners": Measured(14.55, 0.06),
            "head_height": Measured(5.30, 0.06),
            "length": Measured(30.0, 0.2),
            **THREAD,
            "marking": "pass",
            "hardness_core [HV]": Measured(283, 10, 0, 5),
            "tensile_load [kN]": Measured(33.0, 0.5, 1, 4),
            "fracture_location": "thread of 4",
        },
        {(6, "width_across_flats"): "12.70"},
    ),
    Lot(
        "T-2603",
        "ISO 4014 - M12x80 - 10.9",
        6000,
        "One bolt broke under the head, at a load that would have been enough.",
        "reject",
        {
            "width_across_flats": Measured(17.86, 0.05),
            "width_across_corners": Measured(20.35, 0.08),
            "head_height": Measured(7.50, 0.08),
            "body_diameter": Measured(11.87, 0.04),
            "length": Measured(80.0, 0.3),
            **THREAD,
            "marking": "pass",
            "hardness_core [HV]": Measured(348, 8, 0, 5),
            "tensile_load [kN]": Measured(93.0, 1.2, 1, 4),
            "fracture_location": "thread of 4",
        },
        {(3, "fracture_location"): "head_junction", (3, "tensile_load [kN]"): "92.1"},
    ),
    Lot(
        "T-2604",
        "ISO 8765 - M12x1.5x70 - 8.8",
        4500,
        "Tempered too hot: two bolts are too soft, though the load was still reached.",
        "reject",
        {
            "width_across_flats": Measured(17.85, 0.05),
            "width_across_corners": Measured(20.35, 0.08),
            "head_height": Measured(7.50, 0.08),
            "body_diameter": Measured(11.88, 0.04),
            "length": Measured(70.0, 0.3),
            **THREAD,
            "marking": "pass",
            "hardness_core [HV]": Measured(256, 4, 0, 5),
            "tensile_load [kN]": Measured(71.6, 0.4, 1, 4),
            "fracture_location": "thread of 4",
        },
        {(2, "hardness_core [HV]"): "247", (4, "hardness_core [HV]"): "244"},
    ),
    Lot(
        "T-2605",
        "ISO 8676 - M10x1.25x40 - 10.9",
        8000,
        "The GO ring stops on one screw, though the micrometer finds its pitch diameter right: a pitch error.",
        "reject",
        {
            "width_across_flats": Measured(15.87, 0.05),
            "width_across_corners": Measured(18.10, 0.08),
            "head_height": Measured(6.40, 0.07),
            "length": Measured(40.0, 0.25),
            "thread_pitch_diameter": Measured(9.105, 0.025, 3),
            **THREAD,
            "marking": "pass",
            "hardness_core [HV]": Measured(350, 8, 0, 5),
            "tensile_load [kN]": Measured(68.5, 0.8, 1, 4),
            "fracture_location": "thread of 4",
        },
        {(5, "thread_go_gauge"): "fail"},
    ),
    Lot(
        "T-2606",
        "ISO 4032 - M10 - 8",
        30000,
        "The proof load test has not been made yet.",
        "incomplete",
        {
            "width_across_flats": Measured(15.87, 0.05),
            "width_across_corners": Measured(18.10, 0.08),
            "nut_height": Measured(8.22, 0.08),
            **THREAD,
            "marking": "pass",
            "hardness_core [HV]": Measured(235, 9, 0, 5),
        },
    ),
    Lot(
        "T-2607",
        "ISO 8673 - M12x1.25 - 8",
        15000,
        "Everything conforms.",
        "accept",
        {
            "width_across_flats": Measured(17.86, 0.05),
            "width_across_corners": Measured(20.35, 0.08),
            "nut_height": Measured(10.58, 0.09),
            **THREAD,
            "marking": "pass",
            "hardness_core [HV]": Measured(290, 10, 0, 5),
            "nut_proof_load": "pass of 3",
        },
    ),
    Lot(
        "T-2608",
        "ISO 4017 - M16x50 - 10.9",
        5000,
        "The purchaser asks for the guarded rule: one head is so near its limit that its reading proves nothing.",
        "incomplete",
        {
            "width_across_flats": Measured(23.85, 0.05),
            "width_across_corners": Measured(27.20, 0.10),
            "head_height": Measured(10.00, 0.06),
            "length": Measured(50.0, 0.2),
            **THREAD,
            "marking": "pass",
            "hardness_core [HV]": Measured(348, 6, 0, 5),
            "tensile_load [kN]": Measured(172.0, 1.5, 1, 4),
            "fracture_location": "thread of 4",
        },
        {(7, "width_across_flats"): "23.68"},
        judged_by={"decision_rule": "guarded"},
        expanded_uncertainty={
            "width_across_flats": 0.02,
            "width_across_corners": 0.04,
            "head_height": 0.04,
            "length": 0.06,
            "hardness_core": 8,
            "tensile_load": 1.0,
        },
    ),
    Lot(
        "T-2609",
        "ISO 4032 - M16 - 10",
        9000,
        "One nut stripped under the proof load.",
        "reject",
        {
            "width_across_flats": Measured(23.84, 0.06),
            "width_across_corners": Measured(27.20, 0.10),
            "nut_height": Measured(14.50, 0.12),
            **THREAD,
            "marking": "pass",
            "hardness_core [HV]": Measured(310, 10, 0, 5),
            "nut_proof_load": "pass of 3",
        },
        {(2, "nut_proof_load"): "fail"},
    ),
    Lot(
        "T-2610",
        "ISO 4014 - M10x60 - 8.8",
        3000,
        "The purchaser accepts only a break in the thread; one bolt broke in the shank, which the standard allows.",
        "reject",
        M10X60,
        {(2, "fracture_location"): "shank"},
        judged_by={"fracture_rule": "thread_only"},
    ),
)
