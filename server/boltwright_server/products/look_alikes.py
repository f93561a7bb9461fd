"""Former standards, what replaced them and how that is known, and the dimensions in which the two differ.

Nobody may mix them: a former standard is never silently turned into the one that replaced it. Some former standards are
held as products of their own; of the others only the differences are.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from decimal import Decimal

from ..quantities import Basis, UnknownName
from ..quantities.keeper import remembered
from ..standards import Row, Table, rules
from .catalogue import by_key, product_key
from .family import VARIANT_IDS
from .product import Product

_NONE = "-"
_LIMITS = {"max": "max", "min": "min", "nom": "nominal"}


@dataclass(frozen=True, slots=True)
class Difference:
    """One limit, in the former standard and in the one that replaced it, in mm: `limit` is max, min or nominal."""

    size: str
    dimension: str
    symbol: str
    limit: str
    former: Decimal
    former_basis: Basis
    partner: Decimal
    partner_basis: Basis


@dataclass(frozen=True, slots=True)
class LookAlike:
    """A former standard with what replaced it: `partners` holds the one of coarse threads first, and is empty for none.

    `basis` says what names the partners: two kinds of sources or more, one, or memory.
    """

    former: str
    partners: tuple[str, ...]
    basis: Basis
    note: str | None

    @property
    def held(self) -> Product | None:
        """The former standard itself, where it is held as a product."""
        return by_key().get(product_key(self.former))

    def partner_name(self, size: str | None = None) -> str | None:
        """Return the number of the standard that replaced it, of a fine thread where `size` names one."""
        if not self.partners:
            return None
        return self.partners[-1] if size is not None and "x" in size else self.partners[0]

    def partner(self, size: str | None = None) -> Product | None:
        """Return the product that replaced it, or None where nothing did or it is not held."""
        name = self.partner_name(size)
        return None if name is None else by_key().get(product_key(name))


@remembered()
def look_alikes() -> tuple[LookAlike, ...]:
    """Return every former standard that is known, in the order of its table."""
    return tuple(
        LookAlike(
            str(row.key[0]),
            tuple(dict.fromkeys(name for name in (row.word("partner"), row.word("partner_fine")) if name != _NONE)),
            _former_basis(row, "partner", None if row.word("sources") == _NONE else row.word("sources")),
            None if row.word("note") == _NONE else row.word("note"),
        )
        for row in _facts("partners").rows.values()
    )


def _facts(table: str) -> Table:
    return rules("Former standards").table(table)


def _former_basis(row: Row, column: str, note: str | None = None) -> Basis:
    return replace(row.basis(column, note=note), standard=str(row.key[0]))


@remembered()
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
    """Return the limits that are known to differ: at one size (`M10`, `M10x1.25`), or at every size known."""
    held = found.held
    if held is not None and (size is None or held.table.find(size) is not None):
        sizes = held.size_keys() if size is None else [size]
        return tuple(one for name in sizes for one in _of_tables(held, found.partner(name), name))
    diameter = None if size is None else size.partition("x")[0]
    product = found.partner(size)
    return tuple(
        difference
        for row in _facts("differences").rows.values()
        if row.key[0] == found.former and diameter in (None, row.key[1])
        if (difference := _difference(row, product, size or str(row.key[1]))) is not None
    )


#: Columns that are compared where both tables are held, the ones that decide on a fit first.
_COMPARED = (
    *("s_max", "m_max", "m_min", "h_max", "h_min", "k_max", "k_nom", "dk_max", "dkt_max", "dc_max"),
    *("d1_min", "d2_max", "h_nom", "b", "e_min", "mw_min"),
)


def _of_tables(held: Product, partner: Product | None, size: str) -> Iterator[Difference]:
    """Limits that both tables give and that differ; a recalled figure is not compared."""
    ours, theirs = held.table.find(size), None if partner is None else partner.table.find(size)
    if ours is None or theirs is None:
        return
    for column in _COMPARED:
        former, other = (None if column not in row.cells else row.get(column) for row in (ours, theirs))
        if former is None or other is None or former == other:
            continue
        if "memory" in (ours.checked(column), theirs.checked(column)):
            continue
        symbol, _, suffix = column.partition("_")
        dimension = held.family.dimension_ids().get(symbol, "thread_length")
        limit = _LIMITS[suffix or "nom"]
        yield Difference(size, dimension, symbol, limit, former, ours.basis(column), other, theirs.basis(column))


def _difference(row: Row, product: Product | None, size: str) -> Difference | None:
    """None where what replaced it is not held or does not list the size."""
    column = row.word("column")
    ours = None if product is None else product.table.find(size)
    value = None if ours is None or column not in ours.cells else ours.get(column)
    if product is None or ours is None or value is None:
        return None
    symbol, _, suffix = column.partition("_")
    dimension = VARIANT_IDS.get((symbol, suffix)) or product.family.dimension_ids()[symbol]
    return Difference(
        size,
        dimension,
        symbol,
        _LIMITS[suffix],
        row.number("value"),
        _former_basis(row, "value"),
        value,
        ours.basis(column),
    )


_KNOWN_BY = {"one reproduction": " (by one source)", "memory": " (from memory)"}


def told(found: LookAlike, size: str | None = None) -> str:
    """Return one sentence or more that name what replaced it, how that is known, and what differs at the size."""
    start = f"{found.former} is a {'withdrawn' if found.former.startswith('ISO') else 'former'} standard"
    start += "" if found.held is not None else " and is not held"
    known_by = _KNOWN_BY.get(found.basis.checked, "")
    name, product = found.partner_name(size), found.partner(size)
    if name is None:
        end = f"; no standard replaced it{known_by}."
    elif product is None:
        end = f"; {name} replaced it{known_by}, which is not held: nothing is compared."
    else:
        end = f"; {product.standard.cited} replaced it{known_by}. {_differing(found, size)}"
    return f"{start}{end}{'' if found.note is None else f' {found.note}'}"


def _differing(found: LookAlike, size: str | None) -> str:
    known = differences(found, size)
    if size is None:
        sizes = list(dict.fromkeys(one.size.partition("x")[0] for one in known))
        return f"They differ at {', '.join(sizes)}." if sizes else "No differing limit is held."
    if not known:
        return f"At {size} no differing nominal dimension is held, which does not prove them equal."
    listed = ", ".join(_line(one) for one in known)
    return f"At {size} they differ: {listed}. Do not mix them."


def _line(one: Difference) -> str:
    from_memory = " (from memory)" if one.former_basis.checked == "memory" else ""
    limit = " min" if one.limit == "min" else ""
    name = one.dimension.replace("_", " ")
    return f"{name} {one.symbol}{limit} {one.former} mm against {one.partner} mm{from_memory}"


def refusal(found: LookAlike, size: str | None, nearest: str | None = None, member: str = "designation") -> UnknownName:
    """Return the refusal of a former standard: it is never silently turned into the one that replaced it."""
    partner = found.partner(size)
    near = nearest or (None if partner is None else partner.id)
    return UnknownName(told(found, size), member=member, code="former_standard", nearest=[] if near is None else [near])
