"""Where a bolt breaks

A tensile reading counts only with the place of the break (ISO 898-1:2013, clause 9.1): in the free thread or the
shank. A break at the junction of head and shank fails, whatever the load was.
"""

from judging import lot, only, verdict


def broken(load: float, where: str | None, fracture_rule: str = "standard") -> dict[str, object]:
    return {"tensile_load": [load], "fracture_location": [where], "fracture_rule": fracture_rule}


def test_a_break_in_the_thread_or_in_the_shank_counts() -> None:
    """48 000 N on a minimum of 46 400 N."""
    assert lot(**broken(48000, "thread")).verdict == lot(**broken(48000, "shank")).verdict == "accept"


def test_a_break_under_the_head_fails_whatever_the_load_was() -> None:
    """60 000 N and a head that came off: the load conforms, the break does not, the lot is rejected."""
    for where in ("head_junction", "head"):
        found = lot(**broken(60000, where))
        assert verdict(found, "tensile_load") == "conforming"
        assert verdict(found, "fracture_location") == "nonconforming"
        assert found.verdict == "reject"


def test_a_load_without_the_place_of_its_break_decides_nothing() -> None:
    """The reading is undecided and the lot incomplete."""
    found = lot(**broken(48000, None))
    assert verdict(found, "tensile_load") == "undecided"
    assert found.verdict == "incomplete"


def test_a_load_that_was_not_reached_fails_in_any_case() -> None:
    """46 399 N, break not looked at: nonconforming."""
    assert verdict(only(tensile_load=[46399]), "tensile_load") == "nonconforming"


def test_a_purchaser_may_ask_for_a_break_in_the_thread() -> None:
    """`fracture_rule: thread_only` (common practice): a break in the shank no longer passes."""
    assert lot(**broken(48000, "shank", "thread_only")).verdict == "reject"
    assert lot(**broken(48000, "thread", "thread_only")).verdict == "accept"
