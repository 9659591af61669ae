"""Bench calculations by name: keys with units in, figures with sources out."""

from asplayed.calc.calculation import Answer, Calculation, Key, Result, calculations, compute

__all__ = ["Answer", "Calculation", "Key", "Result", "calculations", "compute"]
