"""What to type next where no flavour was named that is known here."""

from diagnose.answers.diagnosis import FaultGroup
from diagnose.consult.gathering import Consultation

EXAMPLE = "hint of butter, not sour"


def what_to_type(
    consultation: Consultation, faults: tuple[FaultGroup, ...]
) -> tuple[tuple[str, str], ...]:
    """Where there is nothing to explain: commands that lead on, each with what it does."""
    if faults:
        return ()
    record = consultation.batch.document
    file = f"{record.name} " if record.data else ""
    return (
        (f'faultwort diagnose {file}--taste "{EXAMPLE}"', "with words of your own"),
        ("faultwort rules list descriptors", "every flavour that is known here"),
        ("faultwort batch new", "be asked, question by question"),
    )
