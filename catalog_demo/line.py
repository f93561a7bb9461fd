"""An invented line, header and roller at 300 pieces a minute, judged by the rule of /v1/piece-decision.

What wears, drifts or is mistaken here is invented; the limits are the service's. Reported: pieces until the machine
stops or is set anew, and false stops a shift, each beside the closed form of the same rule.
"""

from __future__ import annotations

import math
import random
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path

from closed_forms import check
from line_picture import Seen, picture

from boltwright import Client
from boltwright.floor import piece_rule

RATE, INTERVAL_MINUTES, SHIFT_HOURS = 300, 1, 8
INTERVAL = RATE * INTERVAL_MINUTES
PRODUCT, OTHER_ORDER = "ISO 4014 - M10x60 - 8.8", "M10-6e"
#: Thousandths of a millimetre a piece of wear of the dies; of wire that grows thicker; a blank from another box.
WEAR_UM, WIRE_UM_OF_DIAMETER, WRONG_BLANK_UM = 1.2e-3, 3e-4, 50
RUNS, SHIFTS = 400, 60
SHARES = (0.05, 0.5, 0.95)
Fault = Callable[[int], float]
Table = Callable[[Sequence[Sequence[str]]], str]


@dataclass(frozen=True)
class Machine:
    """One machine in thousandths of a millimetre: limits from the service, its own spread."""

    name: str
    low: int
    high: int
    sigma: float

    @property
    def target(self) -> float:
        return (self.low + self.high) / 2

    @property
    def half_zone(self) -> float:
        return (self.high - self.low) / 2 / self.sigma

    def rule(self) -> piece_rule.Station:
        """Return the station of the rule, at a resolution of a thousandth."""
        given = {"min": mm(self.low), "max": mm(self.high), "resolution": mm(1)}
        return piece_rule.station_of({**given, "standard_deviation": mm(round(self.sigma, 1))})


def mm(thousandths: float) -> Decimal:
    """Return thousandths as an exact decimal in mm."""
    return Decimal(str(thousandths)).scaleb(-3)


def checks(machine: Machine, fault: Fault, chance: random.Random) -> Iterator[tuple[int, Decimal, str, Decimal | None]]:
    """Yield (piece, reading, decision, amount) of a machine that was set up well; the caller stops asking.

    A check an interval; while the rule asks for more, the next piece is measured.
    """
    rule, state = machine.rule(), piece_rule.State(phase="run")
    piece, adjusted = 0, 0.0
    while True:
        value = mm(round(machine.target + fault(piece) + adjusted + chance.gauss(0, machine.sigma)))
        said = piece_rule.decide(rule, [(piece + 1, value)], state)[0]
        yield piece, value, said["decision"], said["amount"]
        if said["decision"] == "adjust" and said["amount"] is not None:
            adjusted += float(said["amount"]) * 1000
        piece += 1 if said["decision"] in ("measure_next", "adjust") else INTERVAL


def pieces_until(machine: Machine, fault: Fault, seed: int) -> int:
    """Return after how many pieces the machine stops or is set anew; the fault begins just after a good check."""
    late = INTERVAL
    for piece, _, decision, _ in checks(machine, lambda piece: fault(piece + late), random.Random(seed)):
        if decision in ("stop", "adjust"):
            return piece + late
    raise AssertionError("the checks do not end by themselves")


