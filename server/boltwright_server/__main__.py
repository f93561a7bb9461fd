"""`python -m boltwright_server`: serves on the embedded default."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Sequence
from pathlib import Path


def main(arguments: Sequence[str] | None = None) -> int:
    """Start the service; returns the exit code."""
    parser = argparse.ArgumentParser(prog="boltwright_server", description="Serve Boltwright over HTTP.")
    parser.add_argument("--host", default="127.0.0.1", help="address to listen on (default: loopback only)")
    parser.add_argument("--port", type=int, default=8765)
    parser.add_argument("--workers", type=int, default=2, help="worker processes")
    parser.add_argument("--threads", type=int, default=32, help="threads of a worker")
    parser.add_argument("--log-requests", action="store_true", help="write a JSON line for each request to stdout")
    parser.add_argument("--standards", type=Path, metavar="DIR", help="directory of the plant's own standards")
    options = parser.parse_args(arguments)
    try:
        from .web.serve import serve
    except ModuleNotFoundError as missing:
        print(f"{missing.name} is not installed: pip install 'boltwright[server]'", file=sys.stderr)
        return 1
    directory = options.standards or os.environ.get("BOLTWRIGHT_STANDARDS")
    if directory and not _may_be_served(Path(directory)):
        return 2
    return serve(options.host, options.port, options.workers, options.threads, options.log_requests, options.standards)


def _may_be_served(directory: Path) -> bool:
    """Refuse a bad folder before anything listens; what was read is read again by the service itself."""
    from .products.own import checked
    from .standards import BadFacts

    try:
        checked(directory)
    except BadFacts as error:
        print(f"standards refused: {error}", file=sys.stderr)
        return False
    return True


if __name__ == "__main__":
    sys.exit(main())
