"""What the catalogue is made of: parts that the printed tables list, each with the designation that it truly has."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction
from itertools import product

from .facts import Row, deviation, lengths, table

#: Coatings by the word that the generator writes them with; those with a slash, a digit or tZn are designations.
CODES_1999 = tuple(f"A{thickness}{finish}" for thickness in "123" for finish in "AFJKL")
BOLT_COATINGS = (
    *("", "zinc plated", "black", "zinc flake", "plain", "phosphated", "zinc nickel"),
    *("Fe/Zn3", "Fe/Zn5", "Fe/Zn8", "Fe/Zn5/An/T0", "Fe/Zn8/Cn/T0", *CODES_1999),
    *("flZn-240h", "flZn-480h", "flZn-600h", "flZn-720h", "flZn-960h", "flZnL-480h", "flZnL-720h"),
)
OTHER_COATINGS = ("", "zinc plated", "black", "zinc flake", "plain", "phosphated", "zinc nickel")
#: Thickness in um: nominal by ISO 4042:1999, Table 1, codes and designations; reference by ISO 10683:2014.
THICKNESS = {
    **{"Fe/Zn3": 3, "Fe/Zn5": 5, "Fe/Zn8": 8, "Fe/Zn5/An/T0": 5, "Fe/Zn8/Cn/T0": 8, "Fe/Zn12": 12, "Fe/Zn20": 20},
    **{
        f"{name}-{row['hours']}h": int(row["thickness"])
        for name in ("flZn", "flZnL")
        for row in table("iso_10683_2014", "reference_thickness")
    },
    **{code: {"1": 3, "2": 5, "3": 8}[code[1]] for code in CODES_1999},
}
ELECTROPLATED = ("zinc plated", "zinc nickel", *(one for one in THICKNESS if not one.startswith("flZn")))
#: Classes so hard at most that electroplating calls for measures: ISO 898-1 Table 3 (HV max), ISO 898-5, ASTM A574.
HARD = ("9.8", "10.9", "12.9", "010.9", "012.9", "45H", "ASTM A574")

#: kind, folder, what the canonical designation begins with, table of dimensions, table of classes
KINDS = (
    ("hex_bolt", "iso_4014_2011", "ISO 4014", "table_1", "property_classes"),
    ("hex_screw", "iso_4017_2014", "ISO 4017", "table_1", "property_classes"),
    ("hex_bolt_c", "iso_4016_2011", "ISO 4016", "table_1", "property_classes"),
    ("hex_screw_c", "iso_4018_2011", "ISO 4018", "table_1", "property_classes"),
    ("hex_bolt_fine", "iso_8765_2011", "ISO 8765", "table_1", "property_classes"),
    ("hex_screw_fine", "iso_8676_2011", "ISO 8676", "table_1", "property_classes"),
    ("socket_cap", "iso_4762_2004", "ISO 4762", "table_1", "property_classes"),
    ("socket_csk", "iso_10642_2004", "ISO 10642", "table_1", "property_classes"),
    ("socket_button", "iso_7380_1_2011", "ISO 7380-1", "table_1", "property_classes"),
    ("set_flat", "iso_4026_2003", "ISO 4026", "table_1", "property_classes"),
    ("set_cone", "iso_4027_2003", "ISO 4027", "table_1", "property_classes"),
    ("set_dog", "iso_4028_2003", "ISO 4028", "table_1", "property_classes"),
    ("set_cup", "iso_4029_2003", "ISO 4029", "table_1", "property_classes"),
    ("flange_bolt", "iso_15071_2011", "ISO 15071", "table_1", "property_classes"),
    ("hex_nut", "iso_4032_2012", "ISO 4032", "table_1", "property_classes"),
    ("high_nut", "iso_4033_2012", "ISO 4033", "table_1", "property_classes"),
    ("hex_nut_c", "iso_4034_2012", "ISO 4034", "table_1", "property_classes"),
    ("thin_nut", "iso_4035_2012", "ISO 4035", "table_1", "property_classes"),
    ("hex_nut_fine", "iso_8673_2012", "ISO 8673", "table_1", "property_classes"),
    ("thin_nut_fine", "iso_8675_2012", "ISO 8675", "table_1", "property_classes"),
    ("flange_nut", "iso_4161_2012", "ISO 4161", "table_1", "property_classes"),
    ("lock_nut", "iso_7040_2012", "ISO 7040", "table_1", "property_classes"),
    ("metal_lock_nut", "iso_7042_2012", "ISO 7042", "table_1", "property_classes"),
    ("washer", "iso_7089_2000", "ISO 7089", "table_1", "property_classes"),
    ("chamfered_washer", "iso_7090_2000", "ISO 7090", "table_1", "property_classes"),
    ("washer_c", "iso_7091_2000", "ISO 7091", "table_1", "property_classes"),
    ("small_washer", "iso_7092_2000", "ISO 7092", "table_1", "property_classes"),
    ("large_washer", "iso_7093_1_2000", "ISO 7093-1", "table_1", "property_classes"),
    ("inch_cap_screw", "asme_b18_2_1_2012", "ASME B18.2.1 hex cap screw", "hex_cap_screw", "grades"),
    ("inch_hex_bolt", "asme_b18_2_1_2012", "ASME B18.2.1 hex bolt", "hex_bolt", "grades"),
    ("inch_heavy_screw", "asme_b18_2_1_2012", "ASME B18.2.1 heavy hex screw", "heavy_hex_screw", "grades"),
    ("inch_heavy_bolt", "asme_b18_2_1_2012", "ASME B18.2.1 heavy hex bolt", "heavy_hex_bolt", "grades"),
    ("inch_socket_cap", "asme_b18_3_2003", "ASME B18.3 socket head cap screw", "socket_head_cap_screw", "grades"),
    ("inch_nut", "asme_b18_2_2_2015", "ASME B18.2.2 hex nut", "hex_nut", "grades"),
    ("inch_jam_nut", "asme_b18_2_2_2015", "ASME B18.2.2 hex jam nut", "hex_jam_nut", "jam_grades"),
)
#: ISO 7380-1 prints no range; these are common practice.
_BUTTON_LENGTHS = ("8", "40")


@dataclass(frozen=True, slots=True)
class Part:
    """One requirement. `size` stands in the canonical form; `length` and `coating` are empty where there is none."""

    kind: str
    standard: str
    size: str
    length: str
    property_class: str
    coating: str
    d: Decimal
    pitch: str
    dimensions: tuple[tuple[str, str], ...]

    @property
    def canonical(self) -> str:
        """The canonical designation, as the wire contract writes it."""
        size = self.size.removeprefix("M") if "washer" in self.kind else self.size
        length = self.length.replace(" ", "-")
        parts = [self.standard, f"{size}x{length}" if length else size]
        if self.property_class:
            parts.append(self.property_class)
        if self.designated_coating:
            parts.append(self.coating)
        return " - ".join(parts)

    @property
    def designated_coating(self) -> bool:
        """Whether a standard designates the coating, so that it stands in the designation."""
        return self.coating == "tZn" or any(sign.isdigit() for sign in self.coating)

    @property
    def requirement(self) -> str:
        """What makes two rows ask for the same."""
        return f"{self.canonical} / {self.coating}"

    @property
    def inch(self) -> bool:
        """Whether it has an inch thread."""
        return self.kind.startswith("inch")

    @property
    def cells(self) -> Row:
        """The row of its table."""
        return dict(self.dimensions)

    def but(self, **changes: str) -> Part:
        """Return a part that differs in some members."""
        return replace(self, **changes)  # type: ignore[arg-type]


def kind_of(part: Part) -> str:
    """Return `bolt`, `nut` or `washer`."""
    return next((name for name in ("nut", "washer") if name in part.kind), "bolt")


def all_parts() -> Iterator[Part]:
    """Yield every part of the tables that is right in every respect, in the order of the tables."""
    for kind, folder, standard, dimensions, classes in KINDS:
        for row in table(folder, dimensions):
            if row.get("preferred") == "no":
                continue
            sizes = _inch_sizes(row) if kind.startswith("inch") else [_metric_size(row)]
            for (size, d, pitch), name in product(sizes, _classes(folder, classes, row, kind)):
                for length in _lengths(kind, row, d):
                    plain = Part(kind, standard, size, length, name, "", d, pitch, tuple(row.items()))
                    yield from (plain.but(coating=one) for one in _coatings(plain))


def _metric_size(row: Row) -> tuple[str, Decimal, str]:
    d = row["thread"].removeprefix("M").split("x")[0]
    return row["thread"], Decimal(d), row.get("pitch", "")


def inch(text: str) -> Decimal:
    """Return `1 1/2`, `3/4` or `#10` in inches. A numbered size is 0.060 in + 0.013 in a number: ASME B1.1."""
    if text.startswith("#"):
        return Decimal("0.060") + Decimal("0.013") * int(text[1:])
    total = sum(Fraction(one) for one in text.split())
    return Decimal(total.numerator) / total.denominator


def _inch_sizes(row: Row) -> list[tuple[str, Decimal, str]]:
    """Return a size with its coarse and fine threads per inch. ASME B1.1, Table 1."""
    d = inch(row["thread"])
    found = table("asme_b1_1_2003", "table_1")
    threads = [one["threads_per_inch"] for one in found if Decimal(one["d"]) == d and one["series"] in ("UNC", "UNF")]
    return [(f"{row['thread']}-{count}", d, count) for count in threads]


def _classes(folder: str, name: str, row: Row, kind: str) -> list[str]:
    d = inch(row["thread"]) if kind.startswith("inch") else _metric_size(row)[1]
    rows = table(folder, name)
    return [one["property_class"] for one in rows if Decimal(one["d_min"]) <= d <= Decimal(one["d_max"])]


def _lengths(kind: str, row: Row, d: Decimal) -> list[str]:
    if "nut" in kind or "washer" in kind:
        return [""]
    if kind.startswith("inch"):
        quarters = range(max(2, int(4 * d) + 1), 33)
        return [_eighths(2 * count) for count in quarters]
    low, high = (row["l_min"], row["l_max"]) if "l_min" in row else _BUTTON_LENGTHS
    return lengths(low, high)


def _eighths(count: int) -> str:
    """Return inches as they are written: `1 3/4`."""
    whole, rest = divmod(Fraction(count, 8), 1)
    return " ".join(str(one) for one in (whole, rest) if one) or "0"


def _coatings(part: Part) -> list[str]:
    """Return the coatings that call for no finding: room in position g, and no hard part electroplated."""
    named = BOLT_COATINGS if kind_of(part) == "bolt" and not part.inch else OTHER_COATINGS
    if part.property_class.startswith("A") and not part.property_class.startswith("AS"):
        named = ("", "plain")
    hard = part.property_class in HARD
    return [one for one in named if not (hard and one in ELECTROPLATED) and has_room(part, one)]


def has_room(part: Part, coating: str) -> bool:
    """Say whether position g leaves room: a coating t takes 4 t of the pitch diameter. ISO 4042:1999, Table 2."""
    if coating not in THICKNESS:
        return True
    return 4 * THICKNESS[coating] <= abs(deviation(part.pitch, "g"))
