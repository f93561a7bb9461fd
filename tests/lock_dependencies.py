"""Pins every dependency with its hashes: `python tests/lock_dependencies.py` (add `--upgrade` to move to newer ones).

Writes server/lock.txt (what the service needs) and tests/lock.txt (what contributors need) from pyproject.toml. Both
hold plain names, versions and hashes, and no address of a package index; the tests check that.
"""

from __future__ import annotations

import subprocess
import sys
import tomllib
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
LOCKS = {"server/lock.txt": "server", "tests/lock.txt": "dev"}
#: What an editable install needs beside the build backend; hatchling asks for it at build time only.
_EDITABLE = "editables"


def main(options: list[str]) -> int:
    """Write both locks; returns the exit code."""
    with (ROOT / "pyproject.toml").open("rb") as file:
        backend = tomllib.load(file)["build-system"]["requires"]
    for lock, extra in LOCKS.items():
        command = [sys.executable, "-m", "uv", "pip", "compile", "pyproject.toml", "-", "--extra", extra]
        command += ["--universal", "--python-version", "3.11", "--generate-hashes", "--no-header", "--no-annotate"]
        command += ["--quiet", "--output-file", lock, *options]
        done = subprocess.run(command, cwd=ROOT, input="\n".join([*backend, _EDITABLE]), text=True, check=False)
        if done.returncode:
            return done.returncode
        pinned = sum(not line.startswith(" ") for line in (ROOT / lock).read_text(encoding="utf-8").splitlines())
        print(f"{lock}: {pinned} packages")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
