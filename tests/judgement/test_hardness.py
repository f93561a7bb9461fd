"""Hardness

Each scale has limits of its own and is judged on them; conversion between scales never decides acceptance. The surface
may be at most 30 HV harder than the core of the same piece, and not harder than the cap of its class (ISO 898-1:2013,
Table 3).
"""

import numpy as np
from lots import BOLT

from boltwright_server.conformance import Column, Judgement, Request, judge
from boltwright_server.conformance.rules import SIMPLE


def hardness(property_class: str = "8.8", **columns: tuple[list[float], str]) -> Judgement:
    readings = tuple(Column(id, np.array(values), unit) for id, (values, unit) in columns.items())
    return judge(Request(BOLT.replace("8.8", property_class), readings, SIMPLE))


def test_each_scale_is_judged_on_its_own_limits() -> None:
    """Class 8.8: 250 HV to 320 HV, 22 HRC to 32 HRC."""
    assert hardness(hardness_core=([250, 320], "HV")).characteristics["hardness_core"].verdict == "conforming"
    assert hardness(hardness_core=([22, 32], "HRC")).characteristics["hardness_core"].verdict == "conforming"
    assert hardness(hardness_core=([33], "HRC")).characteristics["hardness_core"].verdict == "nonconforming"


def test_where_the_sources_disagree_nothing_is_decided_unasked() -> None:
    """Brinell limits of classes 8.8 to 12.9 differ by edition: name the edition to be judged on that scale."""
    assert hardness(hardness_core=([240], "HBW")).characteristics["hardness_core"].verdict == "undecided"


def test_the_surface_may_be_a_little_harder_than_the_core_of_the_same_piece() -> None:
    """Core 330 HV: the surface may have 360 HV, not 361 HV."""
    found = hardness("10.9", hardness_core=([330, 330], "HV"), hardness_surface=([360, 361], "HV"))
    assert found.characteristics["hardness_surface"].nonconforming_pieces == (1,)


def test_the_cap_of_the_class_holds_beside_it() -> None:
    """Class 10.9, core 375 HV: 390 HV at the surface, not 405 HV."""
    found = hardness("10.9", hardness_core=([375, 375], "HV"), hardness_surface=([390, 391], "HV"))
    assert found.characteristics["hardness_surface"].nonconforming_pieces == (1,)


def test_without_the_core_the_surface_is_undecided() -> None:
    """There is nothing to add the 30 HV to."""
    found = hardness("10.9", hardness_surface=([350], "HV"))
    assert found.characteristics["hardness_surface"].verdict == "undecided"
