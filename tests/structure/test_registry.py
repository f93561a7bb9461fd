"""Every folder of facts is served, and every standard that is served is checked against values printed elsewhere."""

import tomllib

from published_values.check import PUBLISHED
from tree import SERVER

from boltwright_server.standards import REGISTRY, Standard, all_standards, current

STANDARDS = SERVER / "standards"


def test_every_folder_has_a_line_in_the_registry() -> None:
    folders = {path.parent.name for path in STANDARDS.glob("*/standard.toml")}
    assert folders - set(REGISTRY) == set(), "add a line to server/boltwright_server/standards/registry.py"
    assert set(REGISTRY) - folders == set(), "a line of the registry has no folder"
    assert len(REGISTRY) == len(set(REGISTRY))


def test_every_standard_has_published_values() -> None:
    """But for one of which nothing was seen anywhere: there, every cell says so on its basis."""
    held = {standard.folder: standard for standard in all_standards()}
    missing = [name for name in held if not (PUBLISHED / name / "about.toml").is_file()]
    seen = [name for name in missing if not wholly_recalled(held[name])]
    assert not seen, f"missing: {', '.join(f'tests/published/{name}/about.toml' for name in seen)}"


def wholly_recalled(standard: Standard) -> bool:
    return all(set(table.cells_by_check()) <= {"memory"} for table in standard.tables.values())


def test_published_values_name_the_standard_of_their_folder() -> None:
    for standard in all_standards():
        path = PUBLISHED / standard.folder / "about.toml"
        about = tomllib.loads(path.read_text(encoding="utf-8")) if path.is_file() else {}
        if about:
            assert (about["standard"], about["edition"]) == (standard.id, standard.edition), str(path)


def test_a_folder_is_named_after_its_standard_and_edition() -> None:
    for standard in all_standards():
        name = standard.id.lower().replace(" ", "_").replace("-", "_").replace("/", "_").replace(".", "_")
        edition = standard.edition.replace(" ", "_")
        assert standard.folder in (f"{name}_{edition}", f"{name}_{edition}_r2"), standard.folder


def test_one_edition_of_each_standard_is_current() -> None:
    for standard in all_standards():
        editions = [one for one in all_standards() if one.id == standard.id]
        assert current(standard.id) is editions[-1]


def test_every_csv_is_named_by_its_standard() -> None:
    """A table that lies in a folder unnamed would be in the fingerprint but never served."""
    for standard in all_standards():
        files = {path.name for path in (STANDARDS / standard.folder).glob("*.csv")}
        named = set(standard.tables) | {f"{name.removesuffix('.csv')}.checked.csv" for name in standard.tables}
        assert files <= named, standard.folder
