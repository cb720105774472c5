"""What goes into a store or an export comes back the same."""

import json
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.errors import UnusableInput
from diagnose.history.brews import read_brews
from diagnose.history.exporting import export_to
from diagnose.history.filing import read_filing
from diagnose.history.importing import Imported, import_from
from diagnose.history.keeping import keep_batch, restore, undo
from diagnose.history.kinds import EventNote, Verdict
from diagnose.history.listing import list_batches
from diagnose.history.noting import withdraw_note, write_note
from diagnose.history.packing import pack_floats, pack_marks, unpack_floats, unpack_marks
from diagnose.history.probes import fingerprint_of, pack_log, unpack_log
from tests.history.stores import NOW, TODAY, WITH_A_LOG, filed, later, new_store, short_log

# A logger's values: tenths of C, tenths of F as C, whatever a float can be, and gaps.
VALUES = st.lists(
    st.one_of(
        st.integers(-400, 1200).map(lambda n: n / 10),
        st.integers(-400, 2120).map(lambda n: (n / 10 - 32) / 1.8),
        st.floats(),
        st.just(float("nan")),
    ),
    max_size=60,
)


@given(VALUES)
def test_packed_numbers_come_back_to_the_last_bit(values):
    before = np.array(values, dtype=np.float64)
    after = unpack_floats(pack_floats(before))
    gaps = np.isnan(before)
    assert np.array_equal(gaps, np.isnan(after))
    assert before[~gaps].tobytes() == after[~gaps].tobytes()


@given(st.lists(st.booleans(), max_size=40))
def test_packed_marks_come_back(marks):
    assert unpack_marks(pack_marks(np.array(marks, dtype=np.bool_))).tolist() == marks


@settings(max_examples=25)
@given(VALUES)
def test_a_log_of_any_readings_comes_back(values):
    finite = [value if abs(value) < 1e300 else float("nan") for value in values]
    log = short_log([20.0, *finite])
    assert fingerprint_of(unpack_log(pack_log(log))) == fingerprint_of(log)


def test_a_slow_curve_takes_less_than_a_byte_a_reading():
    curve = np.round(20.0 + np.cumsum(np.random.default_rng(7).normal(0, 0.03, 10_000)), 1)
    assert len(pack_floats(curve)) < curve.size


WORDS = st.text(st.characters(codec="utf-8", exclude_categories=["Cc", "Cs"]), max_size=12)
STEPS = st.lists(
    st.one_of(
        st.tuples(st.just("add"), st.integers(0, 2), st.integers(50, 80)),
        st.tuples(st.just("undo"), st.integers(0, 2), st.just(0)),
        st.tuples(st.just("restore"), st.integers(0, 2), st.just(1)),
        st.tuples(st.just("verdict"), st.integers(0, 2), WORDS),
        st.tuples(st.just("event"), st.just(0), WORDS),
        st.tuples(st.just("withdraw"), st.just(0), st.just(0)),
    ),
    max_size=12,
)


