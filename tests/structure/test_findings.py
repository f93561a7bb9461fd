"""Every code of the findings of part masters has its section with an example that raises it, and its page."""

import json
import re

import pytest
from flask.testing import FlaskClient
from tree import ROOT

from boltwright_server.part_masters.meaning.findings import CODES

PAGE = (ROOT / "docs" / "findings.md").read_text(encoding="utf-8")
SECTIONS = dict(re.findall(r"^## (\S+)\n(.*?)(?=^## |\Z)", PAGE, re.MULTILINE | re.DOTALL))
#: A cell of 600 characters, and cells that only CSV text has, are shown in words.
IN_WORDS = ("cell-too-long", "cells-do-not-fit")


def test_the_page_knows_every_code_and_no_other() -> None:
    assert list(SECTIONS) == list(CODES)


@pytest.mark.parametrize("code", CODES)
def test_a_section_says_severity_meaning_and_remedy(code: str) -> None:
    known = CODES[code]
    assert SECTIONS[code].strip().startswith(f"`{known.severity}`. {known.meaning} {known.remedy}")


@pytest.mark.parametrize("code", [code for code in CODES if code not in IN_WORDS])
def test_the_example_of_a_section_shows_its_code(code: str) -> None:
    """That the service answers so is what tests/docs says."""
    answer = json.loads(re.search(r"```json\n(.*?)```", SECTIONS[code], re.DOTALL)[1])
    assert answer["part_masters"][-1]["findings"][0]["code"] == code


@pytest.mark.parametrize("code", CODES)
def test_a_code_has_a_page_of_the_service(code: str, client: FlaskClient) -> None:
    page = client.get(f"/docs/findings/{code}")
    assert page.status_code == 200
    assert code in page.get_data(as_text=True)
    assert client.get("/docs/findings/no-such-code").status_code == 404


def test_openapi_lists_every_code_and_leads_to_its_page(client: FlaskClient) -> None:
    schema = client.get("/openapi.json").json["components"]["schemas"]["FindingAnswer"]["properties"]["code"]
    assert schema["enum"] == list(CODES)
    assert "/docs/findings/" in schema["description"]
