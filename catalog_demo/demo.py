"""Runs an invented plant's part masters, gauges and lots through the SDK and writes a report.

    python catalog_demo/demo.py [--url http://127.0.0.1:8765]

Exit code 1 if a lot or a gauge is not as its file expects, 3 if the service gives no answer.
"""

from __future__ import annotations

import argparse
import csv
import os
import sys
import tomllib
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from every_finding import every_finding_section
from findings import findings_section
from gauge_room import gauge_section
from line import line_section
from shop_floor import shop_floor_section

from boltwright import Client, Conformance, Error, ProblemError, Specification
from boltwright.conformance.summary import characteristics_table
from boltwright.part_masters.part_masters_validation import PartMaster
from boltwright.readings_file import read_readings

HERE = Path(__file__).parent
HEAD = """# Tarnbeck works: part masters and lots

Tarnbeck works is invented, and so are its part masters, its lots and every reading below.
The limits and their sources are the service's. They support, and do not replace, the current edition of the
standard, the purchase order, local codes and the judgement of a qualified person."""


@dataclass(frozen=True)
class CheckedPart:
    """A row of part_masters.csv, what was found of it, and its specification where its product is certain."""

    row: dict[str, str]
    checked: PartMaster
    found: Specification | None
    refusal: str = ""

    @property
    def said(self) -> str:
        """What its owner should look at, in sentences."""
        sentences = [
            f"{one.detail} (expected: {one.expected})" if (one.expected or "") not in one.detail else one.detail
            for one in self.checked.findings
        ]
        if self.checked.alternatives:
            sentences.append(f"to choose from: {', '.join(self.checked.alternatives)}")
        return "; ".join(sentences) or self.refusal


@dataclass(frozen=True)
class JudgedLot:
    """A lot file with its verdict, or the sentence that says why there is none."""

    about: dict[str, Any]
    found: Conformance | None
    failure: str = ""

    @property
    def verdict(self) -> str:
        """accept, reject, incomplete, or none."""
        return self.found.verdict if self.found else "none"

    @property
    def as_expected(self) -> bool:
        """Whether the verdict is the lot file's."""
        return bool(self.verdict == self.about["expected_verdict"])


def check(client: Client, rows: Sequence[dict[str, str]]) -> list[CheckedPart]:
    """Hold all part masters against the standards, and fetch what each of them asks for."""
    return [_specified(client, row, one) for row, one in zip(rows, _validated(client, rows), strict=True)]


def _validated(client: Client, rows: Sequence[dict[str, str]]) -> tuple[PartMaster, ...]:
    """A title such as `width_across_flats [mm]` becomes a member with its unit."""
    sent: list[dict[str, Any]] = []
    for row in rows:
        titles = {title: title.rstrip("]").split(" [") for title in row}
        sent.append(
            {
                id: {"value": float(row[title]), "unit": unit[0]} if unit else row[title]
                for title, (id, *unit) in titles.items()
                if row[title]
            }
        )
    return client.part_masters_validation(sent).part_masters


def _specified(client: Client, row: dict[str, str], checked: PartMaster) -> CheckedPart:
    if checked.designation is None:
        return CheckedPart(row, checked, None)
    try:
        return CheckedPart(row, checked, client.specification(checked.designation))
    except ProblemError as error:
        return CheckedPart(row, checked, None, str(error))


def judge(client: Client, folder: Path) -> JudgedLot:
    """Judge one lot by its lot file and its readings."""
    about = tomllib.loads((folder / "lot.toml").read_text(encoding="utf-8"))
    uncertainty = about.get("expanded_uncertainty", {})
    readings = {
        id: replace(column, expanded_uncertainty=uncertainty.get(id))
        for id, column in read_readings(folder / "readings.csv").items()
    }
    try:
        found = client.conformance(
            about["designation"],
            readings,
            lot_size=about["lot_size"],
            decision_rule=about.get("decision_rule"),
            fracture_rule=about.get("fracture_rule"),
        )
    except ProblemError as error:
        return JudgedLot(about, None, str(error))
    return JudgedLot(about, found)


def report(client: Client, data: Path, beside: Path) -> tuple[str, bool]:
    """Write chart and findings beside the report; return it, and whether every lot and gauge is as its file expects."""
    with (data / "part_masters.csv").open(encoding="utf-8", newline="") as file:
        masters = check(client, list(csv.DictReader(file)))
    lots = [judge(client, folder) for folder in sorted((data / "lots").iterdir())]
    gauges, gauges_as_expected = gauge_section(client, data, table)
    nuts = nut_section(client, [lot.about["designation"] for lot in lots])
    floor = shop_floor_section(client, data, beside.with_suffix(".svg"))
    line = line_section(client, beside.with_suffix(".line.svg"), table)
    findings = findings_section(client, data, beside.with_suffix(".html"), table)
    every = every_finding_section(client, data, table)
    found = ["## Lots", *map(lot_section, lots), nuts, floor, line, summary(masters, lots)]
    parts = [HEAD, *part_master_section(masters), findings, every, gauges, *found]
    as_expected = gauges_as_expected and all(lot.as_expected for lot in lots)
    return "\n\n".join(part for part in parts if part) + "\n", as_expected


def part_master_section(masters: Sequence[CheckedPart]) -> list[str]:
    """Return what has no specification first, then what is to be looked at, then the others."""
    groups = grouped(masters)
    noticed = [one for one in groups["specified"] if one.said]
    return [
        "## Part masters",
        f"### Without a specification: {len(groups['refused'])} of {len(masters)}",
        "\n".join(map(_remark, groups["refused"])),
        f"### Specified, but to be looked at: {len(groups['to be looked at'])}",
        "\n".join(map(_remark, groups["to be looked at"])),
        f"### Specified: {len(groups['specified'])}",
        _key_figures(groups["specified"]),
        "To note:" if noticed else "",
        "\n".join(map(_remark, noticed)),
    ]


