"""Catalogues of part masters: rows in as JSON, NDJSON or CSV, rows out, validated or held against a change."""

from . import part_masters_impact, part_masters_validation

#: One line a resource.
BLUEPRINTS = (
    part_masters_impact.blueprint,
    part_masters_validation.blueprint,
)
