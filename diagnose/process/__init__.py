"""Physical models of brewing: plain numbers and traces in, plain numbers out."""

from diagnose.process.band import Band, OutsideValidity, spread

__all__ = ["Band", "OutsideValidity", "spread"]
