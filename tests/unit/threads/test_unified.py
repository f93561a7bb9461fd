"""Sizes, classes and designations of Unified threads.

ASME B1.1: the series table as handbooks print it; the traps of inch designations are common practice.
"""

from decimal import Decimal

import pytest

from boltwright_server.designations import parse_thread
from boltwright_server.quantities import Contradiction, NotStandardised, NotUnderstood, Refusal, UnknownName
from boltwright_server.threads import UnifiedClass, UnifiedSize, limits
from boltwright_server.threads.unified import classes, sizes

#: As written -> canonical. Screw numbers, fractions, decimals, series left out, UNR, hand, engagement.
WRITTEN = {
    "1/4-20 UNC-2A": "1/4-20 UNC-2A",
    ".250-20": "1/4-20 UNC",
    "0.2500-20UNC-2A": "1/4-20 UNC-2A",
    "0,25 - 20 unc - 2a": "1/4-20 UNC-2A",
    '1/4"-20 UNC-2A': "1/4-20 UNC-2A",
    "1-1/2″ - 6 UNC 3A": "1 1/2-6 UNC-3A",
    "#8-32 UNC-2B": "#8-32 UNC-2B",
    "8-32": "#8-32 UNC",
    "# 8-32": "#8-32 UNC",
    "10-24": "#10-24 UNC",
    "0-80": "#0-80 UNF",
    "1/8-40": "#5-40 UNC",
    "1 1/2-6 UNC-3A-LH": "1 1/2-6 UNC-3A-LH",
    "1-1/2-6 UNC 3A LH": "1 1/2-6 UNC-3A-LH",
    "1-1/2-8 UN-2A": "1 1/2-8 UN-2A",
    "1 1/8 - 8 UN - 2A": "1 1/8-8 UN-2A",
    "2-4 1/2 UNC-2A": "2-4.5 UNC-2A",
    "2-4.5-UNC-2A": "2-4.5 UNC-2A",
    "1-8 UN-2A": "1-8 UNC-2A",
    "3/4-16 UN-3B": "3/4-16 UNF-3B",
    "1-12": "1-12 UNF",
    "1-14": "1-14 UNS",
    "4-4": "4-4 UNC",
    "4-40": "#4-40 UNC",
    "6-32": "#6-32 UNC",
    "6-12": "6-12 UN",
    "1-64": "#1-64 UNC",
    ".312-18": "5/16-18 UNC",
    ".313-18": "5/16-18 UNC",
    "1/4-20 UNRC-2A": "1/4-20 UNRC-2A",
    "1/2-20 UNRF-3A": "1/2-20 UNRF-3A",
    "1-1/2-8 UNR-2A": "1 1/2-8 UNR-2A",
    "10-32 UNF-2A/2B": "#10-32 UNF-2B/2A",
    "19/64-36 UNS-2A": "19/64-36 UNS-2A",
    ".2969-36 UNS-2A": "19/64-36 UNS-2A",
    ".2400-40 UNS-2A": "0.2400-40 UNS-2A",
    "1/2-24 UNS-2A LE 1.50": "1/2-24 UNS-2A-LE 1.5",
    "1/2-24 UNS-2A-LH-LE .75 in": "1/2-24 UNS-2A-LE 0.75-LH",
}


@pytest.mark.parametrize("written", WRITTEN)
def test_a_designation_is_read_and_written_canonically(written: str) -> None:
    thread = parse_thread(written)
    assert thread.canonical == WRITTEN[written]
    assert parse_thread(thread.canonical) == thread


#: As written -> the refusal and words of its sentence.
REFUSED: dict[str, tuple[type[Refusal], str]] = {
    "1/2-12 UNC-2A": (UnknownName, "lists 1/2-12 as UNS, not UNC"),
    "1-14 UNF-2A": (UnknownName, "lists 1-14 as UNS, not UNF"),
    "1-14 UN-2A": (UnknownName, "as UNS, not UN"),
    "1/2-15": (UnknownName, "write UNS"),
    "#7-32": (UnknownName, "no screw number #7"),
    "1/0-20": (NotUnderstood, "divides by zero"),
    "4-36 UNS-2A": (NotUnderstood, "write #4-36 or 4.000-36"),
    "1/2-13 UNC-4A": (NotUnderstood, "a class such as 2A"),
    "1/2-13 UNC-2A/3A": (NotUnderstood, "an internal and an external class"),
    "1/2-0": (NotUnderstood, "more than 0 threads"),
    "1/4-4 UNS-2A": (NotStandardised, "half the diameter"),
    "7-4 UNS-2A": (NotStandardised, "0.060 to 6 in"),
    "1/2-13 UNC-2A-LH-LH": (NotUnderstood, "once each"),
    "1/2-13 UNC-2A-LE 0": (NotUnderstood, "more than 0"),
}