def _take(store, rules, folder, steps):
    keys, uids = {}, []
    for minute, (step, which, what) in enumerate(steps):
        now = later(minute // 2)
        if step == "add":
            filing = filed(
                rules, folder, f"{which}.yaml", batch=f"b{which}", pitch=f"{{at: {what} F}}"
            )
            keys[which] = keep_batch(store, filing, now).key
        elif step == "event":
            uids.append((EventNote, write_note(store, EventNote(kind="other", typed=what), now)))
        elif step == "withdraw" and uids:
            withdraw_note(store, *uids.pop(), now)
        elif which in keys and step == "undo":
            undo(store, keys[which], now, "why not")
        elif which in keys and step == "restore":
            restore(store, keys[which], 1, now)
        elif which in keys and step == "verdict":
            note = Verdict(cause="under_pitched", typed=what)
            uids.append((Verdict, write_note(store, note, now, keys[which])))


def _exported(store, file):
    export_to(store, file)
    return file.read_bytes()


@settings(max_examples=12)
@given(steps=STEPS)
def test_an_export_read_back_is_the_same_store(rules, template, steps):
    with TemporaryDirectory() as made:
        here, there = Path(made) / "here", Path(made) / "there"
        here.mkdir(), there.mkdir()
        with new_store(here, template) as one, new_store(there, template) as other:
            _take(one, rules, here, steps)
            before = _exported(one, here / "out.jsonl")
            import_from(other, here / "out.jsonl")
            assert _exported(other, there / "out.jsonl") == before
            assert import_from(other, here / "out.jsonl") == Imported()
            assert read_brews(one) == read_brews(other)
            assert list_batches(one) == list_batches(other)


@pytest.fixture
def exported(store, rules, tmp_path):
    keep_batch(store, read_filing(rules, WITH_A_LOG, TODAY), NOW)
    keep_batch(store, filed(rules, tmp_path), NOW)
    export_to(store, tmp_path / "out.jsonl")
    return tmp_path / "out.jsonl"


@pytest.fixture
def empty(tmp_path, template):
    (tmp_path / "other").mkdir()
    with new_store(tmp_path / "other", template) as opened:
        yield opened


def test_an_export_is_plain_json_with_the_readings_as_numbers(exported):
    lines = [json.loads(line) for line in exported.read_text("utf-8").splitlines()]
    assert lines[0] == {"schema_is": "faultwort/history/1", "batches": 2}
    log = lines[1]["contents"][0]["probe"]
    assert len(log["times_utc_s"]) == len(log["series"][0]["values"]) == 333


def test_batches_of_two_stores_come_together(empty, exported, rules, tmp_path):
    keep_batch(empty, filed(rules, tmp_path, brewer="Sedge"), NOW)
    import_from(empty, exported)
    assert [line.key for line in list_batches(empty)] == [
        "christmas-ale-2025-10-04",
        "house-pale-2026-05-02",
        "house-pale-2026-05-02-2",
    ]


def test_where_two_stores_went_apart_both_versions_are_kept(empty, exported, rules, tmp_path):
    keep_batch(empty, filed(rules, tmp_path, pitch="{at: 70 F}"), later(5))
    assert import_from(empty, exported) == Imported(batches=1, versions=2, notes=0)
    assert import_from(empty, exported) == Imported()


# (what is done to the lines of an export, what the refusal says)
SPOILT = [
    (lambda lines: lines[:-1], "before its closing line"),
    (lambda lines: [*lines[:-2], lines[-1]], "before its closing line"),
    (lambda lines: lines[1:], "schema_is"),
    (lambda lines: [lines[0], lines[1][: len(lines[1]) // 2]], ":2"),
    (lambda lines: [lines[0], lines[1].replace('"values":[1', '"values":[2', 1)], "readings of"),
    (lambda lines: [lines[0], lines[2].replace("66 F", "60 F", 1)], "not what was exported"),
    (lambda lines: ["{}"], "out.jsonl:1"),
    (lambda lines: [""], "out.jsonl:1"),
]


@pytest.mark.parametrize(("spoil", "said"), SPOILT)
def test_a_spoilt_export_is_refused_with_its_line(empty, exported, spoil, said):
    lines = exported.read_text("utf-8").splitlines()
    exported.write_text("\n".join(spoil(lines)) + "\n", "utf-8")
    with pytest.raises(UnusableInput, match=said):
        import_from(empty, exported)


def test_what_stands_before_the_cut_is_whole(empty, exported, store):
    lines = exported.read_text("utf-8").splitlines()
    exported.write_text("\n".join(lines[:2]) + "\n", "utf-8")
    with pytest.raises(UnusableInput):
        import_from(empty, exported)
    assert read_brews(empty) == [one for one in read_brews(store) if one.key.startswith("chr")]


def test_an_export_overwrites_nothing(store, tmp_path):
    (tmp_path / "out.jsonl").write_text("mine", "utf-8")
    with pytest.raises(UnusableInput, match="a new name"):
        export_to(store, tmp_path / "out.jsonl")
    assert (tmp_path / "out.jsonl").read_text("utf-8") == "mine"
