"""Stations: from the specification to the figures of each machine of the line, by the state of the part."""

from .figures import ALL_STATES, AS_DELIVERED, STATES, Exact, Need, SetPoint, SetPoints, Station
from .plant import Figure, Plant, Recipe, Roller, StateShift
from .set_points import set_points

__all__ = [
    "ALL_STATES",
    "AS_DELIVERED",
    "STATES",
    "Exact",
    "Figure",
    "Need",
    "Plant",
    "Recipe",
    "Roller",
    "SetPoint",
    "SetPoints",
    "StateShift",
    "Station",
    "set_points",
]
