"""The findings of a catalogue as one HTML file: counts, filters, every finding; nothing is loaded from elsewhere.

Rows are written as they are read, so that memory stays bounded; the page draws a hundred findings at a time.
"""

from __future__ import annotations

import json
import os
import re
from collections.abc import Iterable, Iterator
from datetime import datetime
from html import escape
from importlib.resources import files
from pathlib import Path
from typing import Any

from ...values import cited
from .answers import SEVERITIES, Row, read_rows
from .run import Totals

STATUSES = ("valid", "questionable", "invalid", "unreadable")
_CAUTIONS = {"memory": " (from memory)", "conflict": " (sources disagree)"}
#: Longer texts are cut in the report; the file of findings holds them whole.
_LONGEST = 300


def write_report(findings: Path, totals: Totals, report: Path, catalogue: str, when: datetime) -> None:
    """Write the report of a file of findings; an existing file is replaced when the new one is whole.

    Args:
        findings: what `validate_file` wrote.
        totals: what it returned.
        catalogue: the name of the catalogue, for the title.
        when: the time of the run.
    """
    draft = report.with_name(f"{report.name}.part")
    try:
        with draft.open("w", encoding="utf-8", errors="backslashreplace", newline="\n") as out:
            out.writelines(_page(findings, totals, catalogue, when))
        os.replace(draft, report)
    finally:
        draft.unlink(missing_ok=True)


def _page(findings: Path, totals: Totals, catalogue: str, when: datetime) -> Iterator[str]:
    """Yield the page in pieces. The template is cut at its marks first, so that no value can hold one."""
    names = _Names()
    about = f"{totals.rows} rows, checked {when:%Y-%m-%d %H:%M %Z}. File of findings: {findings.name}."
    filled: dict[str, Iterable[str]] = {
        "{title}": [escape(f"Part masters: findings of {catalogue}")],
        "{about}": [escape(about)],
        "{out}": [escape(findings.name)],
        "{statuses}": _status_lines(totals),
        "{codes}": _code_lines(totals),
        "{rows}": _row_lines(read_rows(findings), names),
        "{names}": (_json(one.listed()) for one in (names,)),  # when it is written, the rows have filled it
        "{script}": [_resource("report_page.js")],
    }
    marks = "|".join(map(re.escape, filled))
    for piece in re.split(f"({marks})", _resource("report_page.html")):
        yield from filled.get(piece, [piece])


def _resource(name: str) -> str:
    return files(__package__).joinpath(name).read_text(encoding="utf-8")


class _Names:
    """Words that repeat themselves stand once; rows hold their numbers."""

    def __init__(self) -> None:
        self.codes: dict[str, int] = {}
        self.members: dict[str, int] = {}
        self.bases: dict[str, int] = {"": 0}

    def listed(self) -> dict[str, list[str]]:
        """Return the words in the order of their numbers."""
        return {
            "statuses": list(STATUSES),
            "codes": list(self.codes),
            "members": list(self.members),
            "bases": list(self.bases),
        }


def _status_lines(totals: Totals) -> Iterator[str]:
    for status in STATUSES:
        count = totals.statuses[status]
        share = f"{100 * count / totals.rows:.1f} %" if totals.rows else ""
        yield f'<tr><td>{status}</td><td class="number">{count}</td><td class="number">{share}</td></tr>\n'


def _code_lines(totals: Totals) -> Iterator[str]:
    """The gravest first, then the most frequent."""
    for code, count in sorted(totals.codes.items(), key=lambda one: (totals.gravity[one[0]], -one[1], one[0])):
        severity = SEVERITIES[totals.gravity[code]]
        button = f'<button type="button" class="plain">{escape(code)}</button>'
        yield f'<tr><td>{button}</td><td class="{severity}">{severity}</td><td class="number">{count}</td></tr>\n'
    if not totals.codes:
        yield '<tr><td colspan="3">none</td></tr>\n'


def _row_lines(rows: Iterable[Row], names: _Names) -> Iterator[str]:
    """Yield the rows that have findings."""
    between = ""
    for row in rows:
        if row["findings"]:
            yield between + _json(
                [
                    row["row"],
                    _text(row["part_number"]),
                    _text(row["designation"] or " or ".join(row["alternatives"])),
                    STATUSES.index(row["status"]),
                    [_finding(one, names) for one in row["findings"]],
                ]
            )
            between = ",\n"


def _finding(one: dict[str, Any], names: _Names) -> list[Any]:
    return [
        names.codes.setdefault(one["code"], len(names.codes)),
        SEVERITIES.index(one["severity"]),
        names.members.setdefault(one["member"], len(names.members)),
        _text(one["given"]),
        _text(one["expected"]),
        _text(one["detail"]),
        _basis(one["basis"], names),
    ]


def _basis(basis: dict[str, str] | None, names: _Names) -> int:
    if basis is None:
        return 0
    place = f"{cited(basis['standard'], basis['edition'])}, {basis['clause']}{_CAUTIONS.get(basis['checked'], '')}"
    return names.bases.setdefault(place, len(names.bases))


def _text(given: str | None) -> str:
    text = given or ""
    return text if len(text) <= _LONGEST else f"{text[:_LONGEST]} ..."


def _json(node: Any) -> str:
    """Return JSON that may stand in a script element: no `<` can end it."""
    return json.dumps(node, ensure_ascii=False, separators=(",", ":")).replace("<", "\\u003c")
