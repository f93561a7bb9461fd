"""Every printed value of tests/published agrees with the engines to the last printed digit.

Each folder's about.toml names standard, edition, where the values are printed and how they were checked; a failing cell
is named with its file, row, question and both numbers.
"""

import pytest
from published_values import QUESTIONS, Check, load_checks, mismatches

CHECKS = load_checks()


@pytest.mark.parametrize("check", CHECKS, ids=[check.id for check in CHECKS])
def test_every_printed_cell_agrees(check: Check) -> None:
    assert check.question in QUESTIONS, f"{check.id} asks {check.question!r}; add it to a module of questions/"
    found = mismatches(check, QUESTIONS[check.question])
    assert not found, f"{len(found)} cells disagree:\n" + "\n".join(found[:50])
