"""Cold heading of bolts and screws: cut-off, head, extrusion, from volumes by form.

Solid geometry of the finished head, of the shank at ds and of the thread at its rolling blank; no fillet, no point.
Upset ratios and reductions are common practice.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from decimal import Decimal
from fractions import Fraction

from ..products import solids
from ..quantities import Basis, Contradiction, member_path, practice, unpublished
from .bench import Bench
from .plant import Known

#: Greatest upset ratio -> blows, and how that is known.
_BLOWS = ((Decimal("2.25"), 1, "two reproductions"), (Decimal("4.5"), 2, "memory"), (Decimal("6.5"), 3, "memory"))
_MOST_REDUCTION = Decimal("0.30")
_DENSITY = "7.85"
_HAND = "trade handbooks"


def head(bench: Bench, station: str, set_point: str) -> Basis | None:
    """Work V_head out, in the unit of the product, and return its basis; None where figures or the form are missing."""
    form = "" if bench.wanted.dimensions is None else bench.wanted.dimensions.head
    maker = _HEADS.get(form)
    if maker is None:
        bench.tell(f"no solid is held for a head of the form {form!r}: its volume is not given")
        return None
    sizes = maker[0](bench)
    if not bench.gather(station, set_point, sizes):
        return None
    maker[2](bench)
    basis = bench.basis(f"volume of the {form} head", "computed", *sizes.values())
    bench.lines(maker[1](bench), basis)
    return basis


def _hexagon(bench: Bench) -> dict[str, Known]:
    face = bench.aim("washer_face_thickness", "heading")
    without = face.value == 0
    outer = Known("aims.washer_face_diameter", Fraction(0), bench.length, face.basis)
    return {
        **_across(bench),
        "k": bench.aim("head_height", "heading"),
        "c": face,
        "dw": outer if without else bench.aim("washer_face_diameter", "heading"),
    }


def _across(bench: Bench) -> dict[str, Known]:
    return {
        "s": bench.aim("width_across_flats", "heading"),
        "dc": bench.tool("chamfer_circle"),
        "chi": bench.tool("chamfer_angle"),
    }


def _flange(bench: Bench) -> dict[str, Known]:
    return {
        **_across(bench),
        "k": bench.aim("head_height", "heading"),
        "dcf": bench.aim("flange_diameter", "heading"),
        "c": bench.aim("flange_thickness", "heading"),
        "delta": bench.tool("flange_angle"),
    }


def _socket(bench: Bench) -> dict[str, Known]:
    return {
        "sw": bench.aim("socket_width_across_flats", "heading"),
        "t": bench.aim("socket_depth", "heading"),
        "D": bench.tool("drill_diameter"),
        "phi": bench.tool("drill_angle"),
    }


def _cylinder(bench: Bench) -> dict[str, Known]:
    own = {"dk": bench.aim("head_diameter", "heading"), "k": bench.aim("head_height", "heading")}
    return {**_socket(bench), **own, "v": bench.tool("head_chamfer")}


def _countersunk(bench: Bench) -> dict[str, Known]:
    return {
        **_socket(bench),
        "dk": bench.aim("head_diameter", "heading"),
        "ds": bench.aim("body_diameter", "heading"),
        "alpha": bench.tool("head_angle"),
        "f": bench.tool("head_rim"),
    }


def _button(bench: Bench) -> dict[str, Known]:
    own = {"dk": bench.aim("head_diameter", "heading"), "k": bench.aim("head_height", "heading")}
    return {**_socket(bench), **own, "u": bench.tool("head_flat"), "f": bench.tool("head_rim")}


def _without_head(bench: Bench) -> dict[str, Known]:
    return _socket(bench) if bench.bounds("socket_depth") is not None else {}


def _headless_body(bench: Bench) -> solids.Body:
    """A rod has no head; a set screw has the hole of its socket."""
    if bench.bounds("socket_depth") is None:
        return (solids.Line("V_head", "0"),)
    return (*solids.SOCKET, solids.Line("V_head", "0 - V_socket"))


def _check_hexagon(bench: Bench) -> None:
    check_chamfer(bench, "k")
    if bench.work.number("c") > bench.work.number("k") or bench.work.number("dw") > bench.work.number("s"):
        text = "the washer face is thicker than the head, or wider than the flats"
        raise Contradiction(text, member=member_path("aims", "washer_face_thickness"))


def check_chamfer(bench: Bench, height: str) -> None:
    """Refuse a chamfer that goes deeper than the hexagon is high.

    Raises:
        Contradiction: at tools.chamfer_circle.
    """
    deep = bench.step("h_chamfer", "max((s*sqrt(3)*2/3 - dc)/2*tan(chi), 0)", "length", _PLAIN)
    if deep > bench.work.number(height):
        text = "the chamfer of this circle and angle is deeper than the hexagon is high"
        raise Contradiction(text, member=member_path("tools", "chamfer_circle"), code="out_of_range")


def check_flange(bench: Bench, height: str) -> None:
    """Refuse a flange that lies within the hexagon, or whose cone ends above it.

    Raises:
        Contradiction: at aims.flange_diameter or tools.flange_angle.
    """
    if bench.step("outside", "dcf - s*sqrt(3)*2/3", "length", _PLAIN) < 0:
        raise Contradiction("the flange lies within the corners", member=member_path("aims", "flange_diameter"))
    if bench.step("top", "c + (dcf - s)/2*tan(delta)", "length", _PLAIN) > bench.work.number(height):
        text = "the cone of the flange ends above the hexagon"
        raise Contradiction(text, member=member_path("tools", "flange_angle"), code="out_of_range")


def _check_flange_head(bench: Bench) -> None:
    check_chamfer(bench, "k")
    check_flange(bench, "k")


def _check_cylinder(bench: Bench) -> None:
    number = bench.work.number
    _check_fit(number("v") <= number("k") and 2 * number("v") <= number("dk"), "head_chamfer")


def _check_countersunk(bench: Bench) -> None:
    _check_fit(bench.work.number("ds") < bench.work.number("dk"), "head_rim")


def _check_button(bench: Bench) -> None:
    number = bench.work.number
    _check_fit(number("f") <= number("k") and number("u") <= number("dk"), "head_rim")


def _check_fit(fits: bool, tool: str) -> None:
    if not fits:
        text = f"{tool.replace('_', ' ')} and head do not fit together"
        raise Contradiction(text, member=member_path("tools", tool), code="out_of_range")


_PLAIN = unpublished("geometry", "fit of the figures", "computed", "formula")
Sizes = Callable[[Bench], Mapping[str, Known]]
#: Form of the head -> its sizes, its body, its checks.
_HEADS: Mapping[str, tuple[Sizes, Callable[[Bench], solids.Body], Callable[[Bench], None]]] = {
    "hexagon": (_hexagon, lambda b: solids.hexagon_head(*_flats(b)), _check_hexagon),
    "hexagon with flange": (_flange, lambda b: solids.flange_head(*_flats(b)), _check_flange_head),
    "cylinder": (_cylinder, lambda b: solids.CYLINDER_HEAD, _check_cylinder),
    "countersunk": (_countersunk, lambda b: solids.COUNTERSUNK_HEAD, _check_countersunk),
    "button": (_button, lambda b: solids.BUTTON_HEAD, _check_button),
    "none": (_without_head, _headless_body, lambda b: None),
}


def _flats(bench: Bench) -> tuple[float, float]:
    return float(bench.work.number("s")), float(bench.work.number("dc"))


def cut_off(bench: Bench, blank_known: bool) -> Basis | None:
    """Add blank volume, cut-off length and mass; return the basis of the head's volume, where that is known."""
    station = "cut_off"
    trim = bench.known_as_nothing(station, "blank_volume", "head_trim", bench.plant.head_trim, "trim of the head")
    formed = head(bench, station, "blank_volume")
    sizes = _shank(bench)
    sized = bench.gather(station, "blank_volume", sizes)
    wire = bench.figure("wire_diameter", bench.plant.wire_diameter)
    wired = bench.gather(station, "cut_off_length", {"wire": wire})
    if formed is not None:
        bench.work.given("x", trim.value or Fraction(0), "1", trim.basis)
    if formed is None or not sized or not blank_known:
        _ask_again(bench, station)
        return formed
    clause = "head, shank at ds, thread at its rolling blank"
    basis = bench.basis(clause, "computed", trim, *sizes.values(), checked=formed.checked)
    bench.step("l_shank", "l - b" + (" - (k_cone + f)" if _sunk(bench) else ""), "length", basis)
    if bench.work.number("l_shank") < 0:
        text = "the thread is longer than the part"
        raise Contradiction(text, member=member_path("aims", "thread_length"))
    expression = "(1 + x)*V_head + pi/4*ds**2*l_shank + pi/4*blank**2/(1 + q)*b"
    bench.step("V_blank", expression, "volume", basis)
    bench.put(station, "blank_volume", "V_blank", bench.unit("volume"), basis)
    mass(bench, station, basis)
    if wired:
        bench.step("L_cut", "V_blank/(pi/4*wire**2)", "length", basis)
        bench.put(station, "cut_off_length", "L_cut", bench.length, basis)
    return formed


