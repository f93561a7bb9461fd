"""The pandas helper: one row for each, with the frame's own index. ISO 4014:2011, Table 1: M10, s 15.73 to 16.00 mm."""

from __future__ import annotations

import pytest

from boltwright import Client

pandas = pytest.importorskip("pandas", reason="the extra `frames` is not installed")


def test_a_frame_comes_back_with_its_index(client: Client) -> None:
    from boltwright.frames import validate_frame

    frame = pandas.DataFrame(
        {
            "part_number": [100, 200, 300, 400],
            "description": ["ISO 4014 M10x60 8.8", "ISO 4014 M10x60 10.9", None, "VIS H M10x40 8.8"],
            "width across flats [mm]": [16.0, 17.5, float("nan"), float("nan")],
        },
        index=["a", "b", "c", "d"],
    )
    found = validate_frame(client, frame, batch=3)
    assert list(found.index) == ["a", "b", "c", "d"]
    assert list(found["status"]) == ["valid", "invalid", "unreadable", "questionable"]
    assert found.loc["a", "designation"] == "ISO 4014 - M10x60 - 8.8"
    assert found.loc["d", "designation"] is None
    assert found.loc["b", "codes"] == ("dimension-outside-limits",)
    assert found.loc["b", "findings"][0].given == "17.5 mm"
    assert list(frame.join(found).columns)[-2:] == ["codes", "findings"]


def test_an_empty_frame(client: Client) -> None:
    from boltwright.frames import validate_frame

    found = validate_frame(client, pandas.DataFrame({"part_number": []}))
    assert found.empty
    assert list(found.columns) == ["status", "designation", "confidence", "codes", "findings"]


def test_columns_that_are_not_read_are_told_and_none_is_lost(client: Client) -> None:
    from boltwright.frames import validate_frame

    frame = pandas.DataFrame([["ISO 4032 8", "M10", "M12", 99]], columns=["description", "thread", "thread", "threat"])
    back = validate_frame(client, frame)
    assert "attribute-contradicts-description" in back["codes"][0]
    assert back.attrs["columns_read"] == ["description", "thread"]
    assert back.attrs["columns_not_read"] == [{"title": "threat", "nearest": "thread"}]
