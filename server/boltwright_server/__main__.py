"""`python -m boltwright_server`: serves on the embedded default."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence


def main(arguments: Sequence[str] | None = None) -> int:
    """Start the service; returns the exit code."""
    parser = argparse.ArgumentParser(prog="boltwright_server", description="Serve Boltwright over HTTP.")
    parser.add_argument("--host", default="127.0.0.1", help="address to listen on (default: loopback only)")
    parser.add_argument("--port", type=int, default=8765)
    parser.add_argument("--workers", type=int, default=2, help="worker processes")
    parser.add_argument("--threads", type=int, default=32, help="threads of a worker")
    parser.add_argument("--log-requests", action="store_true", help="write a JSON line for each request to stdout")
    options = parser.parse_args(arguments)
    try:
        from .web.serve import serve
    except ModuleNotFoundError as missing:
        print(f"{missing.name} is not installed: pip install 'boltwright[server]'", file=sys.stderr)
        return 1
    return serve(options.host, options.port, options.workers, options.threads, options.log_requests)


if __name__ == "__main__":
    sys.exit(main())
