"""Refreshing the examples touches what changed and nothing else: a difference that is read holds only news."""

import json
from pathlib import Path

from documentation.curl import Asked
from documentation.examples import refresh

FOLDED = '{"limits":\n    {"min": 8.862,   "max": 8.994},\n "kept": "…"}\n'
PAGE = "```bash\ncurl -s http://127.0.0.1:8765/{path}\n```\n\n```json\n{shown}```\n"


def ask(asked: Asked) -> bytes:
    return json.dumps({"limits": {"min": 8.862, "max": 8.994}, "kept": asked.path}).encode()


def test_an_answer_that_is_still_true_stays_as_it_is_folded(tmp_path: Path) -> None:
    page = tmp_path / "page.md"
    page.write_text(PAGE.format(path="a", shown=FOLDED))
    assert not refresh(page, ask)
    assert page.read_text() == PAGE.format(path="a", shown=FOLDED)


def test_one_that_changed_is_written_anew_and_its_neighbour_is_not(tmp_path: Path) -> None:
    page = tmp_path / "page.md"
    old = FOLDED.replace("8.994", "9.000")
    page.write_text(PAGE.format(path="a", shown=old) + PAGE.format(path="b", shown=FOLDED))
    assert refresh(page, ask)
    assert "9.000" not in page.read_text()
    assert page.read_text().endswith(PAGE.format(path="b", shown=FOLDED))


def test_a_question_mark_asks_for_the_whole(tmp_path: Path) -> None:
    page = tmp_path / "page.md"
    page.write_text(PAGE.format(path="a", shown='{"kept": "?"}\n'))
    assert refresh(page, ask)
    assert '{"kept": "/a"}' in page.read_text()
