"""The fingerprint changes with any byte of any table and with the engine's version, and with nothing else."""

import shutil
from pathlib import Path

import pytest

from boltwright_server.standards import fingerprint, registry

SOURCE = Path(registry.__file__).parent / "iso_4032_2012"


@pytest.fixture
def copy(tmp_path: Path) -> Path:
    return shutil.copytree(SOURCE, tmp_path / SOURCE.name)


def test_a_copy_has_the_same_hash(copy: Path) -> None:
    assert fingerprint.folder_hash(copy) == fingerprint.folder_hash(SOURCE)


@pytest.mark.parametrize("file", ["table_1.csv", "table_1.checked.csv", "standard.toml"])
def test_any_byte_changes_the_hash(copy: Path, file: str) -> None:
    with (copy / file).open("ab") as end:
        end.write(b" ")
    assert fingerprint.folder_hash(copy) != fingerprint.folder_hash(SOURCE)


def test_bytes_moved_from_one_file_to_the_next_change_the_hash(copy: Path) -> None:
    (copy / "a.csv").write_bytes(b"12")
    (copy / "b.csv").write_bytes(b"3")
    before = fingerprint.folder_hash(copy)
    (copy / "a.csv").write_bytes(b"1")
    (copy / "b.csv").write_bytes(b"23")
    assert fingerprint.folder_hash(copy) != before


def test_the_version_of_the_engine_is_part_of_it(monkeypatch: pytest.MonkeyPatch) -> None:
    fingerprint.fingerprint.cache_clear()
    before = fingerprint.fingerprint()
    monkeypatch.setattr(fingerprint, "ENGINE_VERSION", "another")
    fingerprint.fingerprint.cache_clear()
    assert fingerprint.fingerprint() != before
    monkeypatch.undo()
    fingerprint.fingerprint.cache_clear()
    assert fingerprint.fingerprint() == before
    assert len(before) == 16
