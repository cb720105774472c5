"""What cannot be read is refused in a sentence with its place, and never with a traceback."""

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.batch.probe import read_probe_log, summarise
from diagnose.batch.probe.raw import LARGEST_BYTES
from diagnose.errors import UnusableInput
from tests.probe.written import read, read_bytes

WHEN = "2024-07-01 12:00Z"

# Source: none needed, the messages are ours. Bytes of a file and what the refusal says.
REFUSED = [
    ("empty", b"", r"probe\.csv: found an empty file"),
    ("only blanks", b" \n\n  \n", r"probe\.csv: found an empty file"),
    ("binary", bytes(range(256)) * 40, r"probe\.csv: found a binary file"),
    ("workbook", b"PK\x03\x04" + bytes(200), "found a workbook or a zip file"),
    ("only NUL bytes", bytes(5000), "found an empty file"),
    ("prose", b"Dear brewer,\nhere is my beer.\n", r"probe\.csv:1: time: found 'Dear brewer"),
    ("no time", b"a,b\n1,2\n3,4\n", r":1: time: found 'a,b', and no column with a time"),
    ("times of day alone", b"clock,beer\n12:00,19\n12:15,19\n", "times of day, but no date"),
    ("no number", b"time,state\n2024-07-01 12:00,on\n2024-07-01 12:15,off\n", "no number beside"),
    ("times alone", b"time\n2024-07-01 12:00\n2024-07-01 12:15\n", "no number beside"),
    ("header alone", b"time,beer\n", r":1: found a header and no rows"),
    ("no readable row", b"time,beer\nyesterday,19\ntoday,20\n", r":2: time: found 'yesterday,19'"),
    (
        "nothing but missing",
        b"time,beer\n2024-07-01 12:00,\n2024-07-01 12:15,nan\n",
        "no column of numbers",
    ),
    (
        "dates that do not exist",
        b"time,beer\n2024-02-30 12:00,19\n",
        r":2: time: found no row with",
    ),
    (
        "only a signal",
        b"time,rssi\n2024-07-01 12:00,-70\n2024-07-01 12:15,-71\n",
        r":2: found columns 'rssi'",
    ),
    (
        "decimal commas cut in two",
        b"time,beer\n2024-07-01 12:00,19,5\n2024-07-01 12:15,19,6\n",
        r":2: found more cells than names, .*decimal commas cut in two",
    ),
]


@pytest.mark.parametrize(
    ("raw", "said"), [row[1:] for row in REFUSED], ids=[row[0] for row in REFUSED]
)
def test_what_is_no_log_is_refused(raw: bytes, said: str) -> None:
    with pytest.raises(UnusableInput, match=said):
        read_bytes(raw)


def test_a_file_that_is_not_there_is_refused(tmp_path: Path) -> None:
    with pytest.raises(UnusableInput, match="found no such file"):
        read_probe_log(tmp_path / "none.csv")


def test_a_folder_is_refused(tmp_path: Path) -> None:
    with pytest.raises(UnusableInput, match="found a folder"):
        read_probe_log(tmp_path)


def test_a_giant_file_is_refused_in_one_sentence(tmp_path: Path) -> None:
    path = tmp_path / "giant.csv"
    with path.open("wb") as file:
        file.truncate(LARGEST_BYTES + 1)
    with pytest.raises(UnusableInput, match="export hourly means, or split the file"):
        read_probe_log(path)


def test_a_refusal_ends_with_exit_code_two() -> None:
    with pytest.raises(UnusableInput) as refusal:
        read_bytes(b"")
    assert refusal.value.exit_code == 2


@pytest.mark.parametrize("cell", ["1e999", "9" * 400, "1.2.3.4", "²", "0x10", '"'])
def test_a_wild_number_is_missing_and_not_a_traceback(cell: str) -> None:
    log = read(f"time,beer\n{WHEN},19\n2024-07-01 12:15Z,{cell}\n2024-07-01 12:30Z,19\n")
    assert log.series["beer_temperature"].flags["missing"].tolist() == [False, True, False]


PIECES = [
    *(
        "time,beer (C)\n",
        "2024-07-01 12:00Z,19.5\n",
        "2024-10-27 02:30,19\n",
        "03/04/2024 1:00 PM;19,5\n",
    ),
    *(
        ",",
        ";",
        "\t",
        "|",
        '"',
        "\n",
        "\r\n",
        "85",
        "-127",
        "nan",
        "1e308",
        "1728820800",
        "é",
        "°F",
        "\x00",
    ),
    *(
        "2024-02-30 10:00",
        "9999-12-31 23:59",
        "24:00",
        "+25:00",
        " ",
        "²",
        "٣",
        "Exported;2024-11-01;15\n",
    ),
]


# Law: any text is read or refused, whatever it says.
@settings(max_examples=400, deadline=None, derandomize=True)
@given(st.lists(st.sampled_from(PIECES), max_size=30), st.sampled_from([None, "Europe/Berlin"]))
def test_any_text_is_read_or_refused(pieces: list[str], zone: str | None) -> None:
    try:
        log = read("".join(pieces), zone=zone)
    except UnusableInput as refusal:
        assert "; wanted " in str(refusal)
    else:
        assert all(summarise(log, role) for role in log.series)


@settings(max_examples=100, deadline=None, derandomize=True)
@given(st.binary(max_size=200))
def test_any_bytes_are_read_or_refused(raw: bytes) -> None:
    try:
        assert read_bytes(raw).series
    except UnusableInput as refusal:
        assert "; wanted " in str(refusal)
