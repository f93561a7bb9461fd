"""Judgement: readings in four forms, the verdict, its replay and the requirements that replace a standard's."""

from . import conformance, conformance_replay, specification_requirements

#: One line a resource.
BLUEPRINTS = (
    conformance.blueprint,
    conformance_replay.blueprint,
    specification_requirements.blueprint,
)
