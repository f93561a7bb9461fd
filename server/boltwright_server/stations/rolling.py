"""The blank before thread rolling, by constancy of volume, with the window that both diameters leave.

ISO 68-1:1998, design profile: crest flat on d, 60 degree flanks through d2, a root arc R tangent to both (H/6 unless
stated). A helical thread has the volume of plain grooves of the same axial section. No springback, no wear of the dies:
confirm by a rolling trial.
"""

from __future__ import annotations

from fractions import Fraction

from ..quantities import Basis, Contradiction
from ..standards import other_source, rules
from ..threads import UnifiedSize
from ..threads.iso_metric import size_basis
from .bench import Bench
from .plant import Known
from .rounding import shown
from .state_limits import NothingRemains, Zone

STATION, BLANK = "thread_rolling", "rolling_blank_diameter"
_CLAUSE = "equal volume per pitch, root radius {}"
_TRIAL = "The rolling blank follows from geometry alone: confirm it by a rolling trial."
#: Of the roller: the standard deviation of d2 at constant blank.
_SPREAD = "roller.pitch_diameter_spread"


def roll(bench: Bench) -> bool:
    """Add the station with the diameters of the thread and the blank; say whether the blank is known.

    Raises:
        NothingRemains: the roller's spread, a shift or a coating leave no window.
    """
    for id in ("thread_pitch_diameter", "thread_major_diameter", "thread_minor_diameter"):
        zone = bench.zone(id, STATION)
        if zone is not None:
            bench.put_zone(STATION, id, zone, bench.aim(id, STATION))
    d, d2 = bench.zone("thread_major_diameter", STATION), bench.zone("thread_pitch_diameter", STATION)
    if d is None or d2 is None or d.sides < 2 or d2.sides < 2:
        return False
    aims = {"d": bench.aim("thread_major_diameter", STATION), "t": bench.aim("thread_pitch_diameter", STATION)}
    if not bench.gather(STATION, BLANK, aims):
        return False
    _window(bench, d, d2)
    return True


def _window(bench: Bench, d: Zone, d2: Zone) -> None:
    basis = _give(bench, d, d2)
    target = _blank(bench, "", "d", "t", basis)
    bench.step("t_high", "t + k*s", "length", basis)
    bench.step("t_low", "t - k*s", "length", basis)
    low = _blank(bench, "_low", "d_min", "t_high", basis)
    high = _blank(bench, "_high", "d_max", "t_low", basis)
    t_low, t_high = bench.work.number("t_low"), bench.work.number("t_high")
    if t_low < _number(d2.low) or t_high > _number(d2.high) or low > high:
        text = (
            f"no rolling blank: the roller's spread puts the pitch diameter at {shown(t_low)} to {shown(t_high)}, "
            f"limits {shown(d2.low)} to {shown(d2.high)} {bench.length}; the blank, {shown(low)} to {shown(high)}"
        )
        raise NothingRemains(text, low, high, "roller/pitch_diameter_spread")
    zone = Zone(low, high, bench.length, basis, final=False)
    bench.put_zone(STATION, BLANK, zone, Known(BLANK, target, bench.length, basis), "roller")
    bench.tell(_TRIAL)


def _number(limit: Fraction | None) -> Fraction:
    assert limit is not None
    return limit


def _give(bench: Bench, d: Zone, d2: Zone) -> Basis:
    """Make the sizes of the profile known and return the basis of the blank."""
    roller, size = bench.plant.roller, bench.wanted.size
    if isinstance(size, UnifiedSize):  # the pitch of 13 threads per inch has no end as a decimal
        pitch, owner = 1 / Fraction(size.threads_per_inch), rules("ASME B1.1").clause("P = 1/n", "tabulated")
    else:
        pitch, owner = Fraction(size.pitch), size_basis(size)
    bench.work.given("P", pitch, bench.length, owner)
    spread = bench.figure(_SPREAD, roller.pitch_diameter_spread)
    if spread.value is None:
        bench.need(STATION, BLANK, _SPREAD)
        bench.tell(f"the roller's own spread is not given and counts as 0: the window is the widest ({_SPREAD})")
    bench.work.given("s", spread.value or Fraction(0), bench.length, spread.basis)
    bench.work.given("k", roller.factor, "1", spread.basis)
    q = bench.known_as_nothing(STATION, BLANK, "elongation", bench.plant.elongation, "elongation in rolling")
    bench.work.given("q", q.value or Fraction(0), "1", q.basis)
    for symbol, value, zone in (("d_min", d.low, d), ("d_max", d.high, d)):
        bench.work.given(symbol, _number(value), bench.length, zone.basis)
    radius = bench.figure("roller.root_radius", roller.root_radius)
    named = "H/6" if radius.value is None else f"{shown(radius.value)} {bench.length}"
    basis = other_source("ISO 68-1", "basic profile").computed(_CLAUSE.format(named), d.basis.checked, d2.basis.checked)
    bench.step("H", "sqrt(3)/2*P", "length", basis)
    if radius.value is None:
        bench.step("R", "H/6", "length", basis)
    else:
        bench.work.given("R", radius.value, bench.length, radius.basis)
        _check_radius(bench, radius.value, d, d2)
    return basis


def _check_radius(bench: Bench, radius: Fraction, d: Zone, d2: Zone) -> None:
    """The arc touches the flanks 1.5 R above the sharp root; there the flanks must not have ended."""
    room = _number(d.low) / 2 - _number(d2.high) / 2 + bench.work.number("H") / 2
    if radius <= 0 or radius * 3 / 2 >= room:
        highest = shown(room * 2 / 3)
        text = f"a root radius of {shown(radius)} does not lie in this profile: above 0, below {highest} {bench.length}"
        raise Contradiction(text, member="roller/root_radius", code="out_of_range")


def _blank(bench: Bench, at: str, d: str, d2: str, basis: Basis) -> Fraction:
    """Return the blank of a thread of diameters d and d2, its length before rolling taken into account."""
    r0, w, A, a = f"r0{at}", f"w{at}", f"A{at}", f"a{at}"
    bench.step(r0, f"{d2}/2 - H/2", "length", basis)
    bench.step(w, f"P - ({d} - {d2} + H)*sqrt(3)/3", "length", basis)
    bench.step(A, f"{r0} + 2*R", "length", basis)
    bench.step(a, "sqrt(3)/2*R", "length", basis)
    square = (
        f"4/P*({w}*({d}/2)**2 + 2*sqrt(3)/9*(({d}/2)**3 - ({r0} + 1.5*R)**3)"
        f" + 2*({A}**2*{a} - {A}*({a}*R/2 + pi*R**2/3) + R**2*{a} - {a}**3/3))"
    )
    return bench.step(f"blank{at}", f"sqrt(({square})*(1 + q))", "length", basis)
