"""Rows that name the same part twice."""
