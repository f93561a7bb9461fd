"""`python -m tests.faults.designations [--count 1000000] [--seed 1]`, from the root of the project.

Reads random and mutated texts as designations. No text may crash a reader, take over 10 ms, be refused without saying
where and what instead, or be read to something that its canonical text does not name. Stops by itself.
"""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from time import monotonic

sys.path[:0] = [str(Path(__file__).parents[1] / "support")]
SECONDS = 1800


def main(arguments: list[str] | None = None) -> int:
    """Run; returns 1 where a promise was broken."""
    from designation_check import Findings, check
    from designation_texts import texts

    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--count", type=int, default=1_000_000)
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args(arguments)
    seen, began, number = Findings(), monotonic(), 0
    for text in texts(options.seed, options.count):
        check(text, seen)
        number += 1
        if len(seen.wrong) >= 50 or monotonic() - began > SECONDS:
            break
    print(f"{number} texts, seed {options.seed}, {monotonic() - began:.0f} s: {seen.read} read, {seen.refused} refused")
    print(f"slowest {seen.slowest * 1000:.2f} ms: {seen.slowest_text!r}")
    for line in seen.wrong[:50]:
        print(line)
    return 1 if seen.wrong or number < options.count else 0


if __name__ == "__main__":
    sys.exit(main())
