"""`--standards DIR`: a made-up standard becomes look-ups, specification, conformance and part masters without code."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from own_standards import SIZES, STANDARD, write_standard
from running_server import RunningServer, environment, running_server

from boltwright import Client
from boltwright.errors import NotFoundError

SCREW = "WN 4711 - M10x60 - 8.8"


@pytest.fixture(scope="module")
def plant(tmp_path_factory: pytest.TempPathFactory) -> Iterator[RunningServer]:
    """A service with the plant's own standard, and with its own later edition of ISO 4017."""
    directory = write_standard(tmp_path_factory.mktemp("standards"))
    later = STANDARD.replace('"WN 4711"', '"ISO 4017"').replace('"3"', '"2099"')
    write_standard(directory, folder="iso_4017_2099", standard=later)
    with running_server("--standards", str(directory)) as started:
        yield started


@pytest.fixture
def client(plant: RunningServer) -> Iterator[Client]:
    with Client(plant.url) as client:
        yield client


def test_it_is_listed_as_the_plants_own(client: Client) -> None:
    found = {(one.id, one.edition): one for one in client.standards().standards}
    assert found["WN 4711", "3"].own
    assert found["WN 4711", "3"].current
    assert not found["ISO 4017", "2014"].own
    assert "WN 4711" in [one.product for one in client.products().products]


def test_dimensions_and_specification_name_it_as_their_basis(client: Client) -> None:
    head = client.product_dimensions("WN 4711", "M10", 60).dimensions["head_height"]
    assert (head.min, head.max) == (8.22, 8.58)
    assert (head.basis.standard, head.basis.edition, head.basis.checked) == ("WN 4711", "3", "original")
    found = client.specification("wn4711-M10x60-8.8")
    assert found.designation == SCREW
    assert found.characteristics["tensile_load"].limits.min == 46400
    assert "Colour of the box: not judged." in found.not_covered


def test_readings_are_judged_by_it(client: Client) -> None:
    verdicts = client.conformance(SCREW, {"head_height": [8.22, 8.59]}).characteristics["head_height"]
    assert (verdicts.verdict, verdicts.nonconforming_pieces) == ("nonconforming", (1,))


def test_the_impact_of_another_edition_that_is_held(client: Client) -> None:
    """Head height at M10: ISO 4017:2014 6.22 to 6.58 mm, the made-up edition 8.22 to 8.58 mm; 1999 is not held."""
    rows = [{"description": "ISO 4017 M10x40 8.8"}, {"description": "ISO 4017 M20x40 8.8"}]
    found = client.part_masters_impact("ISO 4017:2014", "ISO 4017:2099", rows).part_masters
    head = next(one for one in found[0].differences if one.id == "head_height")
    assert head.before is not None
    assert head.after is not None
    assert (head.before.max, head.after.max, head.direction, head.meets) == (6.58, 8.58, "larger", False)
    assert found[0].to_designation == "ISO 4017:2099 - M10x40 - 8.8"
    assert found[1].effect == "no_counterpart"
    (back,) = client.part_masters_impact("ISO 4017:2099", "ISO 4017", rows[:1]).part_masters
    assert next(one for one in back.differences if one.id == "head_height").direction == "smaller"
    (unheld,) = client.part_masters_impact("ISO 4017:1999", "ISO 4017", rows[:1]).part_masters
    assert unheld.effect == "not_judged"
    assert "2014 and 2099, not 1999" in unheld.reasons[0]


def test_a_built_in_standard_is_never_hidden(client: Client) -> None:
    """The plant's later edition answers only where it is named; the canonical text then names it too."""
    built_in = client.specification("ISO 4017 - M10x60 - 8.8")
    assert built_in.characteristics["head_height"].limits.min == 6.22
    later = client.specification("ISO 4017:2099 - M10x60 - 8.8")
    assert later.designation == "ISO 4017:2099 - M10x60 - 8.8"
    assert later.characteristics["head_height"].limits.min == 8.22
    with pytest.raises(NotFoundError) as refused:
        client.specification("ISO 4017:1999 - M10x60 - 8.8")
    assert set(refused.value.nearest) == {"ISO 4017:2014", "ISO 4017:2099"}


def test_the_fingerprint_tells_the_two_services_apart(client: Client, server: RunningServer) -> None:
    with Client(server.url) as plain:
        assert plain.units().fingerprint != client.units().fingerprint


def test_a_bad_folder_stops_the_start_with_file_and_row(tmp_path: Path) -> None:
    write_standard(tmp_path, sizes=SIZES.replace("8.22", "8,22", 1))
    command = [sys.executable, "-m", "boltwright_server", "--port", "0", "--standards", str(tmp_path)]
    ended = subprocess.run(command, capture_output=True, text=True, timeout=60, env=environment(), check=False)
    assert ended.returncode == 2
    assert "wn_4711_3/sizes.csv, row 3" in ended.stderr
    assert "Traceback" not in ended.stderr


@pytest.mark.parametrize(
    "text",
    [
        "SCREW WN 4711 M10X60 8.8 ZN",
        "HEX SCREW M10x60 WN4711 - 8.8",
        "WN-4711-M10-60-8.8",
        "8.8 M10X60 Schraube wn 4711",
    ],
)
def test_free_text_names_it(client: Client, text: str) -> None:
    (row,) = client.part_masters_validation([{"description": text}]).part_masters
    assert (row.designation, list(row.left_over)) == (SCREW, [])


def test_another_number_of_the_plant_is_not_taken_for_it(client: Client) -> None:
    (row,) = client.part_masters_validation([{"description": "SCREW WN 4712 M10X60 8.8"}]).part_masters
    assert row.designation is None
