"""POST /v1/control-chart: a Shewhart chart of values in the order of production, and the run rules that fire."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from ..decoding import Result
from ..drawing import Drawing
from ..readings import written_values
from ..tables import Cell, aligned, figure, listed, sections, words
from ..transport import Connection
from ..values import Basis

_PATH = "/v1/control-chart"
_MOST_POINTS = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class Chart:
    """One half of a chart: of location, or of spread. Control limits come from the process, not from the product."""

    id: str
    centre_line: float
    lower_control_limit: float
    upper_control_limit: float
    points: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Signal:
    """A rule that fires, with the last point of each of its patterns."""

    rule: str
    chart: str
    detail: str
    points: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ControlChart(Result):
    """A chart of location and one of spread, and the signals of the rules that were asked for."""

    chart: str
    subgroup_size: int
    charts: tuple[Chart, ...]
    rules: tuple[str, ...]
    signals: tuple[Signal, ...]
    in_control: bool
    basis: Basis | None = None
    rules_basis: tuple[Basis, ...] = ()
    notices: tuple[str, ...] = ()

    def summary(self) -> str:
        """Return centre lines, control limits, signals and notices as aligned text; points count from 1."""
        return _text(self)


def _text(found: ControlChart) -> str:
    rows: list[tuple[Cell, ...]] = [("", "LCL", "CL", "UCL", "points")]
    rows += [
        (
            words(one.id),
            *map(figure, (one.lower_control_limit, one.centre_line, one.upper_control_limit)),
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


def control_chart(
    connection: Connection,
    values: Iterable[float | Decimal],
    *,
    chart: str | None = None,
    subgroup_size: int | None = None,
    rule_set: str | None = None,
    rules: Iterable[str] | None = None,
    given_mean: float | Decimal | None = None,
    given_standard_deviation: float | Decimal | None = None,
) -> ControlChart:
    """Return centre lines, control limits and signals.

    Args:
        values: readings in the order of production.
        chart: mean_and_range, mean_and_standard_deviation or individuals.
        subgroup_size: pieces in a subgroup.
        rule_set: the run rules of a standard, as `ISO 7870-2`, or
        rules: single ones by name.
        given_mean, given_standard_deviation: of single values; the limits come from them and not from the readings.

    Raises:
        InvalidRequestError: values or settings that cannot be used. ValueError: NaN or Infinity among the values.
    """
    body = {
        "values": written_values("values", values),
        "chart": chart,
        "subgroup_size": subgroup_size,
        "rule_set": rule_set,
        "rules": None if rules is None else list(rules),
        "given_mean": given_mean,
        "given_standard_deviation": given_standard_deviation,
    }
    return connection.post(ControlChart, _PATH, body)


def control_chart_drawing(
    connection: Connection,
    values: Iterable[float | Decimal],
    *,
    title: str | None = None,
    unit: str | None = None,
    **settings: Any,
) -> Drawing:
    """Return the chart drawn: location above spread, limits, points outside them, and runs. Points count from 1.

    Args:
        values: readings in the order of production.
        title, unit: stand above the drawing.
        settings: those of `control_chart`.

    Raises:
        InvalidRequestError: values or settings that cannot be used. ValueError: NaN or Infinity among the values.
    """
    body = {"values": written_values("values", values), "title": title, "unit": unit}
    return connection.post_for_drawing(_PATH, {**body, **settings})
