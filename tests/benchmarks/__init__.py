"""Benchmarks, run by `python -m tests.benchmarks`: ratios against a baseline in the same run, never timed tests."""
