"""Gages for Unified inch threads: class X thread gages, class Z plain gages, setting plugs.

ASME B1.2-1983; inch. Limits of size of the product come from ASME B1.1.
"""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal

from ..quantities import Basis, Bounds, NotCovered, weakest
from ..quantities.keeper import remembered
from ..standards import rules
from ..threads.unified import UnifiedClass, UnifiedSize
from ..threads.unified_limits import limits
from ..threads.unified_profile import H_FACTOR, cube_root, four_places, six_places
from .asme_gages import TRAP, WEAR, ClassX, Truncation, external_gages, internal_gages
from .gauge import Gauge, GaugeDimension, GaugeSet, NotHeld

STANDARD = "ASME B1.2"
#: Decimals of thread gages and of plain ones.
_FOUR, _FIVE = Decimal("0.0001"), Decimal("0.00001")
_PITCH_STEP, _GREATEST = Decimal("1.5"), Decimal(4)
_SETTING = (
    "A setting plug of class X is permitted; class W, about half as wide, is the usual one and is not held here: "
    "its table was not read."
)
_PLAIN_GO = "Must pass over or into the whole length of the thread without force."
_PLAIN_NOT_GO = "Must not pass."


@remembered()
def gauge_sizes(size: UnifiedSize, wanted: UnifiedClass) -> GaugeSet:
    """Return every gage for one member of a Unified thread.

    ASME B1.2-1983, rules for the size of each gage, Table 6 (class X) and the plain gage tolerances of class Z.

    Raises:
        NotCovered: a diameter over 4 in, or threads per inch outside Table 6.
        NotStandardised, Contradiction: the thread itself has no limits.
    """
    product = limits(size, wanted).limits
    x = class_x(size)
    H = six_places(H_FACTOR * size.pitch)
    cut = Truncation(H / 2, H / 4, "memory")
    if wanted.member == "external":
        gauges = [*external_gages(x, product, cut), *_setting_plugs(x, size, product, H), *_plain_external(product)]
        return GaugeSet(rules(STANDARD).cited, tuple(gauges), (_CLASS_W,), (TRAP, WEAR, _SETTING))
    gauges = [*internal_gages(x, product, cut), *_plain_internal(product)]
    return GaugeSet(rules(STANDARD).cited, tuple(gauges), (), (TRAP, WEAR))


_CLASS_W = NotHeld(
    "setting_plugs_of_class_w", "the table of class W tolerances was not read; recalled values are unsure"
)


def class_x(size: UnifiedSize) -> ClassX:
    """Return the tolerances of class X for a size.

    ASME B1.2-1983, Table 6.

    Raises:
        NotCovered: a diameter over 4 in, or threads per inch outside the table.
    """
    row = rules(STANDARD).table("table_6").find(size.threads_per_inch)
    if row is None or size.d > _GREATEST:
        raise NotCovered(
            f"gage tolerances of {rules(STANDARD).cited} are held for the threads per inch of its Table 6 "
            f"and up to 4 in, not for {size.designation}",
            member="designation",
        )
    pitch = "pitch_up_to_1_5" if size.d <= _PITCH_STEP else "pitch_over_1_5"
    return ClassX(row, "crest_up_to_4", pitch, "in", _FOUR)


def _setting_plugs(x: ClassX, size: UnifiedSize, product: Mapping[str, Bounds], H: Decimal) -> list[Gauge]:
    """Return the setting plugs of adjustable rings; full form at the front, truncated behind."""
    major, pitch = product["major_diameter"], product["pitch_diameter"]
    assert major.max is not None
    assert pitch.min is not None
    assert pitch.max is not None
    less = six_places(Decimal("0.060") * cube_root(size.pitch**2) + Decimal("0.017") * size.pitch)
    return [
        _setting(x, "go_screw_ring", "GO", pitch.max, -1, four_places(major.max - less), product),
        _setting(x, "not_go_screw_ring", "NOT GO (LO)", pitch.min, 1, four_places(pitch.min + H / 2), product),
    ]


def _setting(
    x: ClassX, ring: str, name: str, pitch: Decimal, sign: int, truncated: Decimal, product: Mapping[str, Bounds]
) -> Gauge:
    major = product["major_diameter"]
    assert major.max is not None
    pitch_basis = x.basis("setting plugs", "memory", product["pitch_diameter"], x.pitch, _SETTING)
    full = x.basis("setting plugs", "memory", major, x.crest)
    cut = x.basis("setting plugs", "one reproduction and formula", product["pitch_diameter"], x.crest)
    return Gauge(
        f"setting_plug_for_{ring}",
        f"Truncated setting plug for an adjustable {name} thread ring, class X",
        "gauge",
        "the adjustable ring as it is set",
        "The ring is set until it turns on the plug with a slight drag, on the full form and on the truncated part "
        "(common practice).",
        {
            "major_diameter": x.sized("d", major.max, 1, x.crest, full),
            "truncated_major_diameter": x.sized("d", truncated, -1, x.crest, cut),
            "pitch_diameter": x.sized("d2", pitch, sign, x.pitch, pitch_basis).against(
                "d2 max" if sign < 0 else "d2 min", pitch, 0
            ),
        },
    )


def _plain_external(product: Mapping[str, Bounds]) -> list[Gauge]:
    major = product["major_diameter"]
    assert major.max is not None
    assert major.min is not None
    return [
        _plain("go_plain_ring", "GO plain ring or snap gage", "external", "d max", major.max, -1, major.basis),
        _plain("not_go_plain_snap", "NOT GO plain snap gage", "external", "d min", major.min, 1, major.basis),
    ]


def _plain_internal(product: Mapping[str, Bounds]) -> list[Gauge]:
    minor = product["minor_diameter"]
    assert minor.max is not None
    assert minor.min is not None
    return [
        _plain("go_plain_plug", "GO plain plug gage", "internal", "D1 min", minor.min, 1, minor.basis),
        _plain("not_go_plain_plug", "NOT GO plain plug gage", "internal", "D1 max", minor.max, -1, minor.basis),
    ]


def _plain(id: str, name: str, member: str, limit: str, at: Decimal, sign: int, product: Basis) -> Gauge:
    """Return a plain gage of class Z; the GO gage serves until it passes the product limit."""
    row = rules(STANDARD).table("plain_gages").find_in_band(at)
    assert row is not None
    at, other = (end.quantize(_FIVE) for end in (at, at + sign * row.number("Z")))
    owner = row.table.standard
    checked = weakest("memory", product.checked)
    basis = owner.basis(f"plain gages; {row.table.printed_as}", checked, note="class Z for crest diameters is recalled")
    go = id.startswith("go_")
    dimension = GaugeDimension(
        limit.split()[0].swapcase(),
        min(at, other),
        max(at, other),
        "in",
        basis,
        at if go else None,
        owner.basis("wear", checked) if go else None,
    )
    crest = "major_diameter" if member == "external" else "minor_diameter"
    return Gauge(
        id,
        name,
        member,
        f"the {crest.replace('_', ' ')} at {'maximum' if go else 'minimum'} material",
        _PLAIN_GO if go else _PLAIN_NOT_GO,
        {crest: dimension.against(limit, at, sign)},
        wears="larger" if member == "external" else "smaller",
    )
