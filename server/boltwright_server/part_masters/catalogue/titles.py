"""Units in the titles of columns, as plants write them: `Zugkraft [kN]`, `Zugkraft (kN)`, `SW in mm`, `F / kN`.

What stands in square brackets is a unit. Elsewhere only what is known as one counts: `SW (min)` is no time, `SW (s)`
has its symbol behind it.
"""

from __future__ import annotations

import re

from ...quantities import Contradiction
from ...quantities.units import CODES, dimension
from ..figures.figure_texts import known_unit
from .row import MASS, Header, header_of, is_figure

_SQUARE, _ROUND = re.compile(r"\[([^\[\]]{1,24})\]"), re.compile(r"\(([^()]{1,24})\)")
_SEPARATOR = re.compile(r"[\s/,_:-]+")
_STATED = re.compile(r"(?:.*\s(?:in|en)\s|.*/)\s*", re.IGNORECASE)
#: No figure of a part is one.
_NEVER = ("time", "ratio", "speed", "temperature", "temperature in degrees Fahrenheit")
#: Units that are met in part masters and not converted: a row says so (common practice).
_FOREIGN = frozenset(
    (
        *("kp", "kgf", "mp", "dan", "mn", "pa", "gpa", "psi", "bar", "ft-lb", "lbf-ft", "lbf.ft"),
        *("cm", "dm", "m", "ft", "mil", "thou", "t", "lb", "lbs", "oz"),
    )
)
#: Single letters are symbols too, `Dicke (t)`: they are units only where the title says so, `Gewicht in t`.
_LETTERS = frozenset("mt")
_PER_1000 = re.compile(r"(?:/|per|je|pro)1000.*", re.IGNORECASE)
_LONGEST_UNIT = 12


def mapped_name(title: str, member: str) -> str:
    """Return the name of the member that a title is mapped to, with the unit that either of them names.

    Raises:
        Contradiction: they name two units.
    """
    header = header_of(member)
    if not is_figure(header.id):
        return member
    unit = unit_in(title, header)
    if unit is None or header.unit is not None:
        _refuse_two(title, member, unit, header.unit)
        return member
    return f"{header.id} [{unit}]"


def _refuse_two(title: str, member: str, unit: str | None, stated: str | None) -> None:
    """A unit in brackets that nobody knows is none against one that is stated."""
    if unit is None or stated is None or known_unit(stated) == unit or unit not in CODES:
        return
    raise Contradiction(
        f"columns: the title {title[:60]!r} is in {unit}, {member[:60]!r} in {stated}; state one unit", member="columns"
    )


def unit_in(title: str, header: Header) -> str | None:
    """Return the unit that a title of a member names, by its code where it has one; None where it names none."""
    if (square := _SQUARE.search(title)) is not None:
        return _bare(square[1], header.id)
    for inside in _ROUND.findall(title):
        unit = _bare(inside, header.id)
        if _is_unit(unit.partition("/")[0]) and unit.lower() not in _LETTERS:
            return unit
    tails = (title[match.end() :] for match in _SEPARATOR.finditer(title))
    return next((_bare(tail, header.id) for tail in tails if _closes(title, tail, header.id)), None)


def _closes(title: str, tail: str, id: str) -> bool:
    """Whether the tail of a title is a unit, as it stands."""
    unit = _bare(tail, id)
    stated = unit.lower() not in _LETTERS or _STATED.fullmatch(title.removesuffix(tail)) is not None
    return stated and _is_unit(unit)


def _bare(text: str, id: str) -> str:
    """Return a unit without blanks; `kg/1000` is the kg of `mass_per_1000`."""
    bare = "".join(text.split())
    return known_unit(_PER_1000.sub("", bare) if id == MASS else bare)[:_LONGEST_UNIT]


def _is_unit(text: str) -> bool:
    unit = known_unit(text)
    return unit.lower() in _FOREIGN or (unit in CODES and dimension(unit) not in _NEVER)
