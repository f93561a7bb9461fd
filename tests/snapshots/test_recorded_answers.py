"""Same fingerprint and request, same bytes: recorded answers of every resource stay, or the fingerprint moves too.

A change that is meant: raise ENGINE_VERSION, `python tests/snapshots/recorded_answers.py`, and say in docs/changes what
moved.
"""

from flask import Flask
from flask.testing import FlaskClient
from recorded_answers import digests, moved, recorded


def test_no_answer_moved_since_it_was_recorded(client: FlaskClient) -> None:
    _, before = recorded()
    after = digests(client)
    assert not moved(before, after), "raise ENGINE_VERSION, record anew, and tell the change in docs/changes"
    assert set(before) == set(after), "requests came or went: record anew"


def test_every_resource_is_recorded(application: Flask) -> None:
    _, before = recorded()
    asked = {name.split()[1].split("?")[0] for name in before}
    served = {
        rule.rule
        for rule in application.url_map.iter_rules()
        if rule.rule.startswith("/v1/") and "<" not in rule.rule and not rule.rule.endswith(".svg")
    }
    assert served - asked <= {"/v1/conformance/replay"}, "a resource of which no answer is recorded"


def test_nearly_all_recorded_requests_are_answered() -> None:
    _, before = recorded()
    answered = sum(digest.startswith("200") for digest in before.values())
    assert answered >= 0.9 * len(before) >= 300
