"""What was seen before, over many pages and merged runs, against a plain dictionary of everything."""

from __future__ import annotations

from random import Random

import pytest

from boltwright_server.part_masters.repeats import duplicates
from boltwright_server.part_masters.repeats.duplicates import Seen

_ENDINGS = ("", "ä", "\x1f", "\udc80", "\n", "\x00", "7" * 300)


@pytest.mark.parametrize("block", [1, 7, 100])
def test_every_repeat_is_found_and_nothing_else(block: int, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(duplicates, "_RUNS", 3)
    monkeypatch.setattr(duplicates, "_REPEATED", 8)
    monkeypatch.setattr(duplicates, "_PAGE", 4)
    monkeypatch.setattr(duplicates, "_FILTER_BITS", 1 << 12)
    chance = Random(3)
    keys = [f"{chance.randrange(3000)}{chance.choice(_ENDINGS)}" for _ in range(4000)]
    labels = [f"A\x1f{number}{chance.choice(_ENDINGS)}" for number in range(4000)]
    plain: dict[str, tuple[int, str]] = {}
    with Seen() as seen:
        for at in range(0, 4000, block):
            rows = range(at, min(at + block, 4000))
            found = seen.firsts(keys[at : at + block], rows, labels[at : at + block])
            assert found == {row: plain.setdefault(keys[row], (row, labels[row])) for row in rows
                             if plain.setdefault(keys[row], (row, labels[row]))[0] != row}  # fmt: skip
    assert len(plain) < 4000


def test_keys_of_one_hash_are_told_apart_by_their_words(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(duplicates, "_PAGE", 1)
    monkeypatch.setattr(duplicates, "hash", lambda key: 5, raising=False)
    with Seen() as seen:
        assert seen.firsts(["a", "b", "c"], [0, 1, 2], ["", "", ""]) == {}
        assert seen.firsts(["c", "d", "a"], [3, 4, 5], ["", "", ""]) == {3: (2, ""), 5: (0, "")}
