"""The command `boltwright`: limits, fits, coatings, gauges, strengths, nuts, a specification, a verdict on readings.

Exit code: 0 done, or the lot is accepted, or the gauge is fit, or no part master is wrong; 1 the lot is rejected, or
the gauge is unfit, or a part master has an error; 2 the lot is incomplete, or a part master has a warning; 3 no answer,
and one sentence on the error output says why. BOLTWRIGHT_URL names the service, BOLTWRIGHT_API_KEY the key.
"""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Sequence
from typing import NoReturn

from ..client import Client
from ..errors import Error
from ..transport import __version__
from . import floor, gauge, impact, judge, look_ups, process, release, strength, substitutes, threads, validate

FAILED = 3
_DEFAULT_URL = "http://127.0.0.1:8765"


class _Parser(argparse.ArgumentParser):
    """A misspelt command is exit code 3 too: 2 means an incomplete lot."""

    def error(self, message: str) -> NoReturn:
        self.exit(FAILED, f"boltwright: {message}; see {self.prog} --help\n")


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; returns the exit code."""
    options = _parser().parse_args(arguments)
    try:
        with Client(options.url, os.environ.get("BOLTWRIGHT_API_KEY")) as client:
            result, text, code = options.run(client, options)
        told = result.body.decode() if options.json else text
        if told:
            print(told, flush=True)
    except BrokenPipeError:  # the reader, such as head, has seen enough
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return FAILED
    except OSError as error:
        return _failed(f"{error.filename}: {error.strerror}" if error.filename else str(error))
    except (Error, ValueError) as error:
        return _failed(str(error))
    except KeyboardInterrupt:
        return FAILED
    return int(code)


def _failed(sentence: str) -> int:
    print(f"boltwright: {sentence}", file=sys.stderr)
    return FAILED


def _parser() -> argparse.ArgumentParser:
    shared = argparse.ArgumentParser(add_help=False)
    url = os.environ.get("BOLTWRIGHT_URL") or _DEFAULT_URL
    shared.add_argument("--url", default=url, help="the service (default: BOLTWRIGHT_URL, else %(default)s)")
    shared.add_argument("--json", action="store_true", help="print the service's answer as it came, in JSON")
    parser = _Parser(
        prog="boltwright",
        description="Limits of threaded fasteners, and the verdict on a file of readings.",
        epilog="The figures support, and do not replace, the current edition of the standard, the purchase order, "
        "local codes and the judgement of a qualified person.",
    )
    parser.add_argument("--version", action="version", version=f"boltwright {__version__}")
    commands = parser.add_subparsers(required=True, metavar="command")
    look_ups.add_to(commands, shared)
    threads.add_to(commands, shared)
    gauge.add_to(commands, shared)
    strength.add_to(commands, shared)
    substitutes.add_to(commands, shared)
    judge.add_to(commands, shared)
    process.add_to(commands, shared)
    validate.add_to(commands, shared)
    impact.add_to(commands, shared)
    release.add_to(commands, shared)
    floor.add_to(commands, shared)
    return parser
