"""After a run, every table of printed figures with its rows and its source."""

import pytest

from tests.published.tables import FOLDER, tables_listed


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    ran = {str(report.fspath) for report in terminalreporter.getreports("passed")}
    if any(FOLDER.name in path for path in ran):
        terminalreporter.section("printed figures")
        for line in tables_listed():
            terminalreporter.write_line(line)
