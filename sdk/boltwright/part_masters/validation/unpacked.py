"""A catalogue that is no plain file: gzip (`parts.csv.gz`), or what arrives on the standard input (`-`).

It is laid down as a temporary file first: an interrupted run goes on when the same bytes come again, and a file that
is cut short is refused before the first row is sent.
"""

from __future__ import annotations

import gzip
import shutil
import sys
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory

STANDARD_INPUT = "-"
_GZIP, _ZIP, _SNIFFED = b"\x1f\x8b", b"PK\x03\x04", 4096


@contextmanager
def unpacked(path: Path) -> Iterator[Path]:
    """Yield a plain file with the bytes of a catalogue: itself, or a temporary one while it is needed.

    Raises:
        ValueError: what should be gzip is none, or is cut short.
    """
    if str(path) != STANDARD_INPUT and path.suffix.lower() != ".gz":
        yield path
        return
    with TemporaryDirectory(prefix="boltwright-") as folder:
        yield _laid_down(path, Path(folder))


def plain_name(path: Path) -> str:
    """Return the name of a catalogue without its suffixes: `parts` of `parts.csv.gz`."""
    return Path(path.stem).stem if path.suffix.lower() == ".gz" else path.stem


def _laid_down(path: Path, folder: Path) -> Path:
    if str(path) != STANDARD_INPUT:
        return _unzipped(path, folder / path.stem, path)
    file = folder / "arrived"
    with file.open("wb") as arrived:
        shutil.copyfileobj(sys.stdin.buffer, arrived)
    if _head(file).startswith(_GZIP):
        file = _unzipped(file, folder / "unzipped", path)
    return file.rename(file.with_suffix(_suffix_of(_head(file))))


def _unzipped(packed: Path, target: Path, named: Path) -> Path:
    try:
        with gzip.open(packed) as stream, target.open("wb") as file:
            shutil.copyfileobj(stream, file)
    except (EOFError, gzip.BadGzipFile, zlib.error) as error:
        raise ValueError(f"{named} is no complete gzip file: {error}") from None
    if not packed.stat().st_size:
        raise ValueError(f"{named} is no gzip file: it is empty")
    return target


def _head(file: Path) -> bytes:
    with file.open("rb") as start:
        return start.read(_SNIFFED)


def _suffix_of(head: bytes) -> str:
    """Tell the form of what arrived: a workbook, objects, else CSV."""
    if head.startswith(_ZIP):
        return ".xlsx"
    return ".ndjson" if head.removeprefix(b"\xef\xbb\xbf").lstrip().startswith(b"{") else ".csv"