def ends_a_shift(machine: Machine, seed: int) -> tuple[int, int, int]:
    """Return checks, stops and adjustments of one shift without any fault; after either the run goes on."""
    rule, chance = machine.rule(), random.Random(seed)
    made = stops = adjusted = 0
    for _ in range(SHIFT_HOURS * 60 // INTERVAL_MINUTES):
        made += 1
        state = piece_rule.State(phase="run")
        for number in range(1, 8):
            value = mm(round(machine.target + chance.gauss(0, machine.sigma)))
            said = piece_rule.decide(rule, [(number, value)], state)[0]["decision"]
            if said != "measure_next":
                break
        stops, adjusted = stops + (said == "stop"), adjusted + (said == "adjust")
    return made, stops, adjusted


def line_section(client: Client, drawing: Path, table: Table) -> str:
    """Return the section of the report and write the picture of a run."""
    roller, faults = line_of(client)
    drawing.write_text(_picture(roller, faults), encoding="utf-8")
    return "\n\n".join(
        (
            "## A simulated line",
            f"Header and roller for `{PRODUCT}`, invented, {RATE} pieces a minute, one check a minute "
            f"({INTERVAL} pieces), Cp 4/3. Limits are the service's, decisions those of `/v1/piece-decision`, made "
            f"without a network. The picture of a run is {drawing.name}.",
            f"Pieces from the fault until the machine stops or is set anew, {RUNS} runs each; in brackets by closed "
            "form, for faults that come at once:",
            table([("machine", "fault", "5 %", "50 %", "95 %"), *(_row(*one) for one in faults)]),
            f"Without any fault, {SHIFTS} shifts of {SHIFT_HOURS} hours; closed form with two standard errors:",
            table([_HEADS, *(_false_stops(roller, cp) for cp in (1.0, 4 / 3, 5 / 3))]),
            "The rule is for samples. Asked of every piece, it would stop the line of Cp 1.33 some "
            f"{check(4.0).stop * RATE * 60 * SHIFT_HOURS:.0f} times a shift for nothing.",
        )
    )


def line_of(client: Client) -> tuple[Machine, list[tuple[Machine, str, Fault]]]:
    """Return the roller, and what may happen to it or to the header."""
    found = client.set_points(PRODUCT)
    height, diameter = (
        found.station("heading").set_points["head_height"],
        found.station("thread_rolling").set_points["thread_pitch_diameter"],
    )
    header, roller = (
        Machine(name, *limits, sigma=(limits[1] - limits[0]) / 8)
        for name, limits in (("header", thousandths(height)), ("roller", thousandths(diameter)))
    )
    other = client.set_points(OTHER_ORDER).station("thread_rolling").set_points["thread_pitch_diameter"]
    swapped = sum(thousandths(other)) / 2 - roller.target
    return (
        roller,
        [
            (header, "the wire grows thicker by 0.3 um in 1000 pieces", wire),
            (roller, "the dies wear by 1.2 um in 1000 pieces", lambda piece: WEAR_UM * piece),
            (roller, "blanks from another box, 0.050 mm thicker", lambda piece: WRONG_BLANK_UM),
            (roller, f"the order swapped for {OTHER_ORDER}", lambda piece: swapped),
            (header, "a shift of one standard deviation", lambda piece: header.sigma),
        ],
    )


def thousandths(point: object) -> tuple[int, int]:
    """Return both limits of a set-point."""
    return int(point.min * 1000), int(point.max * 1000)  # type: ignore[attr-defined]


def wire(piece: int) -> float:
    """Return how much higher the head is: what the wire has more in volume goes into a hexagon of 15.865 mm.

    Cut-off length 77.9 mm, wire 9.6 mm, both of the set-points of the product.
    """
    thicker = WIRE_UM_OF_DIAMETER * piece
    return math.pi / 2 * 9.6 * thicker * 77.9 / (math.sqrt(3) / 2 * 15.865**2)


def _row(machine: Machine, name: str, fault: Fault) -> tuple[str, ...]:
    ended = sorted(pieces_until(machine, fault, seed) for seed in range(RUNS))
    shift = fault(0) / machine.sigma
    form = check(machine.half_zone, shift) if shift else None
    told = []
    for share in SHARES:
        said = f"{ended[round(share * (RUNS - 1))]}"
        told.append(said if form is None else f"{said} ({form.checks_until(share) * INTERVAL})")
    return machine.name, name, *told


_HEADS = ("Cp", "checks", "stops a shift", "by closed form", "adjustments a shift", "by closed form")


def _false_stops(machine: Machine, cp: float) -> tuple[str, ...]:
    made = Machine(machine.name, machine.low, machine.high, (machine.high - machine.low) / (6 * cp))
    shifts = [ends_a_shift(made, seed) for seed in range(SHIFTS)]
    total, stops, adjusted = (sum(column) for column in zip(*shifts, strict=True))
    form, per_shift = check(made.half_zone), total / SHIFTS
    figures = ((stops / SHIFTS, form.stop * per_shift), (adjusted / SHIFTS, form.adjust * per_shift))
    told = [(f"{seen:.3f}", f"{due:.3f} ± {2 * math.sqrt(due / SHIFTS):.3f}") for seen, due in figures]
    return f"{cp:.2f}", str(total), *told[0], *told[1]


def _picture(roller: Machine, faults: Sequence[tuple[Machine, str, Fault]]) -> str:
    """Return a run: the dies wear, are set anew, and after 60 000 pieces blanks come from another box."""
    wear, blank, wrong_from = faults[1][2], faults[2][2], 60_000
    seen = []
    for piece, value, decision, _ in checks(
        roller, lambda piece: wear(piece) + (blank(piece) if piece >= wrong_from else 0), random.Random(4)
    ):
        seen.append(Seen(piece, float(value), decision))
        if decision == "stop":
            break
    title = f"{roller.name}, pitch diameter in mm: dies wear, blanks from another box at piece {wrong_from}"
    return picture(title, seen, roller.low / 1000, roller.high / 1000)
