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
    parser.add_argument("--host", type=_host, default="127.0.0.1", help="address to listen on (default: loopback only)")
    parser.add_argument("--port", type=_port, default=8765, help="port, 0 for any free one (default: 8765)")
    parser.add_argument("--workers", type=_count, default=2, help="worker processes")
    parser.add_argument("--threads", type=_count, default=32, help="threads of a worker")
    parser.add_argument("--log-requests", action="store_true", help="write a JSON line for each request to stdout")
    parser.add_argument("--standards", type=Path, metavar="DIR", help="directory of the plant's own standards")
    parser.add_argument(
        "--limit",
        action="append",
        default=[],
        metavar="NAME=VALUE",
        help="one of the limits of docs/operation.md",
    )
    options = parser.parse_args(arguments)
    try:
        from .serving.serve import serve
        from .web.http.limits import VARIABLE, BadLimit, limits_from
    except ModuleNotFoundError as missing:
        print(f"{missing.name} is not installed: pip install 'boltwright[server]'", file=sys.stderr)
        return 1
    try:
        limits = limits_from([*filter(None, os.environ.get(VARIABLE, "").split(",")), *options.limit])
    except BadLimit as error:
        parser.error(f"--limit: {error}")
    directory = options.standards or os.environ.get("BOLTWRIGHT_STANDARDS")
    if directory and not _may_be_served(Path(directory)):
        return 2
    return serve(
        options.host, options.port, options.workers, options.threads, options.log_requests, options.standards, limits
    )


def _host(text: str) -> str:
    if not text.strip():
        raise argparse.ArgumentTypeError("is empty; name an address, such as 127.0.0.1, or 0.0.0.0 for all")
    return text.strip()


def _port(text: str) -> int:
    if not (text.isascii() and text.isdigit() and int(text) <= 65535):
        raise argparse.ArgumentTypeError(f"{text!r} is no port; send 0 to 65535")
    return int(text)


def _count(text: str) -> int:
    if not (text.isascii() and text.isdigit() and 1 <= int(text) <= 1024):
        raise argparse.ArgumentTypeError(f"{text!r}: send a whole number from 1 to 1024")
    return int(text)


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
