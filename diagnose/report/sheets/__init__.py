"""Printable sheets: one HTML file each, with nothing outside it and no script."""

from diagnose.report.sheets.ballot_sheet import ballots_page
from diagnose.report.sheets.host_sheet import host_page
from diagnose.report.sheets.plan_sheet import plan_page
from diagnose.report.sheets.pourer_sheet import pourer_page

__all__ = ["ballots_page", "host_page", "plan_page", "pourer_page"]
