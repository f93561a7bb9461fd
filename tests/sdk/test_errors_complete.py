"""The SDK's errors are the service's problem types, all of them, and the tree is drawn as it is."""

from __future__ import annotations

import pickle
import re

import pytest

import boltwright.errors
from boltwright.errors import CLASS_OF_CODE, NotFoundError, Pointer, ProblemError, ServiceError, class_of
from boltwright_server.web.http.problems import PROBLEM_TYPES


def test_every_problem_type_of_the_service_has_its_class() -> None:
    wanting = PROBLEM_TYPES.keys() - CLASS_OF_CODE.keys()
    assert not wanting, f"add a line to CLASS_OF_CODE in sdk/boltwright/errors.py for {sorted(wanting)}"


def test_no_class_is_kept_for_a_code_that_the_service_does_not_have() -> None:
    assert not CLASS_OF_CODE.keys() - PROBLEM_TYPES.keys()


@pytest.mark.parametrize("code", PROBLEM_TYPES)
def test_the_class_fits_the_status(code: str) -> None:
    status, kind = PROBLEM_TYPES[code].status, CLASS_OF_CODE[code]
    assert (status == 404) is issubclass(kind, NotFoundError)
    assert (status >= 500) is issubclass(kind, ServiceError)


def test_the_tree_at_the_top_is_the_tree_of_the_classes() -> None:
    drawn = re.findall(r"^[│├└─ ]*(\w+)", boltwright.errors.__doc__ or "", re.M)
    depth_first: list[str] = []

    def walk(kind: type[Exception]) -> None:
        depth_first.append(kind.__name__)
        for inner in kind.__subclasses__():
            walk(inner)

    walk(boltwright.errors.Error)
    assert [name for name in drawn if name in vars(boltwright.errors)] == depth_first


@pytest.mark.parametrize(
    ("status", "wanted"),
    [(404, "NotFoundError"), (422, "InvalidRequestError"), (400, "BadRequestError"), (429, "RateLimitedError"),
     (500, "ServiceError"), (503, "ServiceError"), (409, "ProblemError")],
)  # fmt: skip
def test_a_code_of_a_newer_service_falls_back_on_its_status(status: int, wanted: str) -> None:
    assert class_of("code_of_the_future", status).__name__ == wanted


def test_a_problem_survives_the_way_to_another_process() -> None:
    error = NotFoundError(404, "unknown_size", "/t", "T", "no M11", (Pointer("/size", "c", "d"),), ("M10",), "id-1")
    copy = pickle.loads(pickle.dumps(error))
    assert isinstance(copy, NotFoundError)
    assert vars(copy) == vars(error)
    assert str(copy) == "no M11 (nearest: M10)"


def test_the_likeliest_comes_first_though_the_sentence_lists_it() -> None:
    """Leaving out what the sentence says made 08.8 the only one offered for 8.7."""
    refused = ProblemError(404, "unknown_property_class", detail="no 8.7: there are 6.8, 8.8", nearest=("8.8", "08.8"))
    assert str(refused) == "no 8.7: there are 6.8, 8.8 (nearest: 8.8, 08.8)"


def test_the_nearest_are_not_said_twice() -> None:
    assert str(ProblemError(404, "unknown_size", detail="no M11; nearest: M10", nearest=("M10",))) == (
        "no M11; nearest: M10"
    )
