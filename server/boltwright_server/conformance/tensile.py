"""The rule of the break: a tensile reading counts only with its fracture location.

ISO 898-1:2013, clause 9.1: the break lies in the free thread or the shank; one at the junction of head and shank
fails whatever the load was.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import numpy as np

from ..specification import Characteristic
from .findings import Mask
from .measured import Outcome
from .readings import Column
from .wording import counted, named

LOCATIONS = ("thread", "shank", "head_junction", "head")
#: Characteristics of a tensile test: their readings need the place of the break.
PULLED = ("tensile_load", "tensile_strength")


def is_located(characteristics: Mapping[str, Characteristic]) -> bool:
    """Say whether a tensile reading needs the place of its break: unless the purchaser does not ask for it."""
    fracture = characteristics.get("fracture_location")
    return fracture is not None and fracture.mandatory


def without_fracture_undecided(outcomes: dict[str, Outcome], columns: dict[str, Column]) -> dict[str, Outcome]:
    """Turn tensile readings that conform into undecided ones where no fracture location was given for the piece."""
    changed = dict(outcomes)
    fracture = columns.get("fracture_location")
    for id in PULLED:
        if id in outcomes:
            located = _located(columns[id], fracture)
            outcome = outcomes[id]
            loose = outcome.measured & ~located & ~outcome.nonconforming
            if loose.any():
                doubt = "because a reading counts only with the place of its break"
                notice = f"{named(id)}: {counted(int(loose.sum()), 'reading')} without fracture location"
                notices = (*outcome.notices, notice)
                changed[id] = replace(outcome, undecided=outcome.undecided | loose, doubt=doubt, notices=notices)
    return changed


def _located(pulled: Column, fracture: Column | None) -> Mask:
    located = np.zeros(len(pulled.values), dtype=bool)
    if fracture is None:
        return located
    known = {
        piece
        for piece, value in zip(fracture.pieces or range(len(fracture.values)), fracture.values, strict=True)
        if value is not None
    }
    for at, piece in enumerate(pulled.pieces or range(len(pulled.values))):
        located[at] = piece in known
    return located
