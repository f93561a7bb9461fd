"""`python -m tests.part_master_catalogue generate --rows 200000 --seed 1 --out DIR`, from the root of the project."""

from __future__ import annotations

import argparse
from pathlib import Path

from .generator import write


def main() -> None:
    """Run one command."""
    parser = argparse.ArgumentParser(description=__doc__)
    commands = parser.add_subparsers(dest="command", required=True)
    generate = commands.add_parser("generate", help="write part_masters.csv and truth.csv")
    generate.add_argument("--out", type=Path, required=True)
    for command in (generate,):
        command.add_argument("--rows", type=int, default=200_000)
        command.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    print(*write(options.out, options.seed, options.rows))


if __name__ == "__main__":
    main()
