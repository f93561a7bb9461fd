"""Nuts: the slug, hot forging, piercing, and the bore for the tap.

Solid geometry of the nut before tapping. A cutting tap leaves the bore as it is, so that the limits of D1 are those of
the bore. Nuts that are hot-dip galvanized are tapped after it, to the class that the designation means.
"""

from __future__ import annotations

from ..products import solids
from ..quantities import Contradiction, member_path
from .bench import Bench
from .cold_heading import check_chamfer, check_flange, mass
from .plant import Known

_STATION = "hot_forging"
_FORMS = ("hexagon", "hexagon with flange")


def tapping(bench: Bench) -> None:
    """Add the bore for a cutting tap and the diameters of the thread."""
    for id in ("thread_pitch_diameter", "thread_minor_diameter", "thread_major_diameter"):
        zone = bench.zone(id, "tapping")
        if zone is not None:
            bench.put_zone("tapping", id, zone, bench.aim(id, "tapping"))
    zone = bench.zone("thread_minor_diameter", "tapping")
    if zone is not None:
        bench.put_zone("tapping", "tapping_bore", zone, bore(bench))


def bore(bench: Bench) -> Known:
    """Return the bore before tapping: the aim, else the middle of the limits of D1."""
    aimed = bench.plant.aims.get("tapping_bore")
    middle = bench.aim("thread_minor_diameter", "tapping")
    if aimed is None:
        return middle
    known = bench.figure("aims.tapping_bore", aimed)
    zone = bench.zone("thread_minor_diameter", "tapping")
    assert known.value is not None
    if zone is not None and not ((zone.low or 0) <= known.value and (zone.high is None or known.value <= zone.high)):
        raise Contradiction(
            "the bore aimed at lies outside the limits of D1", member=member_path("aims", "tapping_bore")
        )
    return known


def hot_forging(bench: Bench) -> None:
    """Add the slug: volume, mass, length, upset ratio."""
    form = "" if bench.wanted.dimensions is None else bench.wanted.dimensions.head
    if form not in _FORMS:
        bench.tell(f"no solid is held for a nut of the form {form!r}: its slug is not given")
        return
    flanged = form == "hexagon with flange"
    sizes = _sizes(bench, flanged)
    sized = bench.gather(_STATION, "blank_volume", sizes)
    bar = bench.figure("wire_diameter", bench.plant.wire_diameter)
    barred = bench.gather(_STATION, "cut_off_length", {"bar": bar})
    others = ("blank_mass", "cut_off_length", "upset_ratio")
    if not sized:
        for need in [one for one in bench.needs if one.station == _STATION and one.set_point == "blank_volume"]:
            for other in others:
                bench.need(_STATION, other, need.member)
    if not barred:
        bench.need(_STATION, "upset_ratio", bar.member)
    if sized:
        _slug(bench, flanged, sizes, barred)


def _sizes(bench: Bench, flanged: bool) -> dict[str, Known]:
    loss = bench.plant.forging_loss
    member = "forging_loss"
    lost = Known(member, None, "1", bench.figure(member, None).basis)
    if loss is not None:
        lost = bench.known_as_nothing(_STATION, "blank_volume", member, loss, "forging loss")
    sizes = {
        "s": bench.aim("width_across_flats", _STATION),
        "m": bench.aim("nut_height", _STATION),
        "dc": bench.tool("chamfer_circle"),
        "chi": bench.tool("chamfer_angle"),
        "D1": bore(bench),
        "da": bench.tool("countersink_diameter"),
        "beta": bench.tool("countersink_angle"),
        "dp": bench.tool("pierce_diameter"),
        "web": bench.tool("web"),
        "loss": lost,
    }
    if not flanged:
        return sizes
    flange = {
        "dcf": bench.aim("flange_diameter", _STATION),
        "c": bench.aim("flange_thickness", _STATION),
        "delta": bench.tool("flange_angle"),
    }
    return {**sizes, **flange}


def _slug(bench: Bench, flanged: bool, sizes: dict[str, Known], barred: bool) -> None:
    number = bench.work.number
    check_chamfer(bench, "m")
    if flanged:
        check_flange(bench, "m")
    if number("da") < number("D1") or number("dp") > number("D1") or number("web") > number("m"):
        at = "countersink_diameter" if number("da") < number("D1") else "pierce_diameter"
        at = "web" if number("web") > number("m") else at
        text = f"{at.replace('_', ' ')} does not fit the bore or the height of the nut"
        raise Contradiction(text, member=member_path("tools", at), code="out_of_range")
    basis = bench.basis("nut before tapping with the web, over the loss", "computed", *sizes.values())
    bench.lines(solids.nut(float(number("s")), float(number("dc")), flanged), basis)
    if 2 * number("h_sink") > number("m"):
        text = "the countersinks meet"
        raise Contradiction(text, member=member_path("tools", "countersink_angle"), code="out_of_range")
    bench.step("V_blank", "(V_nut + pi/4*dp**2*web)*(1 + loss)", "volume", basis)
    bench.put(_STATION, "blank_volume", "V_blank", bench.unit("volume"), basis)
    mass(bench, _STATION, basis)
    if barred:
        bench.step("L_slug", "V_blank/(pi/4*bar**2)", "length", basis)
        bench.put(_STATION, "cut_off_length", "L_slug", bench.length, basis)
        bench.step("upset", "L_slug/bar", "ratio", basis)
        bench.put(_STATION, "upset_ratio", "upset", "1", basis)


def piercing(bench: Bench) -> None:
    """Add the tools of the piercer as figures without limits."""
    for id, symbol in (("pierce_diameter", "dp"), ("web", "web")):
        known = bench.tool(id)
        if bench.gather("piercing", id, {symbol: known}):
            bench.put("piercing", id, symbol, bench.length, known.basis)
