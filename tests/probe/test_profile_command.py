"""Saved profiles as they are typed: kept, used, listed, forgotten, and named in a record."""

from datetime import date
from pathlib import Path

import pytest

from diagnose.batch import read_batch
from diagnose.batch.probe_beside import log_beside
from diagnose.errors import UnusableInput
from tests.cli.running import Faultwort, Outcome, written

OPEN = "time,temp 1,temp 2\n2024-07-01 12:00,34,40\n2024-07-01 12:15,36,41\n"
ANSWERS = ("--unit", "F", "--zone", "Europe/Berlin", "--column", "temp 2=beer")
TODAY = date(2026, 1, 1)
RECORD = "brewed: 2024-06-30\nfermentation:\n  probe_log: log.csv\n  probe_profile: garage\n"


@pytest.fixture
def place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Where profiles are kept in this test."""
    path = tmp_path / "profiles.yaml"
    monkeypatch.setenv("FAULTWORT_PROFILES", str(path))
    return path


@pytest.fixture
def faultwort(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Faultwort:
    return Faultwort(monkeypatch, capsys)


@pytest.fixture
def log(tmp_path: Path) -> Path:
    return written(tmp_path, OPEN, "log.csv")


def saved(faultwort: Faultwort, log: Path) -> Outcome:
    return faultwort("probe", log, *ANSWERS, "--save-profile", "garage", "--json")


@pytest.mark.usefixtures("place")
def test_an_answer_said_once_is_enough(faultwort: Faultwort, log: Path) -> None:
    assert faultwort("probe", log).code == 2
    assert saved(faultwort, log).json["saved_as"] == "garage"
    answer = faultwort("probe", log, "--json").json
    assert (answer["profile"], answer["series"][0]["header"]) == ("garage", "temp 2")


@pytest.mark.usefixtures("place")
def test_saved_profiles_are_listed_with_what_they_say(faultwort: Faultwort, log: Path) -> None:
    saved(faultwort, log)
    (line,) = faultwort("probe", "--profiles", "--json").json["profiles"]
    assert line["says"] == "F, Europe/Berlin, temp 2 is beer"
    assert "time, temp 1, temp 2" in faultwort("probe", "--profiles").out


@pytest.mark.usefixtures("place")
def test_a_forgotten_profile_is_used_no_more(faultwort: Faultwort, log: Path) -> None:
    saved(faultwort, log)
    assert faultwort("probe", "--forget-profile", "garage", "--json").json["forgotten"] == "garage"
    assert faultwort("probe", log).code == 2


# Source of the table: the contract's exit codes.
@pytest.mark.usefixtures("place")
@pytest.mark.parametrize(
    ("typed", "code", "said"),
    [
        (("--forget-profile", "shed"), 2, "--forget-profile: found 'shed'"),
        (("{log}", "--profile", "shed"), 2, "found no saved profile 'shed'"),
        (("{log}", "--unit", "F", "--save-profile", "a/b"), 2, "a name of letters"),
        (("{log}", "--unit", "F", "--zone", "Bonn", "--save-profile", "a"), 2, "a time zone such"),
        ((), 2, "a logger's CSV is wanted"),
    ],
)
def test_what_cannot_be_done_is_said_in_a_sentence(
    faultwort: Faultwort, log: Path, typed: tuple[str, ...], code: int, said: str
) -> None:
    outcome = faultwort("probe", *(part.format(log=log) for part in typed))
    assert (outcome.code, said in outcome.err) == (code, True)


def test_nothing_said_is_nothing_to_keep(faultwort: Faultwort, tmp_path: Path, place: Path) -> None:
    plain = written(tmp_path, "time,beer (C)\n2024-07-01 12:00Z,19\n", "plain.csv")
    outcome = faultwort("probe", plain, "--save-profile", "garage")
    assert (outcome.code, "an answer to keep" in outcome.err) == (2, True)
    assert not place.exists()


def test_a_damaged_file_stops_no_reading(faultwort: Faultwort, log: Path, place: Path) -> None:
    place.write_text("profiles: 7\n")
    outcome = faultwort("probe", log, "--unit", "F")
    assert (outcome.code, "no saved profile was looked for" in outcome.out) == (0, True)


def test_a_damaged_file_that_is_needed_ends_with_three(
    faultwort: Faultwort, log: Path, place: Path
) -> None:
    place.write_text("profiles: 7\n")
    assert [faultwort("probe", "--profiles").code, saved(faultwort, log).code] == [3, 3]


@pytest.mark.usefixtures("place")
def test_a_record_names_the_profile_of_its_log(
    faultwort: Faultwort, tmp_path: Path, log: Path
) -> None:
    saved(faultwort, log)
    found = log_beside(read_batch(written(tmp_path, RECORD), TODAY))
    assert found is not None
    assert (found.profile, found.zone.what) == ("garage", "Europe/Berlin")


@pytest.mark.usefixtures("place", "log")
def test_a_record_that_names_an_unknown_profile_is_refused_with_its_line(tmp_path: Path) -> None:
    with pytest.raises(
        UnusableInput, match=r"batch.yaml:4: fermentation.probe_profile: found 'gar"
    ):
        log_beside(read_batch(written(tmp_path, RECORD), TODAY))


@pytest.mark.usefixtures("place")
def test_without_being_named_no_profile_touches_a_record(
    faultwort: Faultwort, tmp_path: Path, log: Path
) -> None:
    saved(faultwort, log)
    record = written(tmp_path, RECORD.replace("  probe_profile: garage\n", ""))
    with pytest.raises(UnusableInput, match="temperature unit C or F"):
        log_beside(read_batch(record, TODAY))
