"""Catalogue files by both commands: encodings, columns that are told, titles below other lines, where the answer goes.

Marks: RFC 3629, 6, and RFC 2781, 3.2. Width across flats at M10: 16 mm (ISO 4014:2011, Table 1).
"""

from __future__ import annotations

import codecs
import csv
import json
from pathlib import Path
from typing import Any

import pytest

from boltwright import Client
from boltwright.command_line import main
from boltwright.errors import ConnectionFailed, Error, MemberError, TransportError
from boltwright.part_masters.validation import parts
from boltwright.part_masters.validation.encodings import codec_of

CHANGE = ["--from", "DIN 933", "--to", "ISO 4017"]
MARKS = {"utf-8": codecs.BOM_UTF8, "utf-16-le": codecs.BOM_UTF16_LE, "utf-16-be": codecs.BOM_UTF16_BE, "cp1252": b""}


@pytest.fixture(autouse=True)
def _short_parts(service: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("BOLTWRIGHT_URL", service)
    monkeypatch.setattr(parts, "LINES", 7)


def written(folder: Path, content: str | bytes, name: str = "parts.csv") -> Path:
    path = folder / name
    path.write_bytes(content.encode() if isinstance(content, str) else content)
    return path


def found_in(out: Path) -> list[dict[str, Any]]:
    text = out.read_text(encoding="utf-8")
    if out.suffix == ".ndjson":
        return [json.loads(line) for line in text.splitlines()]
    return list(csv.DictReader(text.splitlines(), delimiter=text[len("part_number")]))


def run(command: str, path: Path, *options: str, out: str | None = None) -> tuple[int, list[dict[str, Any]]]:
    to = path.parent / (out or f"out.{'ndjson' if command == 'impact' and path.suffix != '.csv' else 'csv'}")
    change = CHANGE if command == "impact" else []
    code = main([command, str(path), "--out", str(to), "--quiet", *change, *options])
    return code, found_in(to) if code != 3 else []


@pytest.mark.parametrize("command", ["validate", "impact"])
@pytest.mark.parametrize("encoding", MARKS)
@pytest.mark.parametrize("marked", [False, True])
@pytest.mark.parametrize("stated", [False, True])
def test_a_mark_costs_no_column(tmp_path: Path, command: str, encoding: str, marked: bool, stated: bool) -> None:
    text = "part_number;description\n" + "A\u00e4;ISO 4032 M10 8\n" * 20
    path = written(tmp_path, (MARKS[encoding] if marked else b"") + text.encode(encoding))
    _, found = run(command, path, *(["--encoding", encoding] if stated else []))
    assert {(row["part_number"], row["designation"]) for row in found} == {("A\u00e4", "ISO 4032 - M10 - 8")}
    assert len(found) == 20


def test_the_first_umlaut_may_stand_behind_what_is_looked_at(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(parts, "LINES", 2000)
    text = "part_number,description\n" + "P,ISO 4032 M10 8 xxxxx\n" * 3500 + "A\u00e4,ISO 4032 M10 8\n"
    _, found = run("validate", written(tmp_path, text.encode("cp1252")))
    assert found[-1]["part_number"] == "A\u00e4"


@pytest.mark.parametrize("name", ["windows-1252", "csISOLatin1", "UTF8", "x-mac-roman", "csUTF16BE", "latin-9"])
def test_names_of_encodings_are_known(name: str) -> None:
    assert codec_of(name)


@pytest.mark.parametrize("name", ["klingon", "rot13", "hex", "", "\0"])
def test_what_is_no_encoding_is_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str], name: str) -> None:
    path = written(tmp_path, "description\nx\n")
    assert main(["validate", str(path), "--encoding", name]) == 3
    assert "windows-1252" in capsys.readouterr().err


# Columns


def workbook(path: Path, rows: list[list[Any]]) -> Path:
    openpyxl = pytest.importorskip("openpyxl")
    book = openpyxl.Workbook()
    for row in rows:
        book.active.append(row)
    book.save(path)
    return path


def catalogue(folder: Path, form: str, titles: list[str], cells: list[Any], above: list[list[Any]] = []) -> Path:  # noqa: B006
    """Ten equal rows below their titles, in the form that a suffix names."""
    if form == "xlsx":
        return workbook(folder / "parts.xlsx", [*above, titles, *[cells] * 10])
    if form == "ndjson":
        row = {title: cell for title, cell in zip(titles, cells, strict=True) if cell is not None}
        return written(folder, "\n".join([json.dumps(row)] * 10), "parts.ndjson")
    lines = [*above, titles, *[cells] * 10]
    return written(folder, "\n".join(";".join(str(cell or "") for cell in line) for line in lines))


