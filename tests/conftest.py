"""What every test may ask for: the application, a client of it, and a service that really runs."""

from collections.abc import Iterator

import pytest
from flask import Flask
from flask.testing import FlaskClient
from hypothesis import settings
from running_server import RunningServer, ready_options, running_server

from boltwright_server.web.app import create_app

# The same examples in every run: a red build means that the change is at fault. No deadlines: speed is not tested here.
settings.register_profile("boltwright", derandomize=True, deadline=None)
settings.load_profile("boltwright")


@pytest.fixture(scope="session")
def application() -> Flask:
    return create_app()


@pytest.fixture
def client(application: Flask) -> FlaskClient:
    return application.test_client()


@pytest.fixture(scope="session")
def server() -> Iterator[RunningServer]:
    with running_server(*ready_options()) as running:
        yield running
