"""The figures of a capability below its histogram, as people read them."""

from __future__ import annotations

from ...statistics import Capability, Index
from .scale import decimals_for, stated


def capability_remarks(found: Capability, confidence: float) -> list[str]:
    """Return the spread, the indices with their intervals, what they suppose, and the notices."""
    named = (("Cp", found.cp), ("Cpk", found.cpk), ("Pp", found.pp), ("Ppk", found.ppk))
    figures = [_index(name, index) for name, index in named if index is not None]
    overall, within = (
        "-" if one is None else stated(one, decimals_for(one))
        for one in (found.standard_deviation_overall, found.standard_deviation_within)
    )
    supposed = [f"Confidence {100 * confidence:g} %, {found.distribution.name} distribution"] if figures else []
    return [
        f"{found.count} values, standard deviation {overall} of all values, {within} within subgroups",
        *figures,
        *supposed,
        *_expected(found),
        *found.notices,
    ]


def _expected(found: Capability) -> list[str]:
    shares = [share for share in found.expected_beyond if share is not None]
    return [f"Share beyond the limits: {100 * sum(shares):.3g} %"] if shares else []


def _index(name: str, index: Index) -> str:
    low, high = index.confidence_interval
    interval = "" if low is None or high is None else f" ({low:.2f} to {high:.2f})"
    return f"{name} {index.value:.2f}{interval}"
