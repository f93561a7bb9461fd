"""Which folders of facts are served, one line each, and which edition answers when none is named."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from ..quantities.keeper import KEEPER, remembered
from .loader import load_standard
from .table import Standard

#: Folder names. Where a standard stands here in several editions, the last line is the current one.
REGISTRY = (
    "asme_b1_1_2003",
    "asme_b1_2_1983",
    "asme_b1_16m_1984",
    "asme_b18_2_1_2012",
    "asme_b18_2_2_2015",
    "asme_b18_2_6_undated",
    "asme_b18_3_2003",
    "editions_in_force_2026",
    "former_standards_withdrawn",
    "din_125_1990",
    "din_439_2_undated",
    "din_557_undated",
    "din_562_undated",
    "din_603_undated",
    "din_912_undated",
    "din_931_1987",
    "din_933_1987",
    "din_934_1987",
    "din_935_1_2013",
    "din_937_undated",
    "din_963_undated",
    "din_964_undated",
    "din_965_undated",
    "din_966_undated",
    "din_980_undated",
    "din_982_undated",
    "din_985_1987",
    "din_1587_2014",
    "din_6330_undated",
    "din_6331_undated",
    "din_6334_undated",
    "din_6914_1989",
    "din_6916_1989",
    "din_6923_1983",
    "din_7985_undated",
    "din_9021_undated",
    "en_1661_undated",
    "en_1662_undated",
    "en_1665_1997",
    "en_14399_3_undated",
    "en_14399_3_nut_undated",
    "en_14399_4_undated",
    "en_14399_6_2005",
    "en_14399_8_2007",
    "iso_261_1998",
    "iso_262_1998",
    "iso_273_1979",
    "iso_286_1_2010",
    "iso_888_2012",
    "iso_898_1_2013",
    "iso_898_2_2012",
    "iso_898_5_2012",
    "iso_898_7_1992",
    "iso_965_1_2013",
    "iso_965_4_1998",
    "iso_965_5_1998",
    "iso_1207_2011",
    "iso_1502_1996",
    "iso_1580_2011",
    "iso_2009_2011",
    "iso_2010_2011",
    "iso_2859_1_1999",
    "iso_3269_2000",
    "iso_3269_2019",
    "iso_3506_1_2009",
    "iso_3506_1_2020",
    "iso_3506_2_2009",
    "iso_4014_2011",
    "iso_4016_2011",
    "iso_4017_2014",
    "iso_4018_2011",
    "iso_4026_2003",
    "iso_4027_2003",
    "iso_4028_2003",
    "iso_4029_2003",
    "iso_4032_2012",
    "iso_4033_2012",
    "iso_4034_2012",
    "iso_4035_2012",
    "iso_4042_1999",
    "iso_4042_2018",
    "iso_4161_2012",
    "iso_4162_2012",
    "iso_4753_2011",
    "iso_4759_1_2000",
    "iso_4759_3_2000",
    "iso_4762_2004",
    "iso_7040_2012",
    "iso_7041_2012",
    "iso_7042_2012",
    "iso_7043_2012",
    "iso_7044_2012",
    "iso_7045_2011",
    "iso_7046_2_2011",
    "iso_7047_2011",
    "iso_7048_2011",
    "iso_7089_2000",
    "iso_7090_2000",
    "iso_7091_2000",
    "iso_7092_2000",
    "iso_7093_1_2000",
    "iso_7094_2000",
    "iso_7380_1_2011",
    "iso_7719_2012",
    "iso_7720_2012",
    "iso_7870_2_2013",
    "iso_8673_2012",
    "iso_8674_2012",
    "iso_8675_2012",
    "iso_8676_2011",
    "iso_8765_2011",
    "iso_10511_2012",
    "iso_10512_2012",
    "iso_10513_2012",
    "iso_10642_2004",
    "iso_10663_2012",
    "iso_10683_2000",
    "iso_10683_2014",
    "iso_10684_2004",
    "iso_14580_2011",
    "iso_14581_2013",
    "iso_14583_2011",
    "iso_14584_2011",
    "iso_15071_2011",
    "iso_15072_2012",
    "iso_18265_2013",
    "astm_a193_undated",
    "astm_a194_undated",
    "astm_a325_before_2016",
    "astm_a354_undated",
    "astm_a449_undated",
    "astm_a563_undated",
    "astm_a574_undated",
    "astm_e140_undated",
    "astm_f568m_undated",
    "astm_f606_undated",
    "astm_f1941_2015",
    "astm_f3125_2015",
    "sae_j429_2014",
    "sae_j995_undated",
    "threaded_rod_as_ordered",
    "inch_threaded_rod_as_ordered",
)
_HERE = Path(__file__).parent
#: A plant's own standards, by folder name; `own.add` fills it before anything is looked up.
_own: dict[str, Path] = {}


def own_folders() -> dict[str, Path]:
    """Return the folders of a plant's own standards by name."""
    return dict(_own)


def add_own(folders: Mapping[str, Path]) -> None:
    """Serve more folders, after they were checked; whatever is remembered is forgotten, for it may mean them."""
    _own.update(folders)
    KEEPER.forget()


@remembered()
def standard(folder: str) -> Standard:
    """Return one standard in one edition by its folder name.

    Raises:
        KeyError: the folder has no line in `REGISTRY` and is none of the plant's own.
    """
    if folder in REGISTRY:
        return load_standard(_HERE / folder)
    return load_standard(_own[folder])


@remembered()
def all_standards() -> tuple[Standard, ...]:
    """Return everything that is served, in the order of `REGISTRY`, a plant's own standards last."""
    return tuple(standard(folder) for folder in (*REGISTRY, *_own))


@remembered(4096)
def current(standard_id: str) -> Standard | None:
    """Return the current edition of a standard by its number ("ISO 4014"), or None.

    A built-in standard is never hidden: an own edition of it answers only where it is named.
    """
    built_in = [standard(folder) for folder in REGISTRY if standard(folder).id == standard_id]
    return next((one for one in reversed(built_in or all_standards()) if one.id == standard_id), None)


def rules(standard_id: str, edition: str | None = None, *, holding: str | None = None) -> Standard:
    """Return the facts of a standard by its number ("ISO 898-1"): the edition that is named, else the current one.

    `holding` names a table: of an edition that is held in part, what it does not hold is that of the latest edition
    that does. Engines ask here, so that a further edition of unchanged rules is a folder and a line of `REGISTRY`.

    Raises:
        KeyError: no such standard, edition or table is held. That is a fault of the caller, not of a client.
    """
    file, now = f"{holding}.csv", current(standard_id) if edition is None else None
    if now is not None and (holding is None or file in now.tables):
        return now
    fitting = [
        one
        for one in all_standards()
        if one.id == standard_id and edition in (None, one.edition) and (holding is None or file in one.tables)
    ]
    if not fitting:
        raise KeyError(f"{standard_id}, edition {edition or 'current'}, table {holding or 'any'}")
    return next((one for one in reversed(fitting) if one.folder in REGISTRY), fitting[-1])