def _ask_again(bench: Bench, station: str) -> None:
    """What the volume lacks, length and mass lack too."""
    for need in [one for one in bench.needs if one.station == station and one.set_point == "blank_volume"]:
        for other in ("cut_off_length", "blank_mass"):
            bench.need(station, other, need.member)


def mass(bench: Bench, station: str, basis: Basis) -> None:
    """Add the mass of the blank in g at 7.85 g/cm3, from V_blank."""
    cubic_cm = "/1000" if bench.length == "mm" else "*16.387064"
    bench.work.step("m_blank", f"V_blank{cubic_cm}*{_DENSITY}", "g", basis)
    bench.put(station, "blank_mass", "m_blank", "g", basis)


def _sunk(bench: Bench) -> bool:
    return bench.wanted.dimensions is not None and bench.wanted.dimensions.head == "countersunk"


def _shank(bench: Bench) -> dict[str, Known]:
    length = bench.aim("length", "heading")
    dims = bench.wanted.dimensions
    if dims is not None and dims.fully_threaded and "thread_length" not in bench.plant.aims:
        none = Known("aims.body_diameter", Fraction(0), bench.length, length.basis)
        sizes = {"l": length, "b": length}
        if _sunk(bench):
            return {**sizes, "b": _below_head(bench, length), "ds": bench.aim("body_diameter", "heading")}
        return {**sizes, "ds": none}
    thread, body = bench.aim("thread_length", "heading"), bench.aim("body_diameter", "heading")
    if thread.value == length.value and not _sunk(bench) and body.value is None:  # a shank of no length
        body = Known(body.member, Fraction(0), bench.length, length.basis)
    return {"l": length, "b": thread, "ds": body}


