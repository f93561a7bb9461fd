"""`python -m tests.part_master_catalogue generate|measure|canonical`, from the root of the project.

`generate --out DIR` writes a catalogue and its truth; `measure` validates one and prints precision and recall;
`canonical` reads the text of everything that a specification answers and prints what does not come back as itself.
"""

from __future__ import annotations

import argparse
import sys
import tempfile
from pathlib import Path

from .canonical_texts import misread
from .generator import write
from .measure import measure, table, write_table


def main() -> int:
    """Run one command; returns 1 where a goal is not reached."""
    parser = argparse.ArgumentParser(description=__doc__)
    commands = parser.add_subparsers(dest="command", required=True)
    generate = commands.add_parser("generate", help="write part_masters.csv and truth.csv")
    generate.add_argument("--out", type=Path, required=True)
    judge = commands.add_parser("measure", help="validate a catalogue, print precision and recall of every code")
    judge.add_argument("--write", action="store_true", help="write the table into the docs")
    judge.add_argument("--misses", type=int, default=0, help="print that many rows that went wrong")
    commands.add_parser("canonical", help="read the canonical text of everything that a specification answers")
    for command in (generate, judge):
        command.add_argument("--rows", type=int, default=200_000)
        command.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    if options.command == "generate":
        print(*write(options.out, options.seed, options.rows))
        return 0
    if options.command == "canonical":
        wrong, count = misread()
        print(*wrong, f"{count} texts, {len(wrong)} readings wrong", sep="\n")
        return 1 if wrong else 0
    return _measure(options)


def _measure(options: argparse.Namespace) -> int:
    with tempfile.TemporaryDirectory() as folder:
        score = measure(*write(Path(folder), options.seed, options.rows))
    print(*score.misses[: options.misses], sep="\n")
    print(*table(score), sep="\n")
    if options.write:
        write_table(score, options.rows, options.seed)
    return 1 if score.short_of_goal() else 0


if __name__ == "__main__":
    sys.exit(main())