def grouped(masters: Sequence[CheckedPart]) -> dict[str, list[CheckedPart]]:
    """Return the part masters as refused, to be looked at, and specified."""
    groups: dict[str, list[CheckedPart]] = {"refused": [], "to be looked at": [], "specified": []}
    for one in masters:
        name = "refused" if one.found is None else "specified" if one.checked.status == "valid" else "to be looked at"
        groups[name].append(one)
    return groups


def _remark(one: CheckedPart) -> str:
    return f"- {one.row['part_number']} `{one.row['designation']}`: {one.said}"


def _key_figures(masters: Sequence[CheckedPart]) -> str:
    heads = ("part number", "designation", "width across flats", "core hardness", "tensile load; nuts: proof load")
    rows: list[tuple[str, ...]] = [heads]
    for one in masters:
        assert one.found is not None
        wanted = one.found.characteristics
        limits = [wanted[id].limits if id in wanted else None for id in ("width_across_flats", "hardness_core")]
        load = wanted["tensile_load"].limits if "tensile_load" in wanted else one.found.loads.get("proof_load")
        figures = ("-" if figure is None else str(figure) for figure in (*limits, load))
        rows.append((one.row["part_number"], one.found.designation, *figures))
    return table(rows)


def lot_section(lot: JudgedLot) -> str:
    """Return one lot: its story, its verdict, the reasons, and what was found of each characteristic."""
    about = lot.about
    head = (
        f"### {about['lot']}: {lot.verdict.upper()}\n\n"
        f"`{about['designation']}`, {about['lot_size']} pieces. {about['story']}"
    )
    if lot.found is None:
        return f"{head}\n\nNot judged: {lot.failure}"
    rule = lot.found.decision_rule
    by = f"Decision rule {rule.rule}" + (f" ({rule.basis})" if rule.basis else "")
    if lot.found.fracture_rule != "standard":
        by += f"; fracture rule {lot.found.fracture_rule}"
    reasons = "\n".join(f"- {reason.detail}" for reason in lot.found.reasons)
    notices = "\n".join(f"- {notice}" for notice in lot.found.notices)
    found = f"```\n{characteristics_table(lot.found.characteristics)}\n```"
    unexpected = "" if lot.as_expected else f"**The lot file expects {about['expected_verdict']}.**"
    return "\n\n".join(part for part in (head, unexpected, by + ".", reasons, notices, found) if part)


def nut_section(client: Client, designations: Sequence[str]) -> str:
    """Return which nuts hold the bolts of the lots; a nut among the lots has no line."""
    rows = [("bolt", "nut classes that hold it", "warnings")]
    for designation in dict.fromkeys(designations):
        try:
            found = client.pairing(designation)
        except ProblemError:
            continue
        classes = dict.fromkeys(nut.nut for nut in found.holding)
        warnings = dict.fromkeys(text for nut in found.holding for text in nut.warnings)
        rows.append((found.bolt, ", ".join(classes), "; ".join(warnings) or "-"))
    return f"## Nuts for the bolts of the lots\n\n{table(rows)}"


def summary(masters: Sequence[CheckedPart], lots: Sequence[JudgedLot]) -> str:
    """Return the counts and one line a lot."""
    counts = Counter(lot.verdict for lot in lots)
    groups = {name: len(found) for name, found in grouped(masters).items()}
    fingerprint = next((lot.found.fingerprint for lot in lots if lot.found), "-")
    rows = [("lot", "designation", "verdict", "as the lot file expects")]
    rows += [
        (lot.about["lot"], lot.about["designation"], lot.verdict, "yes" if lot.as_expected else "NO") for lot in lots
    ]
    return (
        f"## Summary\n\n{len(masters)} part masters: {groups['specified']} specified, "
        f"{groups['to be looked at']} to be looked at, {groups['refused']} without a specification.\n"
        f"{len(lots)} lots: {', '.join(f'{count} {verdict}' for verdict, count in counts.items())}.\n"
        f"Fingerprint of tables and engine: {fingerprint}.\n\n{table(rows)}"
    )


def table(rows: Sequence[Sequence[str]]) -> str:
    """Return a Markdown table that is aligned as plain text too."""
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    lines = [
        "| " + " | ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)) + " |" for row in rows
    ]
    return "\n".join([lines[0], "| " + " | ".join("-" * width for width in widths) + " |", *lines[1:]])


def main(arguments: Sequence[str] | None = None) -> int:
    """Write the report to the output and to a file; returns the exit code."""
    parser = argparse.ArgumentParser(description="The demo of an invented plant.")
    parser.add_argument("--url", default=os.environ.get("BOLTWRIGHT_URL") or "http://127.0.0.1:8765")
    parser.add_argument("--report", type=Path, default=HERE / "report.md")
    parser.add_argument("--data", type=Path, default=HERE, help="folder with part_masters.csv, gauges.csv and lots")
    options = parser.parse_args(arguments)
    try:
        with Client(options.url) as client:
            text, as_expected = report(client, options.data, options.report)
    except Error as error:
        print(f"no report: {error}", file=sys.stderr)
        return 3
    options.report.write_text(text, encoding="utf-8")
    sys.stdout.buffer.write(text.encode())
    return 0 if as_expected else 1


if __name__ == "__main__":
    sys.exit(main())
