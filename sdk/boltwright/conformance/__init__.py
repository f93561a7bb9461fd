"""Judgement of readings."""
