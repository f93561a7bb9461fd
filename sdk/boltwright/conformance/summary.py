"""Verdicts on characteristics as a table for people: aligned, for a terminal, a log or a mail."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal

from ..tables import Cell, aligned, words
from .verdicts import CharacteristicVerdict


def characteristics_table(found: Mapping[str, CharacteristicVerdict]) -> str:
    """Return one line a characteristic: its verdict, how many readings, their extremes, and the limits."""
    rows: list[tuple[Cell, ...]] = [("", "", "readings", "nonconforming", "undecided", "lowest", "highest", "required")]
    rows += [_row(id, one) for id, one in found.items()]
    return aligned(rows)


def _row(id: str, one: CharacteristicVerdict) -> tuple[Cell, ...]:
    undecided = one.undecided_count or None
    return (words(id), one.verdict, one.count, one.nonconforming_count, undecided, *_extremes(one), _required(one))


def _extremes(one: CharacteristicVerdict) -> tuple[str, str]:
    """Lowest and highest reading, with the decimals of the limit, or with more where they were read finer."""
    found = one.statistics
    if found is None:
        return "", ""
    same = one.limits is None or found.unit == one.limits.unit
    decimals = one.limits.decimals if one.limits and same else 0
    unit = "" if same else f" {found.unit}"
    finest = max(
        decimals, *(-int(Decimal(repr(value)).normalize().as_tuple().exponent) for value in (found.min, found.max))
    )
    return f"{found.min:.{finest}f}{unit}", f"{found.max:.{finest}f}{unit}"


def _required(one: CharacteristicVerdict) -> str:
    limits = "" if one.limits is None else str(one.limits)
    allowed = " or ".join("pass" if word is True else str(word) for word in one.allowed)
    doubt = f" ({one.basis.checked})" if one.basis.checked in ("memory", "conflict") else ""
    return "; ".join(part for part in (allowed, limits) if part) + doubt
