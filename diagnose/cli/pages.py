"""A diagnosis as a page in a file."""

from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from diagnose.answers import Diagnosis
    from diagnose.answers.background import Background


def write_diagnosis_page(
    file: Path, diagnosis: "Diagnosis", background: "Background", *, quiet: bool
) -> None:
    """Write the page and, unless quiet, say where it is and what comes of the batch.

    Raises:
        UnusableInput: something other than an earlier page is there.
    """
    from diagnose.consult import write_page
    from diagnose.report.html import OPENING, diagnosis_html

    write_page(file, diagnosis_html(diagnosis, background), OPENING)
    if not quiet:
        print(diagnosis.verdict_text)
        print(f"The page is in {file}.")