@pytest.mark.parametrize("command", ["validate", "impact"])
@pytest.mark.parametrize("form", ["csv", "xlsx", "ndjson"])
def test_columns_are_told(tmp_path: Path, capsys: pytest.CaptureFixture[str], command: str, form: str) -> None:
    titles = ["part_number", "description", "width_across_flat", "Preis \u20ac"]
    path = catalogue(tmp_path, form, titles, ["A", "ISO 4014 M10x60 8.8", 99, 1.2])
    run(command, path)
    nearest = "width_across_flat (nearest: width_across_flats)" if command == "validate" else "width_across_flat"
    said = capsys.readouterr().err
    assert f"columns read: part_number, description; not read: {nearest}, Preis \u20ac\n" in said
    run(command, path, "--json")
    shown = json.loads(capsys.readouterr().out)
    assert shown["columns_read"] == titles[:2]
    assert [one["title"] for one in shown["columns_not_read"]] == titles[2:]


def test_columns_of_later_parts_and_of_an_interrupted_run_are_told(
    client: Client, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    row = {"part_number": "A", "description": "ISO 4032 M10 8"}
    rows = [{**row, **({f"extra {at}": 1} if at in (2, 12) else {})} for at in range(20)]
    path = written(tmp_path, "\n".join(map(json.dumps, rows)), "parts.ndjson")
    run("validate", path)
    assert "not read: extra 2, extra 12" in capsys.readouterr().err
    found = client.part_masters_validation_iter(rows, batch=5)
    list(found)
    assert found.columns.read == ["part_number", "description"]
    assert found.columns.unread == {"extra 2": None, "extra 12": None}
    summary = client.part_masters_validation(rows).summary
    assert summary["columns_read"] == ["part_number", "description"]
    assert summary["columns_not_read"][0] == {"title": "extra 2", "nearest": None}


@pytest.mark.parametrize("command", ["validate", "impact"])
@pytest.mark.parametrize("form", ["csv", "xlsx", "ndjson"])
def test_a_catalogue_without_a_known_column_is_refused_and_leaves_nothing(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], command: str, form: str
) -> None:
    path = catalogue(tmp_path, form, ["Artikel", "Kurztext"], ["A", "ISO 4032 M10 8"])
    assert run(command, path) == (3, [])
    assert "'Kurztext' (nearest: description)" in capsys.readouterr().err
    assert [one.name for one in tmp_path.iterdir()] == [path.name]


@pytest.mark.parametrize("command", ["validate", "impact"])
@pytest.mark.parametrize("form", ["csv", "xlsx"])
def test_titles_are_mapped_below_a_line_of_the_company(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], command: str, form: str
) -> None:
    above = [["Schrauben GmbH", None, None], ["Stand 30.11.2026", None, None]]
    cells = ["A", "ISO 4014 M10x60 8.8", 16]
    path = catalogue(tmp_path, form, ["Artikel", "Text", "SW"], cells, above)
    mapped = "Artikel:part_number,Text:description,SW:width_across_flats"
    _, found = run(command, path, "--columns", mapped)
    assert [(row["part_number"], row["designation"]) for row in found] == [("A", "ISO 4014 - M10x60 - 8.8")] * 10
    told = "Artikel, Text, SW\n" if command == "validate" else "Artikel, Text; not read: SW\n"
    assert f"columns read: {told}" in capsys.readouterr().err
    assert run(command, path, "--columns", "Artikel:part_number,Texte:description") == (3, [])
    assert "no title 'Texte'; its titles are 'Artikel', 'Text', 'SW'" in capsys.readouterr().err


@pytest.mark.parametrize("form", ["csv", "xlsx"])
@pytest.mark.parametrize("title", ["Zugkraft [kN]", "Zugkraft (kN)", "Zugkraft in kN"])
@pytest.mark.parametrize(("figure", "code"), [(46.4, ""), (46400, "mechanical-figure-wrong")])
def test_the_unit_of_a_mapped_title_counts(tmp_path: Path, form: str, title: str, figure: float, code: str) -> None:
    """M10 8.8 holds 46.4 kN (ISO 898-1:2013, Table 4)."""
    path = catalogue(tmp_path, form, ["Artikel", "Text", title], ["A", "ISO 4014 M10x60 8.8", figure])
    mapped = f"Artikel:part_number,Text:description,{title}:tensile_load"
    _, found = run("validate", path, "--columns", mapped)
    assert [row["codes"] for row in found] == [code] + [f"{code} duplicate-part-number".strip()] * 9
    assert run("validate", path, "--columns", f"{mapped} [N]") == (3, [])


@pytest.mark.parametrize("command", ["validate", "impact"])
@pytest.mark.parametrize("form", ["csv", "xlsx"])
def test_the_refusal_shows_titles_below_the_company(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], command: str, form: str
) -> None:
    path = catalogue(tmp_path, form, ["Artikel", "Kurztext"], ["A", "ISO 4032 M10 8"], [["Schrauben GmbH", None]])
    assert run(command, path) == (3, [])
    said = capsys.readouterr().err
    assert "'Kurztext' (nearest: description)" in said
    assert "Schrauben GmbH" not in said


