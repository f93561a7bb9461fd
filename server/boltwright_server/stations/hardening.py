"""Hardening and tempering: the plant's own recipe against what the standard asks; no set-point of the furnace is given.

ISO 898-1:2013, Table 2 (least tempering temperature) and Table 3 (hardness), or the standard of the class.
"""

from __future__ import annotations

from fractions import Fraction

from ..quantities import Bounds, Refusal, member_path
from ..quantities.units import factor
from .bench import Bench
from .plant import Figure
from .rounding import shown
from .state_limits import Zone

_STATION = "hardening"
_DECIDES = (
    "Furnaces, quenching oil, acid and presses burn, poison and crush: the plant's licensed practice and local codes "
    "decide. No furnace set-point is given here, only the standard's least tempering temperature and hardness."
)


class RecipeNotAllowed(Refusal):
    """The recipe breaks the standard."""

    code = "recipe_not_allowed"


def hardening(bench: Bench) -> None:
    """Add hardness limits and the least tempering temperature, and check the recipe.

    Raises:
        RecipeNotAllowed: below the least temperature, or hardness outside its window.
    """
    bench.warn(_DECIDES)
    zone = bench.zone("hardness_core", _STATION)
    if zone is not None:
        bench.put_zone(_STATION, "hardness_core", zone, bench.aim("hardness_core", _STATION))
    least = _least(bench)
    if least is not None:
        bench.put_zone(_STATION, "tempering_temperature", least, None)
    _check_temperature(bench, least)
    _check_hardness(bench, zone)


def _least(bench: Bench) -> Zone | None:
    """Return the least tempering temperature in degrees Celsius."""
    found = bench.wanted.mechanical
    bounds = None if found is None else found.properties.get("tempering_temperature")
    if bounds is None or bounds.min is None:
        return None
    least = Fraction(bounds.min)
    if bounds.unit == "degF":
        basis = bounds.basis.computed("(degF - 32)/1.8")
        return Zone((least - 32) / Fraction("1.8"), None, "Cel", basis)
    return Zone(least, None, "Cel", bounds.basis)


def _check_temperature(bench: Bench, least: Zone | None) -> None:
    figure = None if bench.plant.recipe is None else bench.plant.recipe.tempering_temperature
    if figure is None:
        return
    member = member_path("recipe", "tempering_temperature")
    given = _celsius(figure, member)
    if least is None:
        bench.tell("the standard asks for no least tempering temperature here: that of the recipe is not judged")
    elif least.low is not None and given < least.low:
        text = (
            f"tempering at {shown(given)} Cel is below the least of {least.basis.standard}, {shown(least.low)} Cel: "
            "the hardness may fit, the toughness will not"
        )
        raise RecipeNotAllowed(text, member=member)


def _celsius(figure: Figure, member: str) -> Fraction:
    if figure.unit == "degF":
        return (Fraction(figure.value) - 32) / Fraction("1.8")
    return figure.in_unit("Cel", member)


def _check_hardness(bench: Bench, zone: Zone | None) -> None:
    recipe = bench.plant.recipe
    if recipe is None or (recipe.hardness_min is None and recipe.hardness_max is None):
        return
    if zone is None:
        bench.tell("no hardness is required here: that of the recipe is not judged")
        return
    window = _window(bench, zone, recipe.hardness_unit)
    for side, figure in (("min", recipe.hardness_min), ("max", recipe.hardness_max)):
        if figure is None:
            continue
        member = member_path("recipe", "hardness_core", side)
        value = figure.in_unit(recipe.hardness_unit, member)
        if (window.low is not None and value < window.low) or (window.high is not None and value > window.high):
            text = (
                f"hardness {shown(value)} {window.unit} of the recipe lies outside {shown(window.low)} to "
                f"{shown(window.high)} {window.unit} of this state ({window.basis.standard})"
            )
            raise RecipeNotAllowed(text, member=member)


def _window(bench: Bench, zone: Zone, unit: str) -> Zone:
    """Return the window on the scale of the recipe; hardness scales are never converted into one another.

    Raises:
        Refusal: the standard gives no limits on that scale.
    """
    scales: dict[str, Bounds] = bench.wanted.characteristics["hardness_core"].scales
    if unit == zone.unit or unit not in scales:
        factor(unit, zone.unit, member_path("recipe", "hardness_core", "unit"))
        return zone
    bounds = scales[unit]
    low, high = (None if limit is None else Fraction(limit) for limit in (bounds.min, bounds.max))
    return Zone(low, high, unit, bounds.basis)
