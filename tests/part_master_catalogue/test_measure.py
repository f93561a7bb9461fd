"""A small catalogue reaches what the large one must reach: precision and recall of every code, and designations."""

from pathlib import Path

import pytest

from .generator import CODES, write
from .measure import Score, measure


@pytest.fixture(scope="module")
def score(tmp_path_factory: pytest.TempPathFactory) -> Score:
    return measure(*write(tmp_path_factory.mktemp("catalogue") / "seed_5", seed=5, count=5000))


def test_every_code_and_the_designations_reach_their_goal(score: Score) -> None:
    assert score.short_of_goal() == [], "\n".join(score.misses[:20])


def test_no_row_is_lost_and_every_code_is_measured(score: Score) -> None:
    assert score.rows == 5000
    assert set(score.codes()) == set(CODES)


def test_every_code_of_the_findings_is_seeded() -> None:
    from boltwright_server.part_masters.meaning.findings import CODES as KNOWN

    assert set(CODES) == set(KNOWN)


def test_a_code_that_is_raised_for_nothing_or_missed_falls_short(tmp_path: Path) -> None:
    score = Score()
    truth = {"codes": "unreadable", "designation": ""}
    answer = {"codes": "unit-mix-up", "designation": "", "alternatives": "", "left_over": ""}
    score.take({"description": "X"}, truth, answer)
    assert {"unreadable", "unit-mix-up"} <= set(score.short_of_goal())
