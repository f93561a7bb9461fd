"""Writes the pages that follow from the code: standards, doubtful values, problem types, rules of judgement.

`python docs/generate.py` writes docs/reference/; the build of the documentation calls it, so nobody needs to.
"""

from __future__ import annotations

import ast
import shutil
from collections.abc import Iterable, Iterator
from decimal import Decimal
from pathlib import Path

from generate_lexicon import lexicon_page

from boltwright_server.standards import Row, Standard, Table, all_standards, current
from boltwright_server.standards.editions import in_force, later_than_held
from boltwright_server.web.http.problems import PROBLEM_TYPES

OUT = Path(__file__).parent / "reference"
RULES_OF_JUDGEMENT = Path(__file__).parents[1] / "tests" / "judgement"
#: The chapters of the rules of judgement, in the order in which they are read.
CHAPTERS = (
    "test_a_reading_and_its_limits",
    "test_guard_bands",
    "test_rounding",
    "test_hardness",
    "test_where_a_bolt_breaks",
    "test_coated_lots",
    "test_what_was_not_looked_at",
    "test_loads_and_sections",
    "test_the_verdict_on_a_lot",
    "test_sampling_plans",
    "test_second_samples_and_retests",
    "test_what_is_recorded",
    "test_any_lot",
)
DOUBTFUL = ("memory", "conflict")
MARKS = {
    "original": "read in the standard itself (a plant's own standards)",
    "two reproductions": "read in two independent reproductions of the printed table",
    "one reproduction and formula": "read in one reproduction and confirmed by the standard's own formula",
    "formula": "computed by the standard's formula; no printed value was seen",
    "one reproduction": "read in one reproduction only",
    "memory": "from memory, not seen in print: check it before you rely on it",
    "conflict": "the sources disagree; the note says how",
}


def main() -> None:
    """Write every generated page anew."""
    shutil.rmtree(OUT, ignore_errors=True)
    (OUT / "standards").mkdir(parents=True)
    held = all_standards()
    for standard in held:
        _write(f"standards/{standard.folder}.md", _standard_page(standard))
    _write("standards/index.md", _standards_index(held))
    _write("provenance.md", _provenance(held))
    _write("problems.md", _problems())
    _write("lexicon.md", lexicon_page())
    _write("judgement.md", _judgement())


def _write(name: str, lines: Iterator[str]) -> None:
    (OUT / name).write_text("\n".join(lines) + "\n", encoding="utf-8")


def _standards_index(held: tuple[Standard, ...]) -> Iterator[str]:
    yield "# Standards held"
    yield ""
    yield "One page a standard and edition, written from its folder of facts. The marks say how a number was checked:"
    yield ""
    yield from _table(("mark", "meaning"), MARKS.items())
    yield ""
    rows = [
        (
            f"[{one.cited}]({one.folder}.md)",
            one.title,
            "yes" if current(one.id) is one else "no",
            _later(one),
            _worst(one),
        )
        for one in held
    ]
    yield from _table(("standard", "title", "current", "later edition in force", "weakest mark"), rows)
    yield ""
    yield "```{toctree}"
    yield ":hidden:"
    yield ""
    yield from (one.folder for one in held)
    yield "```"


def _later(standard: Standard) -> str:
    known = later_than_held(standard)
    return "-" if known is None else f"{known.edition or 'withdrawn'} ({known.checked})"


def _worst(standard: Standard) -> str:
    found = {mark for table in standard.tables.values() for mark in table.cells_by_check()}
    return next((mark for mark in reversed(list(MARKS)) if mark in found), "-")


def _standard_page(standard: Standard) -> Iterator[str]:
    yield f"# {standard.cited}"
    yield ""
    yield _text(standard.title)
    yield ""
    yield f"Family `{standard.family}`; folder `server/boltwright_server/standards/{standard.folder}/`."
    for note in (*standard.notes, *_edition_notes(standard)):
        yield ""
        yield _text(note)
    for table in standard.tables.values():
        yield ""
        yield from _table_section(table)


def _edition_notes(standard: Standard) -> Iterator[str]:
    """What is known of the edition in force, and that the figures here are not from a later one."""
    known = in_force(standard.id)
    if known is None:
        return
    later = "" if later_than_held(standard) is None else f" The figures here are those of {standard.cited}, not of it."
    yield f"{known.told}.{later}{'' if known.remark is None else f' Known of it: {known.remark}.'}"


