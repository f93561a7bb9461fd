"""GET and POST /v1/set-points: the figures of each station of a line, in the state in which the part is there."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Any

from ..decoding import Result
from ..look_ups.derivation import Step
from ..transport import Connection, flag
from ..values import Basis

#: A figure in the product's unit, or {"value": ..., "unit": ...}.
Figure = float | Decimal | Mapping[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class ExactFigures:
    """Figures before rounding."""

    min: Decimal | None
    target: Decimal | None
    max: Decimal | None


@dataclass(frozen=True, slots=True, kw_only=True)
class SetPoint:
    """A figure of a station, as decimals: a reading on `min` or `max` is inside, beyond it the machine stops."""

    target: Decimal | None
    min: Decimal | None
    max: Decimal | None
    warning_min: Decimal | None
    warning_max: Decimal | None
    unit: str
    basis: Basis
    exact: ExactFigures


@dataclass(frozen=True, slots=True, kw_only=True)
class Station:
    """A machine of the line; `state` is that of the part that leaves it."""

    id: str
    state: str
    set_points: Mapping[str, SetPoint] = field(default_factory=dict)
    pieces_at_risk: Decimal | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Need:
    """A member of the request that a set-point lacks, or that was counted as 0."""

    station: str
    set_point: str
    member: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SetPoints(Result):
    """Set-points by station. What is missing stands in `needs`; nothing is assumed in silence."""

    designation: str
    stations: tuple[Station, ...]
    notices: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    needs: tuple[Need, ...] = ()
    derivation: tuple[Step, ...] = ()

    def station(self, id: str) -> Station:
        """Return a station by its id, such as thread_rolling.

        Raises:
            KeyError: the part does not pass it.
        """
        return {one.id: one for one in self.stations}[id]


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One entry of a register image, in counts of its scale; None is an open side."""

    characteristic: str
    code: int
    scale: int
    stop_min: int | None
    warn_min: int | None
    target: int | None
    warn_max: int | None
    stop_max: int | None
    checked: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RegisterImage(Result):
    """The limits of one station as 120 registers; `image` is 480 hex digits, to be signed and written as they are."""

    designation: str
    layout: int
    image: str
    crc32: str
    switch_word: str
    basis_text: str
    flags: int
    entries: tuple[Entry, ...]
    notices: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()


def set_points_registers(
    connection: Connection, designation: str, registers: Mapping[str, Any], **plant: Any
) -> RegisterImage:
    """Return the limits of one station as a register image, whole or not at all.

    Args:
        designation: the product or thread.
        registers: station, stage, characteristics (one to six), sequence, issued_at, order, lot; valid_until, bank,
            trial, run_on.
        plant: what `set_points` takes of the plant: wire_diameter, roller, state_shifts and the others.

    Raises:
        InvalidRequestError: among its codes `plant_figures_missing`. Others: as `set_points`.
    """
    body = {"designation": designation, **plant, "as": "registers", "registers": dict(registers)}
    return connection.post(RegisterImage, "/v1/set-points", body)


def set_points(
    connection: Connection,
    designation: str,
    *,
    wire_diameter: Figure | None = None,
    extruded_diameter: Figure | None = None,
    head_trim: float | Decimal | None = None,
    elongation: float | Decimal | None = None,
    forging_loss: float | Decimal | None = None,
    aims: Mapping[str, Figure] | None = None,
    tools: Mapping[str, Figure] | None = None,
    roller: Mapping[str, Any] | None = None,
    recipe: Mapping[str, Any] | None = None,
    state_shifts: Iterable[Mapping[str, Any]] | None = None,
    coating_thickness: Mapping[str, Figure] | None = None,
    rate: float | Decimal | None = None,
    check_interval: float | Decimal | None = None,
    step: Figure | None = None,
    requirements: Mapping[str, Mapping[str, Any] | None] | None = None,
    dropped: Mapping[str, Mapping[str, str]] | None = None,
    stage: str | None = None,
    explain: bool | None = None,
) -> SetPoints:
    """Return the set-points of a product, or of a thread such as M10-6g.

    Args:
        designation: the product or thread.
        wire_diameter, extruded_diameter: of wire or bar, and of the extruded blank.
        head_trim, elongation, forging_loss: fractions of the head's volume, the threaded length, the nut.
        aims: by characteristic id, the figure aimed at; the middle of two limits where none is named.
        tools: chamfer_circle, drill_diameter and others of the plant's tool drawings.
        roller: pitch_diameter_spread, factor, root_radius.
        recipe: tempering_temperature, hardness_core; checked, never proposed.
        state_shifts: how characteristics change between states: pairs `before` and `after`, or what they gave.
        coating_thickness: min and max.
        rate, check_interval: pieces per minute, minutes.
        step: what figures of its unit are rounded to.
        requirements, dropped: a purchaser's, as in `specification`.
        stage: one station only.
        explain: the way to each figure, in `derivation`.

    Raises:
        InvalidRequestError: a figure that cannot be; among its codes `nothing_remains`, `recipe_not_allowed`. Others:
            as `specification`.
    """
    asked: dict[str, Any] = {
        "wire_diameter": wire_diameter,
        "extruded_diameter": extruded_diameter,
        "head_trim": head_trim,
        "elongation": elongation,
        "forging_loss": forging_loss,
        "aims": aims,
        "tools": tools,
        "roller": roller,
        "recipe": recipe,
        "state_shifts": None if state_shifts is None else list(state_shifts),
        "coating_thickness": coating_thickness,
        "rate": rate,
        "check_interval": check_interval,
        "step": step,
        "requirements": requirements,
        "dropped": dropped,
    }
    if all(one is None for one in asked.values()):
        query = {"designation": designation, "stage": stage, "explain": flag(explain)}
        return connection.get(SetPoints, "/v1/set-points", **query)
    body = {"designation": designation, **asked, "stage": stage, "explain": explain}
    return connection.post(SetPoints, "/v1/set-points", body)
