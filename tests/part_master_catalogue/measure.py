"""Precision and recall of every code, and the share of designations read right, against the truth of a catalogue."""

from __future__ import annotations

import csv
import io
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

from .spoilt import NOT_JUDGED

PAGE = Path(__file__).parents[2] / "docs" / "part_master_catalogue.md"
_START, _END = "<!-- measured -->", "<!-- measured end -->"
#: What a code and the designations must reach.
CODE_GOAL, DESIGNATION_GOAL = 0.99, 0.995


@dataclass(slots=True)
class Score:
    """What a run came to. `misses` holds the first rows that went wrong, for people."""

    rows: int = 0
    right: Counter[str] = field(default_factory=Counter)
    wrong: Counter[str] = field(default_factory=Counter)
    missed: Counter[str] = field(default_factory=Counter)
    readable: int = 0
    read_right: int = 0
    misses: list[str] = field(default_factory=list)

    def codes(self) -> list[str]:
        """Return every code that was seeded or raised."""
        return sorted({*self.right, *self.wrong, *self.missed})

    def precision(self, code: str) -> float:
        """Return the share of the raised ones that are true."""
        return self.right[code] / max(1, self.right[code] + self.wrong[code])

    def recall(self, code: str) -> float:
        """Return the share of the true ones that are raised."""
        return self.right[code] / max(1, self.right[code] + self.missed[code])

    @property
    def designations(self) -> float:
        """The share of readable rows whose designation is the true one."""
        return self.read_right / max(1, self.readable)

    def short_of_goal(self) -> list[str]:
        """Return what does not reach its goal."""
        short = [code for code in self.codes() if min(self.precision(code), self.recall(code)) < CODE_GOAL]
        return short + (["designations"] if self.designations < DESIGNATION_GOAL else [])

    def take(self, given: dict[str, str], truth: dict[str, str], answer: dict[str, str]) -> None:
        """Count one row."""
        self.rows += 1
        true, raised = set(truth["codes"].split()), set(answer["codes"].split())
        self.right.update(true & raised)
        self.wrong.update(raised - true)
        self.missed.update(true - raised)
        good = true == raised
        if truth["designation"] not in ("", NOT_JUDGED):
            self.readable += 1
            same = truth["designation"] == answer["designation"]
            self.read_right += same
            good = good and same
        elif not truth["designation"] and answer["designation"]:
            self.wrong["designation where none is certain"] += 1
            good = False
        if not good:
            self.misses.append(_miss(given, truth, answer))


def _miss(given: dict[str, str], truth: dict[str, str], answer: dict[str, str]) -> str:
    row = " | ".join(f"{name}={value}" for name, value in given.items() if value and name != "part_number")
    return (
        f"{row}\n  true   {truth['designation'] or '-'} [{truth['codes']}]\n"
        f"  answer {answer['designation'] or '-'} [{answer['codes']}] "
        f"alternatives {answer['alternatives'] or '-'}; left over {answer['left_over'] or '-'}"
    )


def measure(rows: Path, truth: Path) -> Score:
    """Send the rows through the service, in one process, and count."""
    score = Score()
    with rows.open(encoding="utf-8", newline="") as given, truth.open(encoding="utf-8", newline="") as true:
        answers = csv.DictReader(io.StringIO(_validated(rows), newline=""))
        for row, meant, answer in zip(csv.DictReader(given), csv.DictReader(true), answers, strict=True):
            score.take({str(name): str(value) for name, value in row.items()}, meant, answer)
    return score


def _validated(rows: Path) -> str:
    from boltwright_server.web.app import create_app

    answer = (
        create_app().test_client().post("/v1/part-masters/validation", data=rows.read_bytes(), content_type="text/csv")
    )
    assert answer.status_code == 200
    return answer.get_data(as_text=True)


def table(score: Score) -> Iterator[str]:
    """Yield the lines of the table for the docs."""
    yield "| code | true | raised | precision | recall |"
    yield "| --- | ---: | ---: | ---: | ---: |"
    for code in score.codes():
        true, raised = score.right[code] + score.missed[code], score.right[code] + score.wrong[code]
        yield f"| `{code}` | {true} | {raised} | {score.precision(code):.4f} | {score.recall(code):.4f} |"
    yield ""
    share = f"{score.read_right} of {score.readable} readable rows: {score.designations:.4f}"
    yield f"Canonical designation right on {share}."


def write_table(score: Score, rows: int, seed: int) -> None:
    """Write the table into its page of the docs."""
    before, _, rest = PAGE.read_text(encoding="utf-8").partition(_START)
    lines = [_START, "", f"{rows} rows, seed {seed}.", "", *table(score), "", _END]
    PAGE.write_text(before + "\n".join(lines) + rest.partition(_END)[2], encoding="utf-8")