def _table_section(table: Table) -> Iterator[str]:
    yield f"## {_text(table.printed_as)} (`{table.file}`)"
    yield ""
    yield f"{_text(table.content)}. Unit {table.unit}; {len(table.rows)} rows, found by {', '.join(table.key)}."
    checked = ", ".join(f"{mark} {count}" for mark, count in sorted(table.cells_by_check().items()))
    yield ""
    yield f"Checked: {checked or f'{table.checked} (words only)'}."
    if table.note:
        yield ""
        yield _text(table.note)
    yield ""
    yield "`-` means that the standard gives no value."
    yield ""
    yield from _table(table.columns, (_cells(row) for row in table.rows.values()))


def _cells(row: Row) -> list[str]:
    return [_marked(row, name) for name in row.table.columns]


def _marked(row: Row, column: str) -> str:
    cell = row.cells[column]
    text = "-" if cell is None else _text(str(cell))
    doubtful = isinstance(cell, Decimal) and column not in row.table.key and row.checked(column) in DOUBTFUL
    return f"{text} *({row.checked(column)})*" if doubtful else text


def _provenance(held: tuple[Standard, ...]) -> Iterator[str]:
    yield "# Values to check before you rely on them"
    yield ""
    yield "Every number that was not seen in print (`memory`) or on which the sources disagree (`conflict`)."
    yield "The service says so in the basis of each answer that uses one."
    for standard in held:
        found = [(table, row, name) for table in standard.tables.values() for row, name in _doubtful(table)]
        if not found:
            continue
        yield ""
        yield f"## {standard.cited}"
        yield ""
        rows = (
            (
                table.printed_as,
                ", ".join(str(part) for part in row.key),
                name,
                f"{row.cells[name]} {table.unit_of(name)}",
                row.checked(name),
            )
            for table, row, name in found
        )
        yield from _table(("table", "row", "column", "value", "mark"), rows)


def _doubtful(table: Table) -> Iterator[tuple[Row, str]]:
    for row in table.rows.values():
        for name, cell in row.cells.items():
            if name not in table.key and isinstance(cell, Decimal) and row.checked(name) in DOUBTFUL:
                yield row, name


def _problems() -> Iterator[str]:
    yield "# Problem types"
    yield ""
    yield "Every error is a problem document (RFC 9457, `application/problem+json`): `type`, `title`, `status`,"
    yield "`code`, `detail`, `instance` and `errors`, a list of `pointer` (RFC 6901, into the request), `code` and"
    yield "`detail`, of a text also `position` (index of a character) and `expected`. An unknown name comes with the"
    yield "`nearest` known ones. A client's mistake is never a 5xx. `type` is"
    yield "the address of the page that the service itself shows for the code."
    yield ""
    rows = ((f"`{code}`", str(kind.status), kind.title, kind.remedy) for code, kind in PROBLEM_TYPES.items())
    yield from _table(("code", "status", "title", "what to do"), rows)


def _judgement() -> Iterator[str]:
    """Each rule is a test: its name is the rule, its docstring the example that the test runs."""
    yield "# Rules of judgement"
    yield ""
    yield "Each rule below is the name of a test in `tests/judgement`, with what the test does as its example: a rule"
    yield "that no longer holds turns the tests red, and this page is written from them whenever the documentation is"
    yield "built."
    for chapter in CHAPTERS:
        module = ast.parse((RULES_OF_JUDGEMENT / f"{chapter}.py").read_text(encoding="utf-8"))
        title, _, text = (ast.get_docstring(module) or "").partition("\n")
        yield from ("", f"## {title}", "", text.strip(), "")
        for node in module.body:
            if isinstance(node, ast.FunctionDef) and node.name.startswith("test_"):
                rule = node.name.removeprefix("test_").replace("_", " ").capitalize()
                yield f"- **{rule}.** {' '.join((ast.get_docstring(node) or '').split())}"


def _table(header: Iterable[str], rows: Iterable[Iterable[str]]) -> Iterator[str]:
    names = [_text(name) for name in header]
    yield f"| {' | '.join(names)} |"
    yield f"|{' --- |' * len(names)}"
    for row in rows:
        yield f"| {' | '.join(str(cell) for cell in row)} |"


def _text(words: str) -> str:
    """Keep words as they are: Markdown's own signs in them mean nothing."""
    return "".join(f"\\{sign}" if sign in "_*<>[]|`" else sign for sign in words)


if __name__ == "__main__":
    main()
