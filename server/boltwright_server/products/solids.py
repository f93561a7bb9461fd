"""Volumes of heads and nuts by form: closed formulas, shown as they are computed.

Solid geometry. Each body is a list of lines, the last of which is its volume. A line is evaluated exactly where its way
is shown (`quantities.derivation`) and in doubles where the figure is for planning. Lengths in one unit, angles in
degrees. Symbols are those of the product standards: s across flats, k head height, m nut height, dw x c washer face, dk
head diameter, t depth of the full socket; dc is the circle where the chamfer of a hexagon starts, chi its angle to the
face.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from ..quantities.expression import in_doubles

#: Twelve right triangles, from the middle of a flat to a corner: the integral of r over the hexagon, by (s/2)^3.
_G = "(2/3 + ln(3)/2)/2"


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a body: a symbol and how it follows from those before it."""

    symbol: str
    expression: str
    #: `length`, `volume` or `ratio`: which unit the result has.
    kind: str = "volume"


Body = tuple[Line, ...]


def volume(body: Body, sizes: Mapping[str, float]) -> float:
    """Return the volume of a body in doubles, from its sizes by symbol."""
    known = dict(sizes)
    for line in body:
        known[line.symbol] = in_doubles(line.expression, known)
    return known[body[-1].symbol]


def chamfer(s: float, dc: float) -> Body:
    """Return what a cone of angle chi cuts off the corners of a hexagon at one face, from s, dc and chi.

    The circle lies within the flats, between flats and corners, or beyond the corners, where nothing is cut.
    """
    if dc <= s:
        expression = f"12*tan(chi)*({_G}*(s/2)**3/3 - sqrt(3)/6*dc/2*(s/2)**2 + pi/36*(dc/2)**3)"
        return (Line("V_chamfer", expression),)
    if dc * dc * 3 >= s * s * 4:
        return (Line("V_chamfer", "0*s**3"),)
    return (
        Line("w", "sqrt((dc/s)**2 - 1)", "ratio"),
        Line("D_corner", "pi/6 - acos(s/dc)", "ratio"),
        Line("g", "(w*dc/s + ln(dc/s + w))/2", "ratio"),
        Line(
            "V_chamfer",
            f"12*tan(chi)*(((s/2)**3*({_G} - g) - (dc/2)**3*D_corner)/3"
            " - dc/4*((s/2)**2*(sqrt(3)/3 - w) - (dc/2)**2*D_corner))",
        ),
    )


def hexagon_head(s: float, dc: float) -> Body:
    """Return a hexagon head with its washer face, from s, k (washer face included), dw, c, dc and chi."""
    return (
        *chamfer(s, dc),
        Line("V_head", "sqrt(3)/2*s**2*(k - c) + pi/4*dw**2*c - V_chamfer"),
    )


#: The flange outside the hexagon: a rim of height c at dc_flange, a cone of angle delta up to the hexagon.
FLANGE: Body = (
    Line(
        "V_flange",
        "12*((c + dcf/2*tan(delta))*(pi/6*(dcf/2)**2 - sqrt(3)/3*(s/2)**2)/2"
        f" - tan(delta)*(pi/6*(dcf/2)**3 - {_G}*(s/2)**3)/3)",
    ),
)


def flange_head(s: float, dc: float) -> Body:
    """Return a hexagon head with flange, from s, k over all, dcf (flange diameter), c, delta, dc and chi."""
    return (*chamfer(s, dc), *FLANGE, Line("V_head", "sqrt(3)/2*s**2*k - V_chamfer + V_flange"))


#: A hexagon socket of width sw and full depth t, with the point of a drill of diameter D and angle phi.
SOCKET: Body = (Line("V_socket", "sqrt(3)/2*sw**2*t + pi/24*D**3/tan(phi/2)"),)
#: A cylinder of dk and k with a chamfer v x 45 degrees at its top edge, less the socket.
CYLINDER_HEAD: Body = (
    *SOCKET,
    Line(
        "V_edge",
        "pi/4*dk**2*v - pi/12*v*(dk**2 + dk*(dk - 2*v) + (dk - 2*v)**2)",
    ),
    Line("V_head", "pi/4*dk**2*k - V_edge - V_socket"),
)
#: A rim of height f at dk, a cone of angle alpha down to ds, less the socket; k_cone is the height of the cone.
COUNTERSUNK_HEAD: Body = (
    *SOCKET,
    Line("k_cone", "(dk - ds)/2/tan(alpha/2)", "length"),
    Line("V_head", "pi/4*dk**2*f + pi/12*k_cone*(dk**2 + dk*ds + ds**2) - V_socket"),
)
#: A rim of height f at dk, a zone of a sphere up to a flat top of diameter u, less the socket.
BUTTON_HEAD: Body = (
    *SOCKET,
    Line("V_head", "pi/4*dk**2*f + pi/6*(k - f)*(3*(dk/2)**2 + 3*(u/2)**2 + (k - f)**2) - V_socket"),
)


def nut(s: float, dc: float, flange: bool) -> Body:
    """Return a nut before tapping, from s, m, dc, chi, bore D1, countersinks da of included angle beta.

    Both faces of a hexagon nut are chamfered; of a flange nut the upper one is.
    """
    solid = "sqrt(3)/2*s**2*m - V_chamfer + V_flange" if flange else "sqrt(3)/2*s**2*m - 2*V_chamfer"
    return (
        *chamfer(s, dc),
        *(FLANGE if flange else ()),
        Line("h_sink", "(da - D1)/2/tan(beta/2)", "length"),
        Line("V_sink", "pi/12*h_sink*(da**2 + da*D1 + D1**2) - pi/4*D1**2*h_sink"),
        Line("V_nut", f"{solid} - pi/4*D1**2*m - 2*V_sink"),
    )
