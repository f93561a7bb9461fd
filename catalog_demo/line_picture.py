"""The picture of a run as SVG: every reading, the zones, and where the machine was set anew or stopped."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from xml.sax.saxutils import escape

WIDTH, HEIGHT, LEFT, TOP, BOTTOM = 900, 320, 60, 40, 40
_STYLE = (
    "svg{color-scheme:light dark;background:Canvas;color:CanvasText;font:12px sans-serif}"
    "text{fill:currentColor}.line{stroke:currentColor;fill:none}.green{fill:currentColor;opacity:.08}"
    ".reading{fill:currentColor;opacity:.55}.mark{stroke:currentColor;fill:Canvas;stroke-width:1.5}"
)


@dataclass(frozen=True)
class Seen:
    """A reading and its decision."""

    piece: int
    value: float
    decision: str


def picture(title: str, seen: Sequence[Seen], low: float, high: float) -> str:
    """Return the drawing; limits in the unit of the readings, green between the warning lines."""
    last = max(seen[-1].piece, 1)
    least, most = min(low, *(one.value for one in seen)), max(high, *(one.value for one in seen))
    room = (most - least) * 0.08

    def x(piece: float) -> float:
        return LEFT + (WIDTH - LEFT - 20) * piece / last

    def y(value: float) -> float:
        return TOP + (HEIGHT - TOP - BOTTOM) * (most + room - value) / (most - least + 2 * room)

    quarter = (high - low) / 4
    parts = [
        f'<text x="{LEFT}" y="20">{escape(title)}</text>',
        f'<rect class="green" x="{LEFT}" y="{y(high - quarter):.1f}" width="{x(last) - LEFT:.1f}" '
        f'height="{y(low + quarter) - y(high - quarter):.1f}"/>',
    ]
    parts += [f'<path class="line" d="M{LEFT} {y(value):.1f}H{x(last):.1f}"/>' for value in (low, high)]
    parts += [
        f'<text x="{LEFT - 8}" y="{y(value) + 4:.1f}" text-anchor="end">{value:.3f}</text>'
        for value in (low, low + quarter, (low + high) / 2, high - quarter, high)
    ]
    parts += [_mark(one, x(one.piece), y(one.value)) for one in seen]
    parts += [
        f'<text x="{x(piece):.1f}" y="{HEIGHT - 14}" text-anchor="middle">{piece}</text>'
        for piece in (last * share // 4 for share in range(5))
    ]
    head = f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {HEIGHT}" role="img">'
    return "\n".join((head, f"<title>{escape(title)}</title>", f"<style>{_STYLE}</style>", *parts, "</svg>\n"))


def _mark(one: Seen, x: float, y: float) -> str:
    """A dot; a triangle where the machine is set anew, a square where it stops."""
    if one.decision not in ("adjust", "stop"):
        return f'<circle class="reading" cx="{x:.1f}" cy="{y:.1f}" r="1.8"/>'
    corners = "M-6 5h12L0 -6z" if one.decision == "adjust" else "M-6 -6h12v12h-12z"
    name = "set anew" if one.decision == "adjust" else "stop"
    anchor = "end" if x > WIDTH - 100 else "start"
    place = f'<g transform="translate({x:.1f} {y:.1f})"><path class="mark" d="{corners}"/>'
    return f'{place}<text x="6" y="-10" text-anchor="{anchor}">{name}, {one.piece}</text></g>'
