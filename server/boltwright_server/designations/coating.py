"""Coating designations: `tZn`, `Fe/Zn8/An/T0`, `A3L`, `flZn-480h`.

ISO 10684:2004, ISO 4042:2018, ISO 4042:1999 and ISO 10683; but for tZn the forms are from memory.
"""

from __future__ import annotations

from lark import Token, Tree

from ..coating import Coating, electroplated, electroplated_by_code, hot_dip_galvanized, zinc_flake
from ..coating.coating import metal_symbols
from ..quantities import NotUnderstood, near_names
from ..quantities.keeper import remembered
from ..quantities.rounding import shortest
from .numbers import number
from .reader import at, read

#: Designations that a slip of the pen may have meant, and how many slips it may have.
EXAMPLES, SLIPS = ("tZn", "flZn-480h", "flZn-240h", "flZn-720h", "Fe/Zn8", "Fe/Zn5", "Fe/ZnNi8", "Zn8", "A3L"), 2.0


@remembered(512)
def parse_coating(text: str) -> Coating:
    """Read a coating designation.

    Raises:
        NotUnderstood: not of a form that a standard gives.
        UnknownName: no such metal, thickness or duration is held.
    """
    try:
        return coating_of(read(text, "coating", "coating"))
    except NotUnderstood as refusal:
        refusal.nearest = near_names(text, EXAMPLES, 3, SLIPS)
        raise


def coating_of(tree: Tree[Token]) -> Coating:
    """Return the coating of a parsed text.

    Raises:
        UnknownName: no such metal, thickness or duration is held.
    """
    tokens = [child for child in tree.children if isinstance(child, Token)]
    with at(tokens[0]):
        return _named(tokens)


def _named(tokens: list[Token]) -> Coating:
    by_type = {token.type: str(token) for token in tokens}
    if "HOT_DIP" in by_type:
        return hot_dip_galvanized()
    if "COATING_CODE" in by_type:
        return electroplated_by_code(by_type["COATING_CODE"].upper())
    amount = shortest(number(by_type["NUMBER"]))
    if "FLAKE" in by_type:
        return zinc_flake(amount, by_type.get("CHROMATE", "").lower(), "LUBRICATED" in by_type)
    symbol = next(name for name in metal_symbols() if name.lower() == by_type["METAL"].lower())
    finish = tuple(str(token).capitalize() for token in tokens if token.type == "FINISH")
    return electroplated(symbol, amount, finish)
