"""What a plant sends about its stations: figures with or without a unit, read into the engine's types."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from typing import Any

from marshmallow import Schema, ValidationError, fields, validate

from ...conformance import Request
from ...conformance.characteristics import judged_characteristics
from ...conformance.rules import SIMPLE
from ...designations.reader import LONGEST
from ...quantities.units import CODES
from ...specification import Specification, specification
from ...stations import ALL_STATES, AS_DELIVERED, STATES, Figure, Plant, Recipe, Roller, StateShift
from ...stations.changes import FEWEST, MOST, Change, change_of
from ...stations.plant import TOOLS, check_names
from ..conformance.body import read_requirements
from ..http.bodies import problem
from ..http.fields import StrictBoolean, StrictDecimal, StrictInteger, StrictString
from ..statistics.bodies import unit_of_values

_FIGURE = "Not a valid figure: send a number in the product's unit, or {value, unit}."
FIGURE_SCHEMA: dict[str, Any] = {
    "description": "In the product's unit, or with its own.",
    "oneOf": [
        {"type": "number"},
        {
            "type": "object",
            "required": ["value", "unit"],
            "additionalProperties": False,
            "properties": {"value": {"type": "number"}, "unit": {"type": "string", "enum": list(CODES)}},
        },
    ],
}


class FigureField(fields.Field[Figure]):
    """A number in the product's unit, or an object with value and unit."""

    default_error_messages = {"invalid": _FIGURE}  # noqa: RUF012

    def __init__(self, least: Decimal | None = None, above: Decimal | None = None, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self._least, self._above = least, above

    def _deserialize(self, value: Any, attr: str | None, data: Mapping[str, Any] | None, **kwargs: Any) -> Figure:
        unit = None
        if isinstance(value, dict):
            if set(value) != {"value", "unit"} or value["unit"] not in CODES:
                raise self.make_error("invalid")
            value, unit = value["value"], value["unit"]
        number: Decimal = StrictDecimal().deserialize(value)
        if self._above is not None and number <= self._above:
            raise ValidationError(f"is above {self._above}")
        if self._least is not None and number < self._least:
            raise ValidationError(f"is {self._least} or more")
        return Figure(number, unit)


def above_0(**kwargs: Any) -> FigureField:
    """Return the field of a figure that is above 0."""
    return FigureField(above=Decimal(0), **kwargs)


def fraction() -> StrictDecimal:
    """Return the field of a fraction such as 0.02."""
    return StrictDecimal(validate=validate.Range(Decimal(0), Decimal(1), error="is a fraction from 0 to 1"))


def share() -> StrictDecimal:
    """Return the field of a share of a population, or of a confidence."""
    within = validate.Range(Decimal("0.5"), Decimal("0.9999"), error="is from 0.5 to 0.9999")
    return StrictDecimal(load_default=Decimal("0.95"), validate=within)


def _positive() -> StrictDecimal:
    return StrictDecimal(validate=validate.Range(Decimal(0), min_inclusive=False, error="is above 0"))


class RollerBody(Schema):
    """The thread roller."""

    pitch_diameter_spread = FigureField(least=Decimal(0))
    factor = StrictDecimal(
        load_default=Decimal(3), validate=validate.Range(Decimal(0), Decimal(10), error="is 0 to 10")
    )
    root_radius = above_0()


class WindowBody(Schema):
    """A hardness window of the plant."""

    min = StrictDecimal(allow_none=True)
    max = StrictDecimal(allow_none=True)
    unit = StrictString(load_default="HV", validate=validate.OneOf(("HV", "HBW", "HRC", "HRB"), error="is a scale"))


class RecipeBody(Schema):
    """The plant's heat treatment."""

    tempering_temperature = FigureField()
    hardness_core = fields.Nested(WindowBody)


class ThicknessBody(Schema):
    """Least and greatest thickness of a coating."""

    min = FigureField(least=Decimal(0))
    max = above_0(required=True)


class StateShiftBody(Schema):
    """How a characteristic changes between two states: pairs of readings, or what they gave."""

    characteristic = StrictString(required=True)
    state = StrictString(required=True)
    final_state = StrictString(load_default=AS_DELIVERED)
    unit = unit_of_values()
    before = fields.List(StrictDecimal())
    after = fields.List(StrictDecimal())
    n = StrictInteger(validate=validate.Range(FEWEST, MOST, error=f"is {FEWEST} to {MOST}"))
    shift = StrictDecimal()
    standard_deviation = StrictDecimal(validate=validate.Range(Decimal(0), error="is 0 or more"))
    content = share()
    confidence = share()


class RegistersBody(Schema):
    """What an image carries beside the limits."""

    station = StrictInteger(required=True)
    stage = StrictString(required=True, validate=validate.OneOf(tuple(STATES), error=f"is one of {', '.join(STATES)}"))
    characteristics = fields.List(StrictString(), required=True)
    sequence = StrictInteger(required=True)
    issued_at = StrictInteger(required=True)
    valid_until = StrictInteger(load_default=0)
    order = StrictString(required=True)
    lot = StrictString(required=True)
    bank = StrictString(load_default="A", validate=validate.OneOf(("A", "B"), error="is A or B"))
    trial = StrictBoolean(load_default=False)
    run_on = StrictBoolean(load_default=True)


class SetPointsBody(Schema):
    """A designation and what only the plant knows."""

    designation = StrictString(
        required=True, validate=validate.Length(1, LONGEST, error=f"has 1 to {LONGEST} characters")
    )
    wire_diameter = above_0()
    extruded_diameter = above_0()
    head_trim = fraction()
    elongation = fraction()
    forging_loss = fraction()
    aims = fields.Dict(keys=fields.String(), values=FigureField())
    tools = fields.Dict(keys=fields.String(), values=FigureField())
    roller = fields.Nested(RollerBody)
    recipe = fields.Nested(RecipeBody)
    state_shifts = fields.List(fields.Nested(StateShiftBody), validate=validate.Length(max=200, error="has up to 200"))
    coating_thickness = fields.Nested(ThicknessBody)
    rate = _positive()
    check_interval = _positive()
    step = above_0()
    requirements = fields.Dict(keys=fields.String())
    dropped = fields.Dict(keys=fields.String())
    explain = StrictBoolean(load_default=False)
    stage = StrictString(validate=validate.OneOf(tuple(STATES), error=f"is one of {', '.join(STATES)}"))
    as_ = StrictString(data_key="as", validate=validate.OneOf(("registers",), error="is registers"))
    registers = fields.Nested(RegistersBody)


_WITHIN: Mapping[str, type[Schema]] = {
    "roller": RollerBody,
    "recipe": RecipeBody,
    "coating_thickness": ThicknessBody,
    "registers": RegistersBody,
}


def check_nested(raw: Mapping[str, Any]) -> None:
    """Refuse unknown members of the objects within, with the nearest that are known.

    Raises:
        NotUnderstood: `unknown_member`.
    """
    for name, schema in _WITHIN.items():
        if isinstance(raw.get(name), dict):
            check_names(raw[name], schema().fields, name)
    window = raw["recipe"].get("hardness_core") if isinstance(raw.get("recipe"), dict) else None
    if isinstance(window, dict):
        check_names(window, WindowBody().fields, "recipe", "hardness_core")
    if isinstance(raw.get("tools"), dict):
        check_names(raw["tools"], TOOLS, "tools")
    for one, other in (("as", "registers"), ("registers", "as")):
        if one in raw and other not in raw:
            raise problem("missing_member", f"{one} needs {other}", (other,))
    for name in ("stage", "explain"):
        if name in raw and "as" in raw:
            raise problem("contradiction", f"an image has no {name}; its station is registers.stage", (name,))


def wanted_of(members: Mapping[str, Any]) -> Specification:
    """Return the specification that a body asks for, with a purchaser's requirements put in.

    Raises:
        As `specification` and `judged_characteristics`.
    """
    wanted = specification(members["designation"])
    if "requirements" not in members and "dropped" not in members:
        return wanted
    requirements, dropped = read_requirements(members)
    asked = Request(members["designation"], (), SIMPLE, requirements=requirements, dropped=dropped)
    judged = judged_characteristics(wanted, asked)
    return replace(wanted, characteristics=judged.characteristics, notices=(*wanted.notices, *judged.notices))


def plant_of(members: Mapping[str, Any], length: str) -> Plant:
    """Return what the plant gave; `length` is the unit of lengths of the product.

    Raises:
        Problem, NotUnderstood: a shift that cannot be.
    """
    step: Figure | None = members.get("step")
    return Plant(
        wire_diameter=members.get("wire_diameter"),
        extruded_diameter=members.get("extruded_diameter"),
        head_trim=members.get("head_trim"),
        elongation=members.get("elongation"),
        forging_loss=members.get("forging_loss"),
        aims=members.get("aims", {}),
        tools=members.get("tools", {}),
        roller=Roller(**members.get("roller", {})),
        recipe=_recipe(members.get("recipe")),
        state_shifts=tuple(_shift(one, at) for at, one in enumerate(members.get("state_shifts", ()))),
        thickest_coating=members["coating_thickness"]["max"] if "coating_thickness" in members else None,
        rate=members.get("rate"),
        check_interval=members.get("check_interval"),
        steps={} if step is None else {step.unit or length: step.value},
    )


def _recipe(given: Mapping[str, Any] | None) -> Recipe | None:
    if given is None:
        return None
    window = given.get("hardness_core", {})
    least, most = window.get("min"), window.get("max")
    return Recipe(
        given.get("tempering_temperature"),
        None if least is None else Figure(least),
        None if most is None else Figure(most),
        window.get("unit", "HV"),
    )


def _shift(given: Mapping[str, Any], at: int) -> StateShift:
    path = ("state_shifts", str(at))
    for member in ("state", "final_state"):
        if given[member] not in ALL_STATES:
            known = ", ".join(ALL_STATES)
            raise problem("invalid", f"{given[member][:40]!r} is no state; known: {known}", (*path, member))
    return StateShift(
        given["characteristic"], given["state"], given["final_state"], given.get("unit"), _change(given, path)
    )


def _change(given: Mapping[str, Any], path: tuple[str, ...]) -> Change:
    content, confidence = float(given["content"]), float(given["confidence"])
    told = ("n", "shift", "standard_deviation")
    if "before" in given or "after" in given:
        for name in told:
            if name in given:
                text = "give pairs (before, after), or what they gave (n, shift, standard_deviation)"
                raise problem("contradiction", text, (*path, name))
        _present(given, ("before", "after"), path)
        return change_of(exact(given["before"]), exact(given["after"]), content, confidence)
    _present(given, told, path)
    shift, spread = Fraction(given["shift"]), Fraction(given["standard_deviation"])
    return Change(given["n"], shift, spread, content, confidence)


def _present(given: Mapping[str, Any], names: Iterable[str], path: tuple[str, ...]) -> None:
    for name in names:
        if name not in given:
            raise problem("missing_member", f"{'/'.join(path)}/{name} is missing", (*path, name))


def exact(values: Iterable[Decimal]) -> list[Fraction]:
    """Return readings as exact fractions."""
    return [Fraction(value) for value in values]
