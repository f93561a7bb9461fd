"""Capability and control charts as text for people: aligned, for a terminal, a log or a mail."""

from __future__ import annotations

from typing import TYPE_CHECKING

from .tables import Cell, aligned, listed, sections, words

if TYPE_CHECKING:
    from .capability import Capability, Index
    from .control_chart import ControlChart

_MOST_POINTS = 12


def capability_text(found: Capability) -> str:
    """Return mean, spread and indices with their intervals, the distribution, and the notices."""
    named = (("Cp", found.cp), ("Cpk", found.cpk), ("Pp", found.pp), ("Ppk", found.ppk))
    rows: list[tuple[Cell, ...]] = [("values", str(found.count), ""), ("mean", _figure(found.mean), "")]
    rows.append(("standard deviation", _figure(found.standard_deviation_overall), "of all values"))
    rows.append(("", _figure(found.standard_deviation_within), f"within: {found.within_method}"))
    rows += [(name, f"{index.value:.2f}", _interval(index)) for name, index in named if index is not None]
    confidence = f"Intervals at {100 * found.confidence_level:g} %." if any(index for _, index in named) else ""
    supposed = " ".join(part for part in (confidence, _distribution(found), _expected(found)) if part)
    return sections(_limits(found), aligned(rows), supposed, ("To note", listed(found.notices)))


def _expected(found: Capability) -> str:
    one = found.expected_nonconforming
    shares = [] if one is None else [share for share in (one.below_min, one.above_max) if share is not None]
    return f"Expected beyond the limits: {sum(shares) * 1e6:.3g} in a million." if shares else ""


def _limits(found: Capability) -> str:
    limits = found.limits
    if limits is None:
        return "Capability"
    low, high = (None if end is None else f"{end:g}" for end in (limits.min, limits.max))
    said = f"at most {high}" if low is None else f"at least {low}" if high is None else f"{low} to {high}"
    return f"Capability against {said} {limits.unit or ''}".rstrip()


def _figure(value: float | None) -> str:
    return "" if value is None else f"{value:.6g}"


def _interval(index: Index) -> str:
    low, high = index.confidence_interval
    return "" if low is None or high is None else f"{low:.2f} to {high:.2f}"


def _distribution(found: Capability) -> str:
    one = found.distribution
    if one is None:
        return ""
    fit = one.fit
    if fit is None:
        return f"Distribution: {one.name}, not tested."
    p_value = "" if fit.p_value is None else f", p = {fit.p_value:.3g}"
    verdict = "rejected" if fit.rejected else "not rejected"
    return f"Distribution: {one.name}, {verdict} by the {fit.test} test{p_value}."


def control_chart_text(found: ControlChart) -> str:
    """Return centre lines and limits, the rules that fire with their points counted from 1, and the notices."""
    rows: list[tuple[Cell, ...]] = [("", "LCL", "CL", "UCL", "points")]
    rows += [
        (
            words(one.id),
            *map(_figure, (one.lower_control_limit, one.centre_line, one.upper_control_limit)),
            len(one.points),
        )
        for one in found.charts
    ]
    verdict = "in control" if found.in_control else "NOT IN CONTROL"
    size = f", subgroups of {found.subgroup_size}" if found.subgroup_size > 1 else ""
    signals = (f"{one.detail} ({words(one.chart)}): {_points(one.points)}" for one in found.signals)
    return sections(
        f"Control chart{size}: {verdict}",
        aligned(rows),
        ("Signals", listed(signals)),
        ("To note", listed(found.notices)),
    )


def _points(indexes: tuple[int, ...]) -> str:
    shown = ", ".join(str(index + 1) for index in indexes[:_MOST_POINTS])
    return shown if len(indexes) <= _MOST_POINTS else f"{shown} and {len(indexes) - _MOST_POINTS} more"
