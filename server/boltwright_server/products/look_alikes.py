"""Former standards whose products look like those of an ISO standard, and the dimensions in which they differ.

Nobody may mix them: a former standard is never silently turned into its ISO partner.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal
from functools import cache

from ..quantities import Basis, UnknownName
from ..standards import Row, Table, standard
from .catalogue import find_product
from .family import VARIANT_IDS
from .product import Product


@dataclass(frozen=True, slots=True)
class Difference:
    """One nominal dimension, in the former standard and in the ISO standard, in mm."""

    size: str
    dimension: str
    symbol: str
    former: Decimal
    former_basis: Basis
    partner: Decimal
    partner_basis: Basis


@dataclass(frozen=True, slots=True)
class LookAlike:
    """A former standard with its ISO partners: `partners` holds the one of coarse threads first."""

    former: str
    partners: tuple[str, ...]
    note: str | None

    def partner(self, size: str | None = None) -> Product:
        """Return the ISO partner, of a fine thread where `size` names one."""
        fine = size is not None and "x" in size
        return find_product(self.partners[-1] if fine else self.partners[0])


@cache
def look_alikes() -> tuple[LookAlike, ...]:
    """Return every former standard that is known, in the order of its table."""
    rows = _facts("partners").rows.values()
    return tuple(
        LookAlike(
            str(row.key[0]),
            tuple(dict.fromkeys(name for name in (row.word("partner"), row.word("partner_fine")) if name != "-")),
            None if row.word("note") == "-" else row.word("note"),
        )
        for row in rows
    )


def _facts(table: str) -> Table:
    return standard("former_standards_withdrawn").table(table)


@cache
def _pattern() -> re.Pattern[str]:
    names = sorted((one.former.replace(" ", r"\s*") for one in look_alikes()), key=len, reverse=True)
    not_part_of_another = r"(?![0-9]|-[0-9](?![0-9.,x]))"
    return re.compile(rf"\s*({'|'.join(names)}){not_part_of_another}", re.IGNORECASE)


def look_alike_in(text: str) -> LookAlike | None:
    """Return the former standard that a designation or a name of a standard starts with, or None."""
    match = _pattern().match(text)
    if match is None:
        return None
    key = re.sub(r"\s+", "", match[1]).upper()
    return next(one for one in look_alikes() if one.former.replace(" ", "") == key)


def differences(found: LookAlike, size: str | None = None) -> tuple[Difference, ...]:
    """Return where the nominal dimensions differ: at one size (`M10`, `M10x1.25`), or at every size known."""
    diameter = None if size is None else size.partition("x")[0]
    product = found.partner(size)
    return tuple(
        difference
        for row in _facts("differences").rows.values()
        if row.key[0] == found.former and diameter in (None, row.key[1])
        if (difference := _difference(row, product, size or str(row.key[1]))) is not None
    )


def _difference(row: Row, product: Product, size: str) -> Difference | None:
    """None where the ISO standard does not list the size."""
    column = row.word("column")
    ours = product.table.find(size)
    value = None if ours is None else ours.get(column)
    if ours is None or value is None:
        return None
    symbol, _, suffix = column.partition("_")
    dimension = VARIANT_IDS.get((symbol, suffix)) or product.family.dimension_ids()[symbol]
    basis = row.basis("value")
    former = Basis(str(row.key[0]), basis.edition, basis.clause, basis.method, basis.checked)
    return Difference(size, dimension, symbol, row.number("value"), former, value, ours.basis(column))


def told(found: LookAlike, size: str | None = None) -> str:
    """Return one sentence or two that name the ISO partner and what differs at the size."""
    product = found.partner(size)
    start = f"{found.former} is a former standard and is not held; {product.standard.cited} replaced it"
    if found.former.startswith("ISO"):
        start = f"{found.former} is withdrawn and is not held; {product.standard.cited} replaced it"
    known = differences(found, size)
    if size is None:
        sizes = sorted({one.size for one in known}, key=lambda name: Decimal(name[1:]))
        end = f"They differ at {', '.join(sizes)}" if sizes else "No differing nominal dimension is held"
    elif known:
        listed = ", ".join(
            f"{one.dimension.replace('_', ' ')} {one.symbol} {one.former} mm against {one.partner} mm"
            + (" (from memory)" if one.former_basis.checked == "memory" else "")
            for one in known
        )
        end = f"At {size} they differ: {listed}. Do not mix them"
    else:
        end = f"At {size} no differing nominal dimension is held, which does not prove them equal"
    return f"{start}. {end}.{'' if found.note is None else f' {found.note}'}"


def refusal(found: LookAlike, size: str | None, nearest: str | None = None, member: str = "designation") -> UnknownName:
    """Return the refusal of a former standard: it is never silently turned into the ISO one."""
    return UnknownName(
        told(found, size),
        member=member,
        code="former_standard",
        nearest=[nearest or found.partner(size).id],
    )
