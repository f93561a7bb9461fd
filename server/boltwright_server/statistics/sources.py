"""Where the figures and rules of running production come from."""

from __future__ import annotations

from ..quantities import Basis, practice, unpublished
from ..standards import other_source, rules


def factors_basis() -> Basis:
    """Return the basis of the factors of control charts."""
    return rules("ISO 7870-2").clause("table of factors")


def run_rules_basis(rule_set: str) -> Basis:
    """Return where the wording of a set of run rules stands: `ISO 7870-2` or `ISO 8258`; neither was seen in print."""
    if rule_set == "ISO 7870-2":
        return rules(rule_set).clause("run rules, basic set", "common practice")
    return other_source(rule_set, "eight tests")


def indices_basis() -> Basis:
    """Return the basis of capability indices."""
    return other_source("ISO 22514-2", "indices and percentile method")


def normality_basis() -> Basis:
    """Return the basis of the test whether values are normal."""
    return unpublished("common practice", "Anderson-Darling test, both parameters fitted", "computed", "memory")


def narrow_limits_basis() -> Basis:
    """Return the basis of the rules of narrow-limit gauging."""
    return practice("narrow-limit (pre-control) rules", "two reproductions")
