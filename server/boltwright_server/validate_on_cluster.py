"""Validates a catalogue of part masters on a Dask cluster.

    python -m boltwright_server.validate_on_cluster catalogue.csv findings.ndjson --workers 2
    python -m boltwright_server.validate_on_cluster catalogue.ndjson findings.ndjson --scheduler tcp://127.0.0.1:8786

Without a scheduler a cluster of processes is started on this machine, on the loopback, and stopped in the end. Writes
one result a line in the order of the rows and the summary as the last line, as `POST /v1/part-masters/validation` does.
"""

from __future__ import annotations

import argparse
import sys
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import ExitStack, contextmanager
from functools import partial
from itertools import islice
from pathlib import Path
from typing import IO, TYPE_CHECKING, Any

from .part_masters.catalogue.batches import validate_batch, validate_cells
from .part_masters.catalogue.cluster import validate_on_cluster
from .part_masters.catalogue.columns import Columns, validated_members
from .part_masters.catalogue.csv_rows import open_table
from .part_masters.catalogue.validation import Result
from .products.own import add_own_standards
from .standards.fingerprint import fingerprint
from .web.part_masters.row_streams import ENCODER, lines_of, row_of
from .web.part_masters.validation_stream import result_shown

if TYPE_CHECKING:
    from distributed import Client

_BATCH = 2000
Work = tuple[Callable[[list[Any], int], list[Result]], Iterator[list[Any]]]


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the job; returns the exit code."""
    options = _parser().parse_args(arguments)
    with ExitStack() as stack:
        source = stack.enter_context(options.catalogue.open("rb"))
        client = stack.enter_context(cluster(options.scheduler, options.workers))
        if options.standards is not None:
            serve_own_standards(client, options.standards)
        read = _csv if options.catalogue.suffix.lower() == ".csv" else _ndjson
        validate, batches = read(source, options.batch)
        with options.findings.open("wb") as out:
            summary = write(validate_on_cluster(client, validate, batches), out)
    print(f"{summary['rows']} rows: {summary['statuses']}")
    return 0


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(description="Validates a catalogue of part masters on a Dask cluster.")
    parser.add_argument("catalogue", type=Path, help="CSV, or NDJSON with one row a line")
    parser.add_argument("findings", type=Path, help="NDJSON: one result a line, the summary as the last line")
    parser.add_argument("--scheduler", help="address of a running cluster, as tcp://127.0.0.1:8786")
    parser.add_argument(
        "--workers", type=_count, default=2, help="processes on this machine, where no cluster is named"
    )
    parser.add_argument("--batch", type=_count, default=_BATCH, help=f"rows that travel together (default: {_BATCH})")
    parser.add_argument("--standards", type=Path, help="directory of a plant's own standards, there on every worker")
    return parser


def _count(text: str) -> int:
    number = int(text)
    if number < 1:
        raise argparse.ArgumentTypeError("is at least 1")
    return number


@contextmanager
def cluster(scheduler: str | None, workers: int) -> Iterator[Client]:
    """Connect to a cluster, or start one of processes on the loopback; it is stopped in the end."""
    import distributed

    dask: Any = distributed  # it carries types in part only
    with ExitStack() as stack:
        address: Any = scheduler
        if scheduler is None:
            local = dask.LocalCluster(
                n_workers=workers, threads_per_worker=1, processes=True, host="127.0.0.1", dashboard_address=None
            )
            address = stack.enter_context(local)
        yield stack.enter_context(dask.Client(address))


def serve_own_standards(client: Client, directory: Path) -> None:
    """Serve a plant's own standards here and on every worker, on those that come later too.

    Raises:
        BadFacts: a folder that may not be served.
    """
    import distributed

    place = str(directory.resolve())
    plugin: Any = distributed.WorkerPlugin

    class OwnStandards(plugin):  # type: ignore[misc]
        name = "boltwright-own-standards"

        def setup(self, worker: Any) -> None:
            add_own_standards(Path(place))

    add_own_standards(directory)
    client.register_plugin(OwnStandards())


def write(results: Iterable[Result], out: IO[bytes]) -> dict[str, Any]:
    """Write results as NDJSON with the summary as the last line; returns the summary."""
    statuses: Counter[str] = Counter()
    codes: Counter[str] = Counter()
    for one in results:
        out.write(ENCODER.encode(result_shown(one)) + b"\n")
        statuses[one.status] += 1
        codes.update({finding.code for finding in one.findings})
    summary = {"rows": statuses.total(), "statuses": dict(statuses), "codes": dict(codes)}
    out.write(ENCODER.encode({"summary": summary, "fingerprint": fingerprint()}) + b"\n")
    return summary


def _csv(source: IO[bytes], size: int) -> Work:
    columns = Columns(validated_members())
    table = open_table(source, None, None, columns.knows)
    if table is None:
        sys.exit("the CSV text holds no header line")
    columns.see(tuple(table.titles))
    if not columns.read:
        sys.exit(f"no column is known; the titles are {', '.join(map(repr, table.titles[:12]))}")
    for title, nearest in columns.unread:
        print(f"column not read: {title}" + (f" (nearest: {nearest})" if nearest else ""), file=sys.stderr)
    return partial(validate_cells, table.titles), _batches(table.rows, size)


def _ndjson(source: IO[bytes], size: int) -> Work:
    return validate_batch, _batches((row_of(line) for line in lines_of(source)), size)


def _batches(rows: Iterable[Any], size: int) -> Iterator[list[Any]]:
    """Yield lists of rows that follow one another."""
    each = iter(rows)
    while batch := list(islice(each, size)):
        yield batch


if __name__ == "__main__":
    sys.exit(main())
