"""A diagnosis as one page in a file: no script, nothing fetched, for screen and paper."""

from diagnose.report.html.page import OPENING, diagnosis_html

__all__ = ["OPENING", "diagnosis_html"]
