"""Writes the answers of today into the examples of README.md and docs/: `python tests/docs/refresh_examples.py`.

Read the difference before you commit it: a number that moved is a number that every user sees move.
"""

from __future__ import annotations

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))

from documentation.application import ask
from documentation.examples import pages, refresh
from documentation.pictures import pictures

if __name__ == "__main__":
    for page in pages():
        if refresh(page, ask):
            print(f"refreshed {page.name}")
        for picture in pictures(page):
            if picture.refresh(ask):
                print(f"drew {picture.place}")