def _below_head(bench: Bench, length: Known) -> Known:
    """A countersunk screw is long over its head: the whole length threaded is what lies below it."""
    try:
        head_height = bench.work.number("k_cone") + bench.work.number("f")
    except KeyError:
        return length
    return Known(length.member, None if length.value is None else length.value - head_height, length.unit, length.basis)


def heading(bench: Bench, formed: Basis | None) -> None:
    """Add the upset ratio and the blows that it asks for; a part without head has none."""
    if bench.wanted.dimensions is not None and bench.wanted.dimensions.head == "none":
        return
    wire = bench.figure("wire_diameter", bench.plant.wire_diameter)
    if formed is None:
        for need in [one for one in bench.needs if one.station == "cut_off" and one.set_point == "blank_volume"]:
            if need.member not in ("aims.thread_length", "aims.body_diameter", "elongation"):
                bench.need("heading", "upset_ratio", need.member)
                bench.need("heading", "blows", need.member)
    for id in ("upset_ratio", "blows"):
        if wire.value is None:
            bench.need("heading", id, wire.member)
    if formed is None or not bench.gather("heading", "upset_ratio", {"wire": wire}):
        return
    basis = bench.basis("length of wire in the head over its diameter", "computed", wire, checked=formed.checked)
    if bench.plant.head_trim is None:
        bench.need("heading", "upset_ratio", "head_trim")
    bench.step("upset", "(1 + x)*V_head/(pi/4*wire**2)/wire", "ratio", basis)
    bench.put("heading", "upset_ratio", "upset", "1", basis)
    blows(bench, "heading", bench.work.number("upset"))


def blows(bench: Bench, station: str, ratio: Fraction) -> None:
    """Add how many blows an upset ratio asks for, or the caution that none is known to suffice."""
    for most, count, checked in _BLOWS:
        if ratio <= most:
            clause = f"up to {most} diameters of wire, {_HAND}"
            basis = practice(clause, checked)
            bench.work.given("n_blows", Decimal(count), "1", basis)
            bench.put(station, "blows", "n_blows", "1", basis, Decimal(1))
            return
    bench.warn(
        f"Upset ratio above {_BLOWS[-1][0]}: no number of blows is known to suffice; the wire will buckle (memory)."
    )


def extrusion(bench: Bench, blank_known: bool) -> None:
    """Add the reduction of area from wire to extruded diameter."""
    wire = bench.figure("wire_diameter", bench.plant.wire_diameter)
    extruded = bench.figure("extruded_diameter", bench.plant.extruded_diameter)
    if extruded.value is None and blank_known:
        blank = bench.stations["thread_rolling"].set_points["rolling_blank_diameter"]
        extruded = Known("extruded_diameter", bench.work.number("blank"), bench.length, blank.basis)
    if not bench.gather("extrusion", "extrusion_reduction", {"wire": wire, "extruded": extruded}):
        return
    basis = bench.basis("reduction of area", "computed", extruded)
    reduction = bench.step("reduction", "1 - (extruded/wire)**2", "ratio", basis)
    if reduction < 0:
        bench.tell("the wire is thinner than the extruded diameter: nothing is extruded")
        return
    bench.put("extrusion", "extrusion_reduction", "reduction", "1", basis)
    if reduction > _MOST_REDUCTION:
        bench.warn(
            f"Extrusion reduction above {_MOST_REDUCTION}: an open die takes 30 % of the area a blow ({_HAND}); "
            "use a closed die or more steps."
        )
