"""The loader refuses a folder of facts that it cannot vouch for, and names the file and the row.

Each case takes a folder that is right and makes one thing wrong.
"""

from collections.abc import Callable
from decimal import Decimal
from pathlib import Path

import pytest

from boltwright_server.quantities import NotStandardised
from boltwright_server.standards import Standard
from boltwright_server.standards.loader import BadFacts, load_standard

TOML = """\
id = "ISO 0"
edition = "2000"
title = "A standard of the tests"
family = "test"

[[table]]
file = "table_1.csv"
printed_as = "Table 1"
content = "widths"
unit = "mm"
key = ["thread"]
checked = "two reproductions"
"""
CSV = """\
thread,s_max,s_min,c
M5,8.00,7.78,-
M6,10.00,9.78,0.50
M10,16.00,15.73,0.60
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    path = tmp_path / "iso_0_2000"
    path.mkdir()
    (path / "standard.toml").write_text(TOML, encoding="utf-8")
    (path / "table_1.csv").write_text(CSV, encoding="utf-8")
    return path


def refused(folder: Path) -> str:
    with pytest.raises(BadFacts) as found:
        load_standard(folder)
    return str(found.value)


def mend(path: Path, old: str, new: str) -> None:
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")


def test_a_good_folder_is_read_as_printed(folder: Path) -> None:
    found: Standard = load_standard(folder)
    table = found.table("table_1")
    row = table.rows[("M6",)]
    assert found.cited == "ISO 0:2000"
    assert str(row.number("s_max")) == "10.00"
    assert (row.basis("s_max").clause, row.basis("s_max").checked) == ("Table 1", "two reproductions")
    assert table.unit_of("s_max") == "mm"


def test_a_dash_is_no_value_and_has_an_answer_of_its_own(folder: Path) -> None:
    row = load_standard(folder).table("table_1").rows[("M5",)]
    assert row.get("c") is None
    with pytest.raises(NotStandardised, match="ISO 0:2000, Table 1 gives no c for M5"):
        row.number("c")


@pytest.mark.parametrize("member", ["id", "edition", "title", "family"])
def test_a_standard_without_its_citation_is_refused(folder: Path, member: str) -> None:
    mend(folder / "standard.toml", f"{member} = ", f"not_{member} = ")
    assert refused(folder) == f"iso_0_2000/standard.toml: '{member}' is missing"


@pytest.mark.parametrize("member", ["file", "printed_as", "content", "unit", "key", "checked"])
def test_a_table_without_its_reference_is_refused(folder: Path, member: str) -> None:
    mend(folder / "standard.toml", f"{member} = ", f"not_{member} = ")
    assert refused(folder) == f"iso_0_2000/standard.toml, table 1: '{member}' is missing"


def test_an_empty_member_is_a_missing_one(folder: Path) -> None:
    mend(folder / "standard.toml", 'printed_as = "Table 1"', 'printed_as = ""')
    assert "'printed_as' is missing" in refused(folder)


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('edition = "2000"', "edition = 2000", "iso_0_2000/standard.toml: 'edition' is not a str"),
        ('key = ["thread"]', 'key = "thread"', "iso_0_2000/standard.toml, table 1: 'key' is not a list"),
        ('unit = "mm"', 'unit = "mm"\ncolour = "red"', "iso_0_2000/standard.toml, table 1: unknown member 'colour'"),
        ('family = "test"', 'family = "test"\nauthor = "x"', "iso_0_2000/standard.toml: unknown member 'author'"),
        ('"two reproductions"', '"certain"', "iso_0_2000/standard.toml, table 1: checked = 'certain' is not one of"),
        ('key = ["thread"]', 'key = ["size"]', "iso_0_2000/table_1.csv: there is no column 'size'"),
        ('unit = "mm"', 'unit = "mm"\nunits = {q = "N"}', "iso_0_2000/table_1.csv: there is no column 'q'"),
        ('unit = "mm"', 'unit = "mm"\ntext = ["q"]', "iso_0_2000/table_1.csv: there is no column 'q'"),
        ("table_1.csv", "table_9.csv", "iso_0_2000/table_9.csv:"),
        ('id = "ISO 0"', "id = ISO 0", "iso_0_2000/standard.toml:"),
    ],
)
def test_a_wrong_citation_file_is_refused(folder: Path, old: str, new: str, said: str) -> None:
    mend(folder / "standard.toml", old, new)
    assert refused(folder).startswith(said)


def test_a_column_may_be_marked_by_itself_but_only_with_a_known_word(folder: Path) -> None:
    mend(folder / "standard.toml", 'unit = "mm"', 'unit = "mm"\ncolumns_checked = {c = "memory"}')
    row = load_standard(folder).table("table_1").rows[("M6",)]
    assert (row.checked("c"), row.checked("s_max")) == ("memory", "two reproductions")
    mend(folder / "standard.toml", '{c = "memory"}', '{c = "sure"}')
    assert refused(folder).startswith("iso_0_2000/standard.toml, table 1, columns_checked, c: checked = 'sure'")


def test_a_table_may_not_be_named_twice(folder: Path) -> None:
    table = TOML[TOML.index("[[table]]") :]
    (folder / "standard.toml").write_text(f"{TOML}\n{table}", encoding="utf-8")
    assert refused(folder) == "iso_0_2000/standard.toml, table 2: table_1.csv is named twice"


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("s_min,c", "s_min,s_min", "iso_0_2000/table_1.csv, row 1: a column is named twice or not at all"),
        ("s_min,c", "s_min,", "iso_0_2000/table_1.csv, row 1: a column is named twice or not at all"),
        ("9.78,0.50", "9.78", "iso_0_2000/table_1.csv, row 3: 3 cells under 4 columns"),
        ("9.78,0.50", "9.78,", "iso_0_2000/table_1.csv, row 3: c is empty; write '-'"),
        ("9.78,0.50", "9.78,O.50", "iso_0_2000/table_1.csv, row 3, c: 'O.50' is not a number"),
        ("9.78,0.50", "9.78,NaN", "iso_0_2000/table_1.csv, row 3, c: 'NaN' is not a number"),
        ("9.78,0.50", "9.78,Infinity", "iso_0_2000/table_1.csv, row 3, c: 'Infinity' is not a number"),
        ("9.78,0.50", "10.78,0.50", "iso_0_2000/table_1.csv, row 3: s_min 10.78 exceeds its maximum 10.00"),
        ("M10,", "M6,", "iso_0_2000/table_1.csv, row 4: key ('M6',) stands there twice"),
        ("M10,", "M5.5,", "iso_0_2000/table_1.csv: row ('M5.5',) is out of order"),
    ],
)
def test_a_wrong_table_is_refused_by_file_and_row(folder: Path, old: str, new: str, said: str) -> None:
    mend(folder / "table_1.csv", old, new)
    assert refused(folder).startswith(said)


def test_a_table_without_rows_is_refused(folder: Path) -> None:
    (folder / "table_1.csv").write_text("thread,s_max\n", encoding="utf-8")
    assert refused(folder) == "iso_0_2000/table_1.csv: a table needs a header and a row"


def test_bytes_that_are_no_text_are_refused(folder: Path) -> None:
    (folder / "table_1.csv").write_bytes(b"thread,s_max\nM5,\xff\n")
    assert refused(folder).startswith("iso_0_2000/table_1.csv:")


def test_an_unordered_table_says_so(folder: Path) -> None:
    mend(folder / "table_1.csv", "M10,", "M5.5,")
    mend(folder / "standard.toml", 'unit = "mm"', 'unit = "mm"\nordered = false')
    assert ("M5.5",) in load_standard(folder).table("table_1").rows


def test_single_cells_may_carry_marks(folder: Path) -> None:
    marks = folder / "table_1.checked.csv"
    marks.write_text("thread,s_max,s_min,c\nM6,,M,C\n", encoding="utf-8")
    row = load_standard(folder).table("table_1").rows[("M6",)]
    assert [row.checked(name) for name in ("s_max", "s_min", "c")] == ["two reproductions", "memory", "conflict"]
    mend(marks, "M,C", "M,Z")
    assert refused(folder) == "iso_0_2000/table_1.checked.csv, row 2: unknown mark 'Z'"
    marks.write_text("thread,s_max\nM6,\n", encoding="utf-8")
    assert refused(folder).startswith("iso_0_2000/table_1.checked.csv, row 1: the columns are not those of table_1.csv")


BANDS = """\
feature,d_over,d_up_to,IT
s,0,3,60
s,3,6,75
k,0,3,61
"""


@pytest.fixture
def bands(folder: Path) -> Callable[[str, str], Decimal | None]:
    mend(folder / "standard.toml", 'key = ["thread"]', 'key = ["feature", "d_over", "d_up_to"]\nordered = false')
    (folder / "table_1.csv").write_text(BANDS, encoding="utf-8")
    table = load_standard(folder).table("table_1")

    def find(size: str, feature: str) -> Decimal | None:
        row = table.find_in_band(Decimal(size), feature)
        return None if row is None else row.number("IT")

    return find


@pytest.mark.parametrize(
    ("size", "feature", "expected"),
    [("3", "s", "60"), ("3.001", "s", "75"), ("6", "s", "75"), ("0.001", "k", "61")],
)
def test_bands_are_over_up_to_and_including(
    bands: Callable[[str, str], Decimal | None], size: str, feature: str, expected: str
) -> None:
    assert bands(size, feature) == Decimal(expected)


@pytest.mark.parametrize(("size", "feature"), [("0", "s"), ("6.001", "s"), ("4", "k"), ("2", "z")])
def test_outside_every_band_there_is_nothing(
    bands: Callable[[str, str], Decimal | None], size: str, feature: str
) -> None:
    assert bands(size, feature) is None


def test_a_mark_of_a_clause_is_one_of_the_words(folder: Path) -> None:
    path = folder / "standard.toml"
    path.write_text(f'{TOML}\n[clauses]\n"clause 9" = "formula"\n', encoding="utf-8")
    assert load_standard(folder).clause("clause 9").checked == "formula"
    mend(path, '"formula"', '"sure"')
    assert "clauses, clause 9: checked = 'sure' is not one of" in refused(folder)
