"""A catalogue on many machines: batches on the workers of a Dask cluster, repeats where the job runs.

Needs the extra `cluster`. Every worker needs Boltwright in the same version: it brings tables and lexicon with it.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Iterable, Iterator
from typing import TYPE_CHECKING, Any, TypeVar

from ..repeats.repeats import Repeats
from .batches import with_repeats
from .validation import Result

if TYPE_CHECKING:
    from distributed import Client

Batch = TypeVar("Batch")
#: Batches on their way for each worker: none waits for work, and memory stays bounded.
_FOR_EACH_WORKER = 3


def validate_on_cluster(
    client: Client, validate: Callable[[list[Any], int], list[Result]], batches: Iterable[list[Any]]
) -> Iterator[Result]:
    """Yield the result of every row, in order, as one `Validator` would return them.

    `validate` gets a batch and the number of its first row: `batches.validate_batch`, or a partial of
    `batches.validate_cells`. A batch whose worker is lost is done again by the scheduler.
    """
    with Repeats() as repeats:
        yield from with_repeats(_results(client, validate, batches), repeats)


def _results(
    client: Client, validate: Callable[[list[Any], int], list[Result]], batches: Iterable[list[Any]]
) -> Iterator[Result]:
    most = _FOR_EACH_WORKER * max(1, len(client.scheduler_info()["workers"]))
    sent: deque[Any] = deque()
    first_row = 0
    for batch in batches:
        sent.append(client.submit(validate, batch, first_row, pure=False))
        first_row += len(batch)
        if len(sent) >= most:
            yield from sent.popleft().result()
    while sent:
        yield from sent.popleft().result()
