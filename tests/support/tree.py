"""The source tree as it is handed over: files that git tracks, or all files where there is no git."""

from __future__ import annotations

import subprocess
from functools import cache
from pathlib import Path

ROOT = Path(__file__).parents[2]
SERVER = ROOT / "server" / "boltwright_server"
SDK = ROOT / "sdk" / "boltwright"
_MADE = {".venv", ".test-venv", ".environment", "__pycache__", "_build", "build", "dist", "node_modules"}


@cache
def tracked_files() -> tuple[Path, ...]:
    """Return every file that is or is about to be committed."""
    command = ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"]
    try:
        listed = subprocess.run(command, cwd=ROOT, capture_output=True, check=True).stdout.decode()
    except (OSError, subprocess.CalledProcessError):
        return tuple(path for path in sorted(ROOT.rglob("*")) if path.is_file() and not _MADE & set(path.parts))
    return tuple(path for name in listed.split("\0") if name and (path := ROOT / name).is_file())
