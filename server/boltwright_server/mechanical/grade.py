"""A property class or grade: its name, the standard that answers for it, the member it belongs to."""

from __future__ import annotations

from dataclasses import dataclass

from ..threads import Member


@dataclass(frozen=True, slots=True)
class Grade:
    """One class or grade.

    `name` is the canonical text (`8.8`, `A2-70`, `SAE J429 5`), `code` how the tables of `folder` write it.
    """

    name: str
    code: str
    member: Member
    folder: str
    reduced_loadability: bool = False
    structural: bool = False
