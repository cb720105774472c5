"""Faultwort: find out why some batches taste wrong."""

__version__ = "0.1.0"
