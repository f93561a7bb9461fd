"""POST /v1/control-chart: a Shewhart chart of values in the order of production, and the run rules that fire."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal

from .decoding import Result
from .readings import written_values
from .transport import Connection
from .values import Basis


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
    notices: tuple[str, ...] = ()


def control_chart(
    connection: Connection,
    values: Iterable[float | Decimal],
    *,
    chart: str | None = None,
    subgroup_size: int | None = None,
    rule_set: str | None = None,
    rules: Iterable[str] | None = None,
) -> ControlChart:
    """Return centre lines, control limits and signals.

    Args:
        values: readings in the order of production.
        chart: mean_and_range, mean_and_standard_deviation or individuals.
        subgroup_size: pieces in a subgroup.
        rule_set: the run rules of a standard, as `ISO 7870-2`, or
        rules: single ones by name.

    Raises:
        InvalidRequestError: values or settings that cannot be used. ValueError: NaN or Infinity among the values.
    """
    body = {
        "values": written_values("values", values),
        "chart": chart,
        "subgroup_size": subgroup_size,
        "rule_set": rule_set,
        "rules": None if rules is None else list(rules),
    }
    return connection.post(ControlChart, "/v1/control-chart", body)
