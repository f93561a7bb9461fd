"""The one keeper: what is remembered is counted, bounded by bytes, and can be forgotten."""

from __future__ import annotations

from collections.abc import Iterator
from sys import getsizeof

import msgspec
import pytest

from boltwright_server.quantities.keeper import KEEPER, Keeper, Memory, Size, remembered, weight

NAME = f"{__name__}.test"


@pytest.fixture
def room() -> Iterator[int]:
    """The bytes that the keeper holds; what a test added is gone behind it, and the limit is back."""
    limit = KEEPER.limit
    yield KEEPER.bytes()
    KEEPER.limit = limit
    for name in [name for name in KEEPER.memories if name.startswith(NAME)]:
        KEEPER.memories.pop(name).forget()


def test_a_function_is_asked_once_for_the_same(room: int) -> None:
    asked = []

    @remembered(100)
    def twice(text: str) -> str:
        asked.append(text)
        return text * 2

    assert [twice("a"), twice("b"), twice("a")] == ["aa", "bb", "aa"]
    assert asked == ["a", "b"]
    KEEPER.forget(NAME)
    assert twice("a") == "aa"
    assert asked == ["a", "b", "a"]


def test_entries_are_counted_with_their_bytes(room: int) -> None:
    @remembered()
    def long(number: int) -> str:
        return "x" * 10_000 + str(number)

    for number in range(1000):
        long(number)
    memory = next(memory for name, memory in KEEPER.memories.items() if name.startswith(NAME))
    entries, size = memory.size()
    assert entries == 1000
    assert size == pytest.approx(10_000 * 1000, rel=0.1)
    assert KEEPER.bytes() == pytest.approx(room + size, abs=100_000)


@pytest.mark.parametrize("most", [None, 100_000])
def test_whatever_is_asked_the_sum_stays_within_the_limit(room: int, most: int | None) -> None:
    KEEPER.limit = room + 4_000_000

    @remembered(most)
    def one(text: str) -> tuple[str, ...]:
        return (text * 10, text[::-1])

    @remembered(most)
    def other(text: str) -> list[str]:
        return [text] * 3

    forgotten = KEEPER.forgotten
    for number in range(20_000):
        one(f"{number:>100}")
        other(f"{number:>100}")
        if number % 1000 == 0:
            assert KEEPER.bytes() <= KEEPER.limit * 1.05
    assert KEEPER.forgotten > forgotten


def test_the_largest_memory_leaves_first() -> None:
    keeper, gone = Keeper(), []
    for name, size in (("a.room.small", 10), ("a.room.large", 80), ("a.other.middle", 20)):
        keeper.add(Memory(name, lambda size=size: Size(1, size), lambda name=name: gone.append(name)))  # type: ignore[misc]
    keeper.limit = 100
    keeper.check()
    assert gone == ["a.room.large"]
    assert keeper.by_room() == {"room": Size(2, 90), "other": Size(1, 20)}


def test_bytes_of_another_library_are_weighed_by_what_they_hold() -> None:
    """`sys.getsizeof` says some 140 terabytes of these."""
    assert 100 <= weight(msgspec.Raw(b"x" * 100)) < 300
    assert 100 <= weight((msgspec.Raw(b"x" * 100), Size(1, 2))) < 500


def test_what_others_hold_too_is_not_counted() -> None:
    fact = tuple("abcdefgh" * 1000)
    holders = [fact] * 20
    assert weight((fact,)) < getsizeof(fact) / 10
    del holders
    assert weight((list("abcdefgh" * 1000),)) > 60_000
