"""Coatings that a standard designates: what the designation says, and the thickness that it asks for.

ISO 10684:2004 (hot dip galvanized), ISO 4042:1999 (electroplated, codes), ISO 4042:2018 (electroplated, designations),
ISO 10683 (zinc flake).
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from ..quantities import Basis, Bounds, UnknownName
from ..quantities.keeper import remembered
from ..standards import Row, Table, rules

Process = Literal["hot dip galvanizing", "electroplating", "zinc flake"]
#: The edition of ISO 10683 that a designation with a chromate word names.
_TOLD_APART = "2000"
_DESIGNATION_RECALLED = "the form of the designation is from memory"


@dataclass(frozen=True, slots=True)
class Coating:
    """A coating by its designation. `thickness` holds what is asked for, in um, by id."""

    designation: str
    process: Process
    standard: str
    edition: str
    metal: str
    thickness: dict[str, Bounds]
    basis: Basis
    notices: tuple[str, ...] = ()

    def __hash__(self) -> int:
        return hash(self.designation)

    @property
    def planned(self) -> Decimal:
        """The thickness in um that the thread must have room for: nominal, reference or least local one."""
        bounds = next(iter(self.thickness.values()))
        return next(one for one in (bounds.nominal, bounds.min, bounds.max) if one is not None)


@remembered()
def hot_dip_galvanized() -> Coating:
    """Return the coating `tZn`.

    ISO 10684:2004, clause on coating thickness.
    """
    facts = rules("ISO 10684")
    table = facts.table("thickness")
    thickness = {}
    for name in ("local_min", "batch_average_min"):
        row = _found(table.find(name))
        thickness[name.removesuffix("_min")] = Bounds("t", row.number("value"), None, "um", row.basis("value"))
    basis = facts.clause("designation", "tabulated")
    return Coating("tZn", "hot dip galvanizing", facts.id, facts.edition, "zinc", thickness, basis)


def metal_symbols() -> tuple[str, ...]:
    """Return the symbols of coating metals that a designation may name."""
    table = rules("ISO 4042", holding="metal_symbols").table("metal_symbols")
    return tuple(str(name) for name in table.column_values("symbol"))


@remembered(4096)
def electroplated(symbol: str, nominal: Decimal, finish: tuple[str, ...] = ()) -> Coating:
    """Return a coating such as `Fe/Zn8/An/T0`; `nominal` in um.

    ISO 4042:2018, designation (recalled); thickness by ISO 4042:1999, Table 1.

    Raises:
        UnknownName: no such metal or nominal thickness is held.
    """
    facts = rules("ISO 4042", holding="metal_symbols")
    metals = facts.table("metal_symbols")
    row = metals.find(symbol)
    if row is None:
        raise _unknown(f"coating metal {symbol!r}", (f"Fe/{name}8" for name in metal_symbols()))
    designation = "/".join(["Fe", f"{symbol}{nominal}", *finish])
    basis = facts.clause("designation of coating systems", "tabulated", _DESIGNATION_RECALLED)
    thickness = _nominal_thickness(nominal, f"Fe/{symbol}")
    return Coating(designation, "electroplating", facts.id, facts.edition, row.word("metal"), thickness, basis)


@remembered(4096)
def electroplated_by_code(code: str) -> Coating:
    """Return a coating by its code such as `A3L`: metal, thickness, finish.

    ISO 4042:1999, codes (recalled) and Table 1.

    Raises:
        UnknownName: no such metal or thickness is held.
    """
    facts = rules("ISO 4042", holding="metal_codes")
    metal = facts.table("metal_codes").find(code[0])
    figure = facts.table("thickness_codes").find(Decimal(code[1]))
    if metal is None or figure is None:
        letters = facts.table("metal_codes").column_values("letter")
        raise _unknown(f"coating code {code!r}", (f"{letter}{code[1]}{code[2]}" for letter in letters))
    basis = facts.clause("codes of the coating", "tabulated", "the letters and figures are from memory")
    thickness = _nominal_thickness(figure.number("nominal"), code[0])
    other = f"the edition of {rules('ISO 4042').edition} designates coating systems in another way"
    notice = f"{code} is a code of {facts.cited}; {other}"
    return Coating(code, "electroplating", facts.id, facts.edition, metal.word("metal"), thickness, basis, (notice,))


@remembered(4096)
def zinc_flake(hours: Decimal, chromate: str = "", lubricated: bool = False) -> Coating:
    """Return a coating such as `flZn-480h`; `chromate` is `yc`, `nc` or empty.

    ISO 10683:2014, reference thickness; with `yc` or `nc` the edition of 2000, which told them apart.

    Raises:
        UnknownName: the edition gives no thickness for that duration.
    """
    facts = rules("ISO 10683", _TOLD_APART if chromate else None)
    column = {"yc": "with_chromate", "nc": "without_chromate"}.get(chromate, "thickness")
    table = facts.table("reference_thickness")
    name = f"flZn{chromate}{'L' if lubricated else ''}"
    row = table.find(hours)
    if row is None:
        near = sorted(_numbers(table, "hours"), key=lambda known: abs(known - hours))
        raise _unknown(f"duration {hours} h", (f"{name}-{known}h" for known in near))
    reference = row.number(column)
    thickness = {"reference": Bounds("t", None, None, "um", row.basis(column), reference)}
    basis = facts.clause("designation", "tabulated", _DESIGNATION_RECALLED)
    notice = "the real thickness of zinc flake coatings spreads widely: plan the thread with the greatest thickness"
    return Coating(f"{name}-{hours}h", "zinc flake", facts.id, facts.edition, "zinc flake", thickness, basis, (notice,))


def _nominal_thickness(nominal: Decimal, prefix: str) -> dict[str, Bounds]:
    table = rules("ISO 4042", holding="table_1").table("table_1")
    row = table.find(nominal)
    if row is None:
        near = sorted(_numbers(table, "nominal"), key=lambda known: abs(known - nominal))
        raise _unknown(f"nominal thickness {nominal} um", (f"{prefix}{known}" for known in near))
    least, most = row.number("batch_average_min"), row.number("batch_average_max")
    return {
        "local": Bounds("t", row.number("local_min"), None, "um", row.basis("local_min"), nominal),
        "batch_average": Bounds("t", least, most, "um", row.basis("batch_average_min"), nominal),
    }


def _numbers(table: Table, column: str) -> list[Decimal]:
    return [cell for cell in table.column_values(column) if isinstance(cell, Decimal)]


def _unknown(what: str, known: Iterable[str]) -> UnknownName:
    names = list(known)
    return UnknownName(
        f"{what} is not held; held are {', '.join(names)}", member="coating", code="unknown_coating", nearest=names[:3]
    )


def _found(row: Row | None) -> Row:
    if row is None:
        raise KeyError("row")
    return row
