"""The catalogue is the same for the same seed, and seeds every code of the findings."""

from itertools import islice
from pathlib import Path

from .generator import CODES, masters, write
from .parts import all_parts


def test_the_same_seed_gives_the_same_catalogue(tmp_path: Path) -> None:
    first, again, other = (write(tmp_path / name, seed, 300) for name, seed in (("a", 7), ("b", 7), ("c", 8)))
    assert first[0].read_bytes() == again[0].read_bytes() != other[0].read_bytes()
    assert first[1].read_bytes() == again[1].read_bytes()


def test_one_row_in_twenty_is_spoilt_and_every_code_is_seeded() -> None:
    spoilt = [master.codes for master in masters(3, 2000) if master.codes]
    assert len(spoilt) == 100
    assert {code for codes in spoilt for code in codes} == set(CODES)


def test_no_two_parts_of_the_tables_ask_for_the_same() -> None:
    some = [part.requirement for part in islice(all_parts(), 0, None, 7)]
    assert len(set(some)) == len(some)
