"""Judges readings against a specification: each characteristic, then the lot. Pure; knows no HTTP."""

from .judge import Judgement, LotJudge, judge
from .readings import Column, Request, Requirement

__all__ = ["Column", "Judgement", "LotJudge", "Request", "Requirement", "judge"]
