"""Boltwright: the limits of threaded fasteners from one cited source, and the judgement of readings against them."""

#: Part of every fingerprint: raise it whenever a rule of an engine changes a number or a verdict.
ENGINE_VERSION = "3"
