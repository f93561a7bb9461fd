"""One citation of a standard: service and client join number and edition alike, as the body that publishes it does."""

from __future__ import annotations

import pytest

from boltwright.values import Basis
from boltwright.values import cited as cited_by_client
from boltwright_server.quantities import cited
from boltwright_server.standards import all_standards


@pytest.mark.parametrize(
    ("standard", "edition", "text"),
    [
        # Title pages: ISO and DIN EN write a colon, ASME and ASTM a dash.
        ("ISO 4014", "2011", "ISO 4014:2011"),
        ("ASME B18.2.1", "2012", "ASME B18.2.1-2012"),
        ("ASTM F3125", "2015", "ASTM F3125-2015"),
        # An edition without a year is told in brackets.
        ("ASTM A325", "before 2016", "ASTM A325 (before 2016)"),
        ("threaded rod", "as ordered", "threaded rod (as ordered)"),
        ("ISO 6157-1", "edition in force", "ISO 6157-1 (edition in force)"),
        ("common practice", "-", "common practice"),
        ("WN 4711", "3", "WN 4711:3"),
    ],
)
def test_service_and_client_cite_alike(standard: str, edition: str, text: str) -> None:
    assert (cited(standard, edition), cited_by_client(standard, edition)) == (text, text)


def test_every_standard_that_is_held_is_cited_alike() -> None:
    for one in all_standards():
        basis = Basis(standard=one.id, edition=one.edition, clause="", method="tabulated", checked="memory")
        assert one.cited == basis.cited
