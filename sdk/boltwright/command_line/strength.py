"""`boltwright strength` and `nuts`: what a class must bear, and which nuts hold a bolt."""

from __future__ import annotations

import argparse
from typing import Any

from ..look_ups.mechanical_minimums import MechanicalMinimums, mechanical_minimums
from ..look_ups.pairing import Nut, Pairing, pairing
from ..tables import Cell, aligned, limits_of, listed, sections, words
from ..transport import Connection
from ..values import cited
from .look_ups import Outcome, bounds_table

_FORMS = ("hex", "heavy_hex")


def add_to(commands: Any, shared: argparse.ArgumentParser) -> None:
    """Add the commands."""
    wanted = commands.add_parser("strength", parents=[shared])
    wanted.add_argument("thread", help="as M10, M10x1.25 or 1/2-13")
    wanted.add_argument("grade", help="a property class or grade, as 8.8, A2-70 or 'SAE J429 5'")
    wanted.add_argument("--member", choices=("external", "internal"), help="bolt or nut, where the class does not say")
    wanted.add_argument("--style", type=int, choices=(0, 1, 2), help="of a nut: 0 thin, 1 regular, 2 high")
    wanted.add_argument("--form", choices=_FORMS, help="of a nut of ASTM A194 or A563")
    wanted.add_argument("--structural", action="store_true", help="a bolt for structural bolting")
    wanted.add_argument("--unit", help="show what has this dimension in this unit, as kN or lbf")
    wanted.set_defaults(run=_strength)
    nuts = commands.add_parser("nuts", parents=[shared])
    nuts.add_argument("bolt", help="as 'ISO 4014 - M10x60 - 8.8' or 'M10 - 8.8'")
    nuts.set_defaults(run=_nuts)


def _strength(connection: Connection, options: argparse.Namespace) -> Outcome:
    found = mechanical_minimums(
        connection,
        options.thread,
        grade=options.grade,
        member=options.member,
        style=options.style,
        form=options.form,
        structural=options.structural or None,
        unit=options.unit,
    )
    return found, strength_text(found), 0


def _nuts(connection: Connection, options: argparse.Namespace) -> Outcome:
    found = pairing(connection, options.bolt)
    return found, nuts_text(found), 0


def strength_text(found: MechanicalMinimums) -> str:
    """Return properties, loads and the names of the tests."""
    source = cited(found.standard, found.edition)
    head = f"{found.thread}   class {found.property_class}, {source}, {found.member} thread"
    return sections(
        head,
        ("Loads", bounds_table({"stress_area": found.stress_area, **found.loads})),
        ("Properties", bounds_table(found.properties)),
        ("Tests", listed(f"{test.name} ({test.condition}): {_applies(test.applies)}" for test in found.tests)),
        ("Marks on the part", listed(f"{one.symbol}: {one.requirement}; {one.place}" for one in found.marking)),
        ("To note", listed(found.notices)),
    )


def _applies(applies: bool | None) -> str:
    return {True: "applies", False: "does not apply", None: "depends on the length"}[applies]


def nuts_text(found: Pairing) -> str:
    """Return the nuts that hold, those that do not, and the warnings."""
    load = "" if found.tensile_load is None else f", bears {found.tensile_load}"
    return sections(
        f"{found.bolt}{load}",
        ("These nuts hold it", _nut_table(found.holding)),
        ("These do not", _nut_table([nut for nut in found.nuts if not nut.holds])),
        ("Warnings", listed(dict.fromkeys(f"{nut.nut}: {text}" for nut in found.holding for text in nut.warnings))),
        ("Galvanized threads", listed(f"{one.external} with {one.internal}: {one.reason}" for one in found.threads)),
        ("To note", listed(found.notices)),
    )


def _nut_table(nuts: Any) -> str:
    rows: list[tuple[Cell, ...]] = [_nut_row(nut) for nut in nuts]
    return aligned([("", "", "proof load", "", "", "source"), *rows]) if rows else ""


def _nut_row(nut: Nut) -> tuple[Cell, ...]:
    kind = "" if nut.style is None else f"style {nut.style}"
    low, _, unit = (None, None, None) if nut.proof_load is None else limits_of(nut.proof_load)
    return nut.nut, kind or words(nut.form or ""), low, unit, nut.reason, str(nut.basis)
