"""The garbage collector rests while a block is worked on, runs behind each, and is left as it was found."""

from __future__ import annotations

import gc
import weakref

import pytest

from boltwright_server.part_masters.catalogue.collector import between_collections


class _Knot:
    """Refers to itself: only the collector frees it."""

    def __init__(self) -> None:
        self.itself = self


def test_a_cycle_of_one_block_is_freed_before_the_next() -> None:
    known: list[weakref.ref[_Knot]] = []
    for _ in between_collections(range(3)):
        assert not gc.isenabled()
        assert [one() for one in known] == [None] * len(known)
        known.append(weakref.ref(_Knot()))
    assert gc.isenabled()


def test_a_failure_leaves_the_collector_running() -> None:
    with pytest.raises(ZeroDivisionError):
        list(between_collections(1 // number for number in (1, 0)))
    assert gc.isenabled()


def test_a_collector_that_was_stopped_stays_so() -> None:
    gc.disable()
    try:
        assert list(between_collections("ab")) == ["a", "b"]
        assert not gc.isenabled()
    finally:
        gc.enable()
