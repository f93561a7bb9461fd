"""Descriptions written by hand, invented, with the reading that the trade gives them (common practice).

`awkward.csv`: what is typed; the one designation that it means, or the alternatives that it leaves open; the status.
"""

import csv
from collections.abc import Iterator
from pathlib import Path

from boltwright_server.part_masters.catalogue.validation import Result, Validator

ROWS = Path(__file__).with_name("awkward.csv")
GOAL = 0.95


def rows() -> list[dict[str, str]]:
    with ROWS.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def results(descriptions: list[str]) -> Iterator[Result]:
    """That two texts mean the same is not the question here."""
    with Validator(repeats=False) as validator:
        yield from validator.run({"description": one} for one in descriptions)


def test_awkward_descriptions_are_read_as_the_trade_reads_them() -> None:
    meant = rows()
    wrong = []
    for row, read in zip(meant, results([row["description"] for row in meant]), strict=True):
        alternatives = set(filter(None, row["alternatives"].split(" | ")))
        given = set() if read.designation else set(read.alternatives)
        same = (read.designation or "") == row["designation"] and given == alternatives
        if not same or row["status"] not in ("", read.status):
            wrong.append((row["description"], read.designation, sorted(given), read.status))
    assert len(meant) >= 300
    assert 1 - len(wrong) / len(meant) >= GOAL, wrong


def test_a_product_of_which_no_standard_is_held_is_never_read_as_another() -> None:
    unreadable = [row["description"] for row in rows() if row["status"] == "unreadable"]
    assert len(unreadable) >= 35
    for read in results(unreadable):
        assert read.designation is None
        assert read.alternatives == []
