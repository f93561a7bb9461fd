"""A body that does not come whole is refused, never judged as a smaller one; no fault of a client is a 5xx.

Bounded, on the loopback. `pytest tests/faults/test_cut_bodies.py --cuts 1000` cuts more.
"""

import gzip
import json

import pytest
from running_server import RunningServer

from . import malformed_chunks
from .cut_bodies import BULK, Body, Cut, bodies, cuts_at_seams, cuts_of, message, send, status

CHUNKS = malformed_chunks.messages()
FORMS = {f"{one.path} {one.media_type}{' gzip' if one.zipped else ''}": one for one in bodies()}


def told(cut: Cut) -> str:
    body = cut.body
    packed = " gzip" if body.zipped else ""
    return f"{body.path} {body.media_type}{packed}, {cut.at} of {len(body.content)} bytes, length {cut.announced}"


def answer(server: RunningServer, cut: Cut) -> bytes:
    return send(server.host, server.port, message(cut))


@pytest.mark.parametrize("form", FORMS)
def test_whole_bodies_are_taken(logged_server: RunningServer, form: str) -> None:
    """Else a refusal of a cut one would say nothing."""
    body = FORMS[form]
    whole = answer(logged_server, Cut(body, len(body.content), "full"))
    assert status(whole) == 200, whole[:600]


def test_no_cut_body_is_taken_for_a_shorter_one(logged_server: RunningServer, cuts: int) -> None:
    all_refused(logged_server, list(cuts_of(list(FORMS.values()), cuts)))


@pytest.mark.parametrize("form", FORMS)
def test_no_part_that_looks_whole_is_taken(logged_server: RunningServer, form: str) -> None:
    all_refused(logged_server, cuts_at_seams([FORMS[form]]))


def all_refused(server: RunningServer, wanted: list[Cut]) -> None:
    found = [(cut, status(answer(server, cut))) for cut in wanted]
    accepted = [told(cut) for cut, code in found if cut.must_be_refused and code is not None and code < 400]
    failed = [f"{code}: {told(cut)}" for cut, code in found if code is not None and code >= 500]
    silent = [told(cut) for cut, code in found if code is None]
    lines = "\n".join([*accepted, "--- 5xx:", *failed, "--- closed without an answer:", *silent])
    assert (len(accepted), len(failed), len(silent)) == (0, 0, 0), f"of {len(found)} cuts\n{lines}"


@pytest.mark.parametrize("form", [name for name, one in FORMS.items() if not one.zipped and one.path != BULK])
def test_a_coding_of_the_content_is_undone_or_refused_by_name(logged_server: RunningServer, form: str) -> None:
    """RFC 9110, 8.4: 415 is the answer to a content coding that is not taken."""
    one = FORMS[form]
    packed = Body(one.path, one.media_type, gzip.compress(one.content, mtime=0), ends_itself=True, zipped=True)
    assert status(answer(logged_server, Cut(packed, len(packed.content), "full"))) in (200, 415)


@pytest.mark.parametrize("form", [name for name, one in FORMS.items() if "x-ndjson" in name and not one.zipped])
def test_a_line_that_is_cut_is_told(logged_server: RunningServer, form: str) -> None:
    """Where the length that was announced is that of the part, the last line alone says that something is missing."""
    body = FORMS[form]
    whole = answer(logged_server, Cut(body, len(body.content) - 12, "short"))
    told_in_its_row = status(whole) == 200 and b'"severity":"error"' in whole.replace(b" ", b"")
    assert told_in_its_row or status(whole) in (400, 422), whole[-600:]


@pytest.mark.parametrize("form", [name for name in FORMS if "json" in name.split()[1] or "arrow" in name])
@pytest.mark.parametrize("tail", [b"\x00", b"{}", b"garbage", b'{"readings": {"length": [1.0]}}'])
def test_bytes_behind_the_end_are_refused(logged_server: RunningServer, form: str, tail: bytes) -> None:
    one = FORMS[form]
    if not one.ends_itself or (one.zipped and tail == b"\x00"):
        pytest.skip("further lines are further rows, and gzip may be padded with zeros")
    longer = Body(one.path, one.media_type, one.content + tail, one.ends_itself, one.zipped)
    code = status(answer(logged_server, Cut(longer, len(longer.content), "full")))
    assert code in (400, 422), code


def test_well_formed_chunks_are_taken(logged_server: RunningServer) -> None:
    assert status(send(logged_server.host, logged_server.port, malformed_chunks.well_formed())) == 200


@pytest.mark.parametrize("kind", CHUNKS)
def test_malformed_chunks_are_refused_and_are_no_error_of_the_service(logged_server: RunningServer, kind: str) -> None:
    said = send(logged_server.host, logged_server.port, CHUNKS[kind])
    code = status(said)
    proper = {None, *range(400, 500), *((501,) if kind in malformed_chunks.UNKNOWN_CODING else ())}
    if kind in malformed_chunks.LENIENT and code == 200:
        _, _, text = said.partition(b"\r\n\r\n")
        assert json.loads(text)["characteristics"]["width_across_flats"]["count"] == 2
    else:
        assert code in proper, said[:600]


def test_the_service_lives_after_all_that(logged_server: RunningServer) -> None:
    assert status(send(logged_server.host, logged_server.port, malformed_chunks.well_formed())) == 200
