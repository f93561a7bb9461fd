"""The thread roller of the invented plant: its control chart, its capability, and how long its dies last."""

from __future__ import annotations

from pathlib import Path

from boltwright import Client, Readings

FILE = "shop_floor.csv"
DESIGNATION, CHARACTERISTIC = "M10-6g", "thread_pitch_diameter"
SUBGROUP = 4


def shop_floor_section(client: Client, data: Path, drawing: Path) -> str:
    """Return the section of the report and write the control chart to `drawing`; empty without the file of readings."""
    if not (data / FILE).is_file():
        return ""
    values = list(Readings.from_csv(data / FILE)[CHARACTERISTIC].values)
    of = {"designation": DESIGNATION, "characteristic": CHARACTERISTIC}
    chart = client.control_chart(values, subgroup_size=SUBGROUP)
    client.control_chart_drawing(
        values, subgroup_size=SUBGROUP, title=f"{DESIGNATION}, pitch diameter, thread roller 3", unit="mm"
    ).save(drawing)
    capability = client.capability(values, subgroup_size=SUBGROUP, **of)
    wear = client.trend(values, **of)
    left = "The dies show no wear." if wear.pieces_until_limit is None else _left(wear.pieces_until_risk)
    return "\n\n".join(
        (
            f"## Shop floor\n\nThread roller 3, `{DESIGNATION}`, pitch diameter, one piece in 500 measured. "
            f"The control chart is {drawing.name}.",
            f"```\n{chart.summary()}\n\n{capability.summary()}\n```",
            left,
        )
    )


def _left(pieces: float | None) -> str:
    if pieces is None:
        return "The dies wear; no piece is at risk yet."
    return f"The dies wear: after {int(pieces)} more measured pieces one in 40 may lie beyond its limit."