@pytest.mark.parametrize("above", ["sep=|\n", "\n\nsep=|\nExport\n\n", 'Export "parts"\n' * 9])
def test_lines_above_the_titles_of_a_csv_file(tmp_path: Path, above: str) -> None:
    text = f"{above}part_number|description\n" + "".join(f"P{at}|ISO 4032 M10 8\n" for at in range(30))
    _, found = run("validate", written(tmp_path, text))
    assert [row["part_number"] for row in found] == [f"P{at}" for at in range(30)]


def test_a_title_of_a_workbook_that_stands_twice_is_told(tmp_path: Path) -> None:
    path = workbook(tmp_path / "parts.xlsx", [["description", "thread", "thread"], ["ISO 4032 8", "M10", "M12"]])
    _, (row,) = run("validate", path, out="out.ndjson")
    assert "attribute-contradicts-description" in {one["code"] for one in row["findings"]}


@pytest.mark.parametrize("delimiter", [",", ";", "\t", "|"])
def test_findings_keep_the_delimiter_of_the_catalogue(tmp_path: Path, delimiter: str) -> None:
    text = f"part_number{delimiter}description\nA{delimiter}hello\n"
    report = tmp_path / "report.html"
    _, (row,) = run("validate", written(tmp_path, text), "--report", str(report))
    assert (tmp_path / "out.csv").read_text().startswith(f"part_number{delimiter}row{delimiter}status")
    assert row["status"] == "unreadable"
    assert '"unreadable"' in report.read_text()


# Where the answer goes


@pytest.mark.parametrize("command", ["validate", "impact"])
@pytest.mark.parametrize("out", ["nodir/x.csv", "folder.csv"])
def test_a_place_that_there_is_not_is_refused_before_anything_is_sent(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], command: str, out: str
) -> None:
    (tmp_path / "folder.csv").mkdir()
    path = written(tmp_path, "description\nISO 4032 M10 8\n")
    code, _ = run(command, path, "--url", "http://127.0.0.1:9", out=out)
    said = capsys.readouterr().err
    assert code == 3
    assert "folder" in said
    assert "cannot be reached" not in said


def test_a_state_that_cannot_be_written(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "out.csv.state").mkdir()
    assert run("validate", written(tmp_path, "description\nISO 4032 M10 8\n")) == (3, [])
    assert "out.csv.state cannot be written" in capsys.readouterr().err


def test_a_place_for_the_report_that_there_is_not(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = written(tmp_path, "description\nISO 4032 M10 8\n")
    assert run("validate", path, "--report", str(tmp_path / "nodir" / "r.html")) == (3, [])
    assert "there is no folder" in capsys.readouterr().err


@pytest.mark.parametrize("options", [["--columns", "Nr:part_number"], ["--url", "http://127.0.0.1:9"]])
def test_a_run_that_kept_no_row_leaves_nothing_and_the_corrected_command_runs(
    tmp_path: Path, options: list[str]
) -> None:
    path = written(tmp_path, "part_number,description\nA,ISO 4032 M10 8\n")
    (tmp_path / "out.csv").write_text("findings of yesterday")
    assert run("validate", path, *options) == (3, [])
    assert (tmp_path / "out.csv").read_text() == "findings of yesterday"
    assert sorted(one.name for one in tmp_path.iterdir()) == ["out.csv", "parts.csv"]
    assert run("validate", path)[0] == 0


@pytest.mark.parametrize(
    ("text", "fail_on", "code"),
    [
        ("hello", "error", 1),
        ("hello", "never", 0),
        ("DIN 933 M10x40 8.8", "warning", 2),
        ("DIN 933 M10x40 8.8", "error", 0),
        ("ISO 4032 M10 8", "warning", 0),
    ],
)
def test_the_findings_that_make_the_exit_code(tmp_path: Path, text: str, fail_on: str, code: int) -> None:
    path = written(tmp_path, f"part_number,description\nA,{text}\n")
    assert run("validate", path, "--fail-on", fail_on)[0] == code


def test_refusals_are_typed(client: Client, service: str) -> None:
    with pytest.raises(MemberError) as refused:
        client.part_masters_validation([{"Kurztext": "ISO 4032 M10 8"}])
    assert refused.value.code == "no_known_column"
    assert refused.value.nearest[0] == "description"
    with Client("http://127.0.0.1:99999", retries=0) as nowhere, pytest.raises(Error) as failed:
        nowhere.part_masters_validation([{"description": "x"}])
    assert isinstance(failed.value, TransportError)
    assert not isinstance(failed.value, ConnectionFailed)
