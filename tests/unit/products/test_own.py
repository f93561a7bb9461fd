"""A plant's own standards: which folders may be served. None is served here."""

import re
from pathlib import Path

import pytest
from own_standards import CLASSES, SIZES, STANDARD, write_standard

from boltwright_server.products import FAMILIES
from boltwright_server.products.own import check_product_standard, checked
from boltwright_server.standards import BadFacts, all_standards


def test_a_made_up_standard_of_a_known_family_may_be_served(tmp_path: Path) -> None:
    found = checked(write_standard(tmp_path))
    assert [one.cited for one in found.values()] == ["WN 4711:3"]


def test_every_built_in_product_standard_would_be_served_too() -> None:
    for standard in all_standards():
        if standard.family in FAMILIES:
            check_product_standard(standard)


@pytest.mark.parametrize(
    ("file", "right", "wrong", "told"),
    [
        (
            "standard",
            "hexagon_bolt",
            "hexagonal_bolt",
            "standard.toml: family 'hexagonal_bolt' is none of hexagon_bolt, ",
        ),
        ("standard", 'grade = "A"', 'grad = "A"', "standard.toml, product 1: unknown member 'grad'"),
        ("standard", 'grade = "A"', 'grade = "D"', "ISO 4759-1 has no grade 'D'"),
        ("standard", 'unit = "mm"', 'unit = "in"', "the unit of hexagon_bolt is mm, not in"),
        ("sizes", "k_min", "km_min", "sizes.csv, row 1: column 'km_min' has no meaning for hexagon_bolt"),
        ("sizes", "M10,8.4", "M9.3,8.4", "sizes.csv, row 3: thread 'M9.3': ISO 261:1998 lists no nominal diameter"),
        ("sizes", "M10,8.4", "10-inch,8.4", "sizes.csv, row 3: thread '10-inch': no thread such as M10"),
        ("sizes", "8.22,8.58", "8.58,8.22", "sizes.csv, row 3: k_min 8.58 exceeds its maximum 8.22"),
        ("sizes", "8.22", "eight", "sizes.csv, row 3, k_min: 'eight' is not a number"),
        ("sizes", "8.22", "", "sizes.csv, row 3: k_min is empty"),
        ("classes", "d_min", "from", "property_classes.csv, row 1: a table of classes has the key property_class"),
    ],
)
def test_a_bad_folder_is_refused_with_file_and_row(
    tmp_path: Path, file: str, right: str, wrong: str, told: str
) -> None:
    files = {"standard": STANDARD, "sizes": SIZES, "classes": CLASSES}
    files[file] = files[file].replace(right, wrong, 1)
    with pytest.raises(BadFacts, match=re.escape(told)) as refused:
        checked(write_standard(tmp_path, **files))
    assert "wn_4711_3/" in str(refused.value)


@pytest.mark.parametrize(
    ("id", "edition", "told"),
    [
        ("ISO 4014", "2011", "ISO 4014:2011 is held already, in iso_4014_2011"),
        ("ISO 965-1", "2013", "ISO 965-1:2013 is held already"),
        ("DIN EN ISO 4014", "2022", "'DIN EN ISO 4014' reads as ISO 4014:2011"),
        ("iso 4014", "2022", "id 'iso 4014' cannot start a designation"),
        ("M10", "1", "id 'M10' cannot start a designation"),
        ("4711", "1", "id '4711' cannot start a designation"),
        ("WN 4711 \\\\ 1", "1", "cannot start a designation"),
    ],
)
def test_no_standard_that_is_held_can_be_hidden(tmp_path: Path, id: str, edition: str, told: str) -> None:
    toml = STANDARD.replace('id = "WN 4711"', f'id = "{id}"').replace('edition = "3"', f'edition = "{edition}"')
    with pytest.raises(BadFacts, match=re.escape(told)):
        checked(write_standard(tmp_path, standard=toml))


def test_another_edition_of_a_standard_that_is_held_may_be_added(tmp_path: Path) -> None:
    toml = STANDARD.replace('id = "WN 4711"', 'id = "ISO 4017"').replace('edition = "3"', 'edition = "2022"')
    assert [one.cited for one in checked(write_standard(tmp_path, standard=toml)).values()] == ["ISO 4017:2022"]


def test_a_former_standard_may_be_a_plants_own(tmp_path: Path) -> None:
    toml = STANDARD.replace('id = "WN 4711"', 'id = "DIN 961"').replace('edition = "3"', 'edition = "1987"')
    assert [one.id for one in checked(write_standard(tmp_path, standard=toml)).values()] == ["DIN 961"]


def test_folders_are_named_plainly_and_hold_a_standard(tmp_path: Path) -> None:
    with pytest.raises(BadFacts, match="no such directory"):
        checked(tmp_path / "nowhere")
    with pytest.raises(BadFacts, match=re.escape("no folder in it holds a standard.toml")):
        checked(tmp_path)
    write_standard(tmp_path)
    (tmp_path / "empty").mkdir()
    with pytest.raises(BadFacts, match=re.escape("empty: the folder holds no standard.toml")):
        checked(tmp_path)


def test_what_a_version_control_or_a_spreadsheet_adds_stops_nothing(tmp_path: Path) -> None:
    """A folder `.git` is no standard; a byte order mark stands before what a spreadsheet program saves as UTF-8."""
    write_standard(tmp_path)
    (tmp_path / ".git").mkdir()
    for path in tmp_path.glob("wn_*/*"):
        path.write_bytes(b"\xef\xbb\xbf" + path.read_bytes())
    assert [one.id for one in checked(tmp_path).values()] == ["WN 4711"]


@pytest.mark.parametrize("folder", ["WN 4711", "iso_4014_2011", "-x"])
def test_a_folder_name_that_is_taken_or_not_plain(tmp_path: Path, folder: str) -> None:
    with pytest.raises(BadFacts, match="folder"):
        checked(write_standard(tmp_path, folder=folder))


def test_two_own_folders_of_one_edition(tmp_path: Path) -> None:
    write_standard(tmp_path)
    with pytest.raises(BadFacts, match="WN 4711:3 is held already, in wn_4711_3"):
        checked(write_standard(tmp_path, folder="wn_4711_4"))


def test_a_nut_says_its_style(tmp_path: Path) -> None:
    toml = STANDARD.replace("hexagon_bolt", "hexagon_nut")
    sizes = "thread,m_max,m_min,s_max,s_min,e_min\nM10,9.00,8.64,16.00,15.73,17.77\n"
    with pytest.raises(BadFacts, match="a nut needs style"):
        checked(write_standard(tmp_path, standard=toml, sizes=sizes, classes="property_class,d_min,d_max\n8,5,39\n"))
