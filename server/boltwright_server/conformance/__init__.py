"""Judges readings against a specification: each characteristic, then the lot. Pure; knows no HTTP."""

from .judge import Judgement, LotJudge, judge, judge_columns
from .plan import LotPlan
from .readings import Column, Request, Requirement, Retest

__all__ = ["Column", "Judgement", "LotJudge", "LotPlan", "Request", "Requirement", "Retest", "judge", "judge_columns"]
