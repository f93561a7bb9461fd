"""GET /v1/standards: which standards are held, in which edition, and how each table was checked."""

from __future__ import annotations

from typing import Annotated, Any

from flask import Response
from marshmallow import Schema
from msgspec import Struct

from ...standards import REGISTRY, Standard, all_standards, current
from ...standards.editions import in_force
from ..http.answers import Answer, answers, described, sent, shown
from ..http.api import blueprint as new_blueprint
from ..http.caching import look_up
from ..http.queries import query

blueprint = new_blueprint("standards", "Which standards are held and how their tables were checked")


class TableAnswer(Struct, kw_only=True):
    """A printed table."""

    file: str
    printed_as: str
    content: str
    unit: str
    checked: Annotated[str, described("The default of the table; single cells may differ.")]
    rows: int
    cells_by_check: dict[str, int]
    note: str


class InForceAnswer(Struct):
    """The edition in force as far as known; no figure is served from it unless it is the one held."""

    edition: Annotated[str | None, described("null for a standard that is withdrawn.", "2025")]
    checked: Annotated[str, described("What names the edition: two catalogues or title pages, one, or none (memory).")]
    remark: Annotated[str | None, described("What is known to differ from the edition held.")]


class ListedStandard(Struct, kw_only=True):
    """A standard in one edition."""

    id: Annotated[str, described("As it is cited.", "ISO 4032")]
    title: str
    edition: str
    family: str
    current: Annotated[bool, described("Whether this edition answers when none is named.")]
    in_force: Annotated[InForceAnswer | None, described("null where nothing is known.")]
    own: Annotated[bool, described("A plant's own standard, not one of the built-in ones.")]
    note: str
    tables: list[TableAnswer]


class Standards(Answer, kw_only=True):
    """All standards held."""

    standards: list[ListedStandard]


@blueprint.route("/standards")
@look_up
@query(blueprint, Schema)
@answers(blueprint, Standards)
def get_standards(_: dict[str, Any]) -> Response:
    """List the standards held, with their tables and how each was checked."""
    return sent(Standards(standards=[_shown(one) for one in all_standards()]))


def _shown(standard: Standard) -> ListedStandard:
    return shown(
        ListedStandard,
        standard,
        current=current(standard.id) is standard,
        in_force=in_force(standard.id),
        own=standard.folder not in REGISTRY,
        note=" ".join(standard.notes),
        tables=[
            shown(
                TableAnswer,
                table,
                rows=len(table.rows),
                cells_by_check=table.cells_by_check(),
                note=table.note or "",
            )
            for table in standard.tables.values()
        ],
    )
