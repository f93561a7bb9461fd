"""A client of the service that runs for all tests."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from running_server import RunningServer

from boltwright import Client


@pytest.fixture(scope="session")
def service(server: RunningServer) -> str:
    return server.url


@pytest.fixture
def client(service: str) -> Iterator[Client]:
    with Client(service) as client:
        yield client
