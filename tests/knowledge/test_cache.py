"""What is kept between runs: the same rule base, and only while its files stay the same."""

import subprocess
import sys
from dataclasses import fields
from pathlib import Path
from shutil import copytree

import pytest

from diagnose.documents import Number
from diagnose.errors import UnusableInput
from diagnose.flavour import load_lexicon
from diagnose.flavour.compiled import compiled_lexicon
from diagnose.knowledge import RuleBase, load_rules, loading
from diagnose.knowledge.compiled import compiled_rules
from tests.knowledge.keeping import NUMBER, Desk
from tests.knowledge.shipped import RULES, rule_base

KINDS = [one.name for one in fields(RuleBase) if not one.name.endswith("places")]


@pytest.fixture(scope="module")
def kept_rules(tmp_path_factory: pytest.TempPathFactory) -> RuleBase:
    cache = tmp_path_factory.mktemp("cache")
    compiled_rules(RULES, cache)
    with pytest.MonkeyPatch.context() as patch:
        patch.delattr(loading, "load_rules")
        return compiled_rules(RULES, cache)


@pytest.mark.parametrize("kind", KINDS)
def test_the_kept_rule_base_has_every_card_of_the_one_read_from_its_files(
    kept_rules: RuleBase, kind: str
) -> None:
    assert getattr(kept_rules, kind) == getattr(rule_base(), kind)


@pytest.mark.parametrize("kind", [kind for kind in KINDS if kind != "lexicon"])
def test_every_kept_card_is_the_same_to_the_last_digit(kept_rules: RuleBase, kind: str) -> None:
    # Equality takes 1 for 1.0; what is shown of them tells the two apart.
    assert repr(getattr(kept_rules, kind)) == repr(getattr(rule_base(), kind))


def test_the_kept_rule_base_has_the_version_of_the_one_read(kept_rules: RuleBase) -> None:
    assert kept_rules.version == load_rules(RULES).version


@pytest.mark.parametrize("places", ["places", "retired_places"])
def test_the_kept_rule_base_knows_the_line_of_every_card(kept_rules: RuleBase, places: str) -> None:
    kept, read = getattr(kept_rules, places), getattr(rule_base(), places)
    assert [(key, place.fault((), "", "")) for key, place in kept.items()] == [
        (key, place.fault((), "", "")) for key, place in read.items()
    ]


def test_the_kept_lexicon_is_the_one_read_from_its_files(tmp_path: Path) -> None:
    compiled_lexicon(RULES, tmp_path)
    with pytest.MonkeyPatch.context() as patch:
        patch.delattr("diagnose.flavour.load.load_lexicon")
        kept = compiled_lexicon(RULES, tmp_path)
    assert kept == load_lexicon(RULES)


def test_a_changed_card_is_read_anew(tmp_path: Path) -> None:
    folder, card = tmp_path / "rules", tmp_path / "rules" / "causes" / "light_struck.yaml"
    copytree(RULES, folder)
    name = compiled_rules(folder, tmp_path).causes["light_struck"].name
    card.write_text(card.read_text("utf-8").replace(name, "Stood in the sun"), "utf-8")
    assert compiled_rules(folder, tmp_path).causes["light_struck"].name == "Stood in the sun"


def test_a_rule_base_with_a_fault_is_refused_each_time(tmp_path: Path) -> None:
    folder = tmp_path / "rules"
    copytree(RULES, folder)
    (folder / "styles.yaml").write_text("- id: 1", "utf-8")
    for _ in range(2):
        with pytest.raises(UnusableInput, match=r"styles\.yaml:1"):
            compiled_rules(folder, tmp_path)


def test_what_changes_while_it_is_read_is_not_kept(tmp_path: Path) -> None:
    class Restless(Desk):
        def make(self) -> Number:
            self.source.write_text(f"value: {self.made}", "utf-8")
            return super().make()

    desk = Restless(tmp_path)
    desk.ask()
    assert not desk.cache.exists()


@pytest.mark.parametrize("cache", [None, "a file", "a folder inside a file"])
def test_without_a_usable_folder_the_work_is_done_each_time(
    tmp_path: Path, cache: str | None
) -> None:
    desk = Desk(tmp_path)
    place = {"a file": desk.source, "a folder inside a file": desk.source / "inside"}
    assert [desk.ask_in(place.get(cache or "")) for _ in range(2)] == [NUMBER, NUMBER]
    assert desk.made == 2


@pytest.mark.parametrize("step", ["pathlib.Path.mkdir", "pathlib.Path.replace", "os.open"])
def test_a_folder_that_cannot_be_written_costs_only_time(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, step: str
) -> None:
    desk = Desk(tmp_path)

    def refuse(*_: object, **__: object) -> None:
        raise PermissionError(30, "read-only file system")

    monkeypatch.setattr(step, refuse)
    assert (desk.ask(), desk.ask(), desk.made) == (NUMBER, NUMBER, 2)
    monkeypatch.undo()
    assert not desk.cache.exists() or not list(desk.cache.iterdir())


def test_no_more_than_a_few_files_are_kept_of_one_kind(tmp_path: Path) -> None:
    desk = Desk(tmp_path)
    for value in range(7):
        desk.source.write_text(f"value: {value}", "utf-8")
        desk.ask()
    assert (len(list(desk.cache.iterdir())), desk.makes_anew()) == (4, False)


ASK = """
import sys
from pathlib import Path
from diagnose.knowledge.compiled import compiled_rules
print(compiled_rules(Path(sys.argv[1]), Path(sys.argv[2])).version)
"""


def test_two_processes_at_once_come_to_the_same_and_leave_one_whole_file(tmp_path: Path) -> None:
    asked = [sys.executable, "-c", ASK, str(RULES), str(tmp_path)]
    running = [subprocess.Popen(asked, stdout=subprocess.PIPE, text=True) for _ in range(2)]
    said = {one.communicate()[0].strip() for one in running}
    assert said == {rule_base().version}
    assert [file.name.endswith(".kept") for file in tmp_path.iterdir()] == [True]
    with pytest.MonkeyPatch.context() as patch:
        patch.delattr(loading, "load_rules")
        assert compiled_rules(RULES, tmp_path).version == rule_base().version
