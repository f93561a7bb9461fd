"""The members that say what a coating means for a thread; shared by two resources."""

from __future__ import annotations

from typing import Any

from ...coating import Coating, CoatingLimits, State
from ..http.presentation import all_bounds, basis, bounds


def coating_limits_shown(found: CoatingLimits) -> dict[str, Any]:
    """Return the members of what a coating means for a thread."""
    risk = found.embrittlement
    return {
        "coating": None if found.coating is None else coating_shown(found.coating),
        "fundamental_deviation": bounds(found.room.deviation),
        "largest_thickness": all_bounds(found.room.exact),
        "largest_nominal_thickness": all_bounds(found.room.nominal),
        "length_group": found.length_group,
        "fit": None
        if found.fit is None
        else {"fits": found.fit.fits, "by_group": found.fit.by_group, "detail": found.fit.detail},
        "states": [_state(one) for one in found.states],
        "pairings": [
            {
                "external": one.external,
                "internal": one.internal,
                "may_mate": one.may_mate,
                "reason": one.reason,
                "basis": basis(one.basis),
            }
            for one in found.pairings
        ],
        "reduced_loads": {name: all_bounds(loads) for name, loads in found.reduced_loads.items()},
        "hydrogen_embrittlement": None
        if risk is None
        else {
            "specified_maximum_hardness": risk.specified_maximum_hardness,
            "unit": risk.unit,
            "group": risk.group,
            "measure": risk.measure,
            "basis": basis(risk.basis),
        },
        "cautions": list(found.cautions),
        "notices": list(found.notices),
    }


def coating_shown(coating: Coating) -> dict[str, Any]:
    """Return the members of a coating."""
    return {
        "designation": coating.designation,
        "process": coating.process,
        "metal": coating.metal,
        "standard": coating.standard,
        "edition": coating.edition,
        "thickness": all_bounds(coating.thickness),
        "basis": basis(coating.basis),
    }


def _state(state: State) -> dict[str, Any]:
    return {
        "state": state.state,
        "limits": all_bounds(state.limits),
        "go_gauge": state.go,
        "not_go_gauge": state.not_go,
        "remark": state.remark,
    }