@pytest.mark.parametrize("written", REFUSED)
def test_what_is_wrong_is_said(written: str) -> None:
    kind, words = REFUSED[written]
    with pytest.raises(kind, match=words) as caught:
        parse_thread(written)
    assert caught.value.member == "designation"


@pytest.mark.parametrize(
    ("written", "kind"),
    [
        ("1-8 UNC-1A", None),
        ("1/4-28 UNF-1B", None),
        ("#10-24 UNC-1A", NotStandardised),  # 1A and 1B begin at 1/4 in
        ("1-20 UNEF-1A", NotStandardised),
        ("1 1/2-8 UN-1B", NotStandardised),
        ("1/4-20 UNRC-2B", Contradiction),  # UNR is an external form
    ],
)
def test_not_every_class_exists_for_every_size(written: str, kind: type[Refusal] | None) -> None:
    thread = parse_thread(written)
    if kind is None:
        limits(thread.size, thread.classes[0])
        return
    with pytest.raises(kind):
        limits(thread.size, thread.classes[0])


def test_a_metric_class_does_not_fit_an_inch_size() -> None:
    with pytest.raises(Contradiction, match=r"6g is a class of ISO metric threads; 1/2-13 UNC is Unified inch"):
        limits(parse_thread("1/2-13").size, parse_thread("M10-6g").classes[0])


def test_the_series_end_where_the_standard_ends_them() -> None:
    """UNC from #1 to 4 in, UNF from #0 to 1 1/2, UNEF from #12 to 1 11/16, constant pitch to 6 in (handbook tables)."""
    by_series: dict[str, list[Decimal]] = {}
    for size in sizes():
        by_series.setdefault(size.series, []).append(size.d)
    ends = {series: (min(found), max(found)) for series, found in by_series.items()}
    assert ends["UNC"] == (Decimal("0.0730"), 4)
    assert ends["UNF"] == (Decimal("0.0600"), Decimal("1.5"))
    assert ends["UNEF"] == (Decimal("0.2160"), Decimal("1.6875"))
    assert {series: end for series, (_, end) in ends.items() if series in ("4-UN", "8-UN", "16-UN")} == {
        "4-UN": 6,
        "8-UN": 6,
        "16-UN": 6,
    }
    assert len(by_series["UNC"]) == 33
    assert len(by_series["UNF"]) == 24
    assert len(by_series["UNEF"]) == 25


def test_every_size_and_class_of_the_plan_has_limits_and_reads_itself() -> None:
    for size in sizes():
        for wanted in classes(size):
            thread = parse_thread(f"{size.designation}-{wanted.designation}")
            assert (thread.size, thread.classes) == (size, (wanted,))
            found = limits(size, wanted)
            _check_sense(found.limits, wanted)


def _check_sense(found: dict[str, object], wanted: UnifiedClass) -> None:
    pitch, major, minor = (found[f"{name}_diameter"] for name in ("pitch", "major", "minor"))
    if wanted.member == "external":
        assert minor.max < pitch.min < pitch.max < major.min < major.max  # type: ignore[attr-defined]
    else:
        assert minor.min < minor.max <= pitch.max < major.min  # type: ignore[attr-defined]
        assert minor.max < major.min  # type: ignore[attr-defined]


def test_a_size_knows_its_names() -> None:
    size = parse_thread("1 1/2-8 UNR-2A").size
    assert isinstance(size, UnifiedSize)
    assert (size.name, size.short, size.series, size.series_symbol) == ("1 1/2", "1 1/2-8", "8-UN", "UNR")
    assert size.pitch == Decimal("0.12500000")
