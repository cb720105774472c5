"""Small records for the tests: text to a batch, and a batch to what its measures come to."""

from pathlib import Path
from tempfile import TemporaryDirectory

from diagnose.batch import Batch, batch_from
from diagnose.batch.probe import ProbeLog, read_probe_log
from diagnose.documents import parse_yaml
from diagnose.evidence.finding import Finding, NumberFinding
from diagnose.evidence.measures.as_recorded import ENTRIES
from diagnose.evidence.measuring import COMPUTED, measure_batch
from diagnose.process import Band
from tests.knowledge.shipped import TODAY, rule_base


def batch_of(text: str) -> Batch:
    """The record that this text is read as."""
    return batch_from(parse_yaml(text, "batch.yaml", as_typed=True), Path(), TODAY)


def findings_of(text: str, log: ProbeLog | None = None) -> dict[str, Finding]:
    """Every measure of the record, with the shipped rules."""
    return measure_batch(rule_base(), batch_of(text), log)


def band_of(measure: str, text: str) -> Band:
    """The range of one measure that is a number."""
    finding = findings_of(text)[measure]
    assert isinstance(finding, NumberFinding)
    return finding.band


def log_of(rows: list[tuple[str, float]], heading: str = "beer temperature (C)") -> ProbeLog:
    """A logger's export with these times (UTC) and temperatures, as it is read."""
    lines = [f"time,{heading}", *(f"{when},{value}" for when, value in rows)]
    with TemporaryDirectory() as folder:
        path = Path(folder) / "probe.csv"
        path.write_text("\n".join(lines) + "\n", encoding="utf-8")
        return read_probe_log(path, zone="UTC")


def edges(band: Band) -> tuple[float, float, float]:
    return band.low, band.mid, band.high


def measure_ids() -> list[str]:
    """Ids of every measure that can be computed."""
    return [*(one.measure for one in ENTRIES), *(function.__name__ for function in COMPUTED)]
