"""Stations: set-points, limits by state, piece decisions."""

from . import piece_decision, set_points, state_limits

#: One line a resource.
BLUEPRINTS = (
    piece_decision.blueprint,
    set_points.blueprint,
    state_limits.blueprint,
)
