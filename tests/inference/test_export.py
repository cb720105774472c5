"""The exported network, read by another program and read as plain data."""

import json
import re
from pathlib import Path

import numpy as np
import pytest

from diagnose.inference import export
from diagnose.inference.export import MOST_PARENTS, SCHEMA, to_bif, to_json
from diagnose.inference.network import Network
from tests.inference.agrum import Answers, gum, read_exactly
from tests.inference.networks import network_with, realistic_network

READER_DIGITS = 1e-6  # the library reads the format in single precision


@pytest.fixture(scope="module")
def network() -> Network:
    return realistic_network(np.random.default_rng(0))


@pytest.fixture(scope="module")
def read_back(network: Network, tmp_path_factory: pytest.TempPathFactory) -> "gum.BayesNet":
    path: Path = tmp_path_factory.mktemp("export") / "network.bif"
    path.write_text(to_bif(network), encoding="utf-8")
    return gum.loadBN(str(path))


def parts_of_chains(net: "gum.BayesNet") -> set[str]:
    """The variables that only split a large table."""
    return {name for name in net.names() if re.search(r"_or_\d+$", name)}


def test_another_program_reads_every_variable(network: Network, read_back: "gum.BayesNet") -> None:
    wanted = {f"cause_{name}" for name in network.causes}
    wanted |= {f"compound_{name}" for name in network.compounds}
    wanted |= {f"descriptor_{name}" for name in network.descriptors}
    assert set(read_back.names()) - parts_of_chains(read_back) == wanted


def test_another_program_reads_every_link(network: Network, read_back: "gum.BayesNet") -> None:
    links = np.count_nonzero(network.strength) + np.count_nonzero(network.gives)
    assert read_back.sizeArcs() - len(parts_of_chains(read_back)) == links


def test_every_variable_is_off_or_on(read_back: "gum.BayesNet") -> None:
    labels = {read_back.variableFromName(name).labels() for name in read_back.names()}
    assert labels == {("off", "on")}


def test_another_program_s_tables_are_those_written(
    network: Network, read_back: "gum.BayesNet"
) -> None:
    exact = read_exactly(to_bif(network))
    for name in exact.names():
        read, written = read_back.cpt(name), exact.cpt(name)
        assert read.names == written.names
        np.testing.assert_allclose(read.toarray(), written.toarray(), atol=READER_DIGITS)


def test_another_program_gives_the_same_answers(
    network: Network, read_back: "gum.BayesNet"
) -> None:
    said = {f"descriptor_{word}": (0.0, 1.0) for word in network.descriptors[:2]}
    causes = [f"cause_{name}" for name in network.causes]
    answers = [Answers(net, causes) for net in (read_back, read_exactly(to_bif(network)))]
    for answer in answers:
        answer.hear(said)
    found, wanted = (answer.on(causes) for answer in answers)
    np.testing.assert_allclose(found, wanted, atol=READER_DIGITS)


def test_probabilities_are_written_in_full_precision() -> None:
    network = network_with(np.random.default_rng(0), np.full((1, 1), 0.1), np.full((1, 1), 1 / 3))
    net = read_exactly(to_bif(network))
    written = float(net.cpt("cause_cause_0")[1])
    assert written == pytest.approx(network.base_rate[0], rel=1e-15, abs=0)


def test_no_table_exceeds_two_to_the_sixteen_rows() -> None:
    text = to_bif(many_causes(MOST_PARENTS + 2))
    rows = [table.count(";") for table in text.split("probability")]
    assert max(rows) == 2**MOST_PARENTS


@pytest.mark.parametrize("count", [5, 8, 9])
def test_a_split_table_says_what_the_whole_one_says(
    count: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    network = many_causes(count)
    whole = read_exactly(to_bif(network))
    monkeypatch.setattr(export, "MOST_PARENTS", 4)
    split = read_exactly(to_bif(network))
    assert max(len(split.parents(name)) for name in split.names()) == 4
    acted = np.random.default_rng(0).random((10, count)) < 0.5
    answers = [Answers(net, ["compound_compound_0"]) for net in (whole, split)]
    for row in acted:
        said = {f"cause_{n}": (1.0 - a, float(a)) for n, a in zip(network.causes, row, strict=True)}
        for answer in answers:
            answer.hear(said)
        wanted, found = (answer.on(["compound_compound_0"]) for answer in answers)
        assert found == pytest.approx(wanted, abs=1e-12)


def many_causes(count: int) -> Network:
    """One compound with so many causes."""
    random = np.random.default_rng(0)
    return network_with(random, random.uniform(0.1, 0.9, (count, 1)), np.full((1, 1), 0.5))


def test_the_plain_data_survive_json(network: Network) -> None:
    exported = to_json(network)
    assert json.loads(json.dumps(exported)) == exported


def test_the_plain_data_name_their_schema(network: Network) -> None:
    assert to_json(network)["schema"] == SCHEMA == "faultwort/rules-export/1"


def test_the_plain_data_hold_the_whole_network(network: Network) -> None:
    rebuilt = network_from(json.loads(json.dumps(to_json(network))))
    for field in ("causes", "compounds", "descriptors"):
        assert getattr(rebuilt, field) == getattr(network, field)
    for field in ("base_rate", "strength", "expected", "unexplained", "gives", "wrong_word"):
        np.testing.assert_array_equal(getattr(rebuilt, field), getattr(network, field))


def network_from(data: dict[str, list[dict[str, object]]]) -> Network:
    """The network that the plain data describe."""
    names = {
        kind: tuple(str(one["id"]) for one in data[kind])
        for kind in ("causes", "compounds", "descriptors")
    }
    causes, compounds, words = names.values()
    strength, gives = (
        np.zeros((len(causes), len(compounds))),
        np.zeros((len(compounds), len(words))),
    )
    for link in data["made_by"]:
        place = causes.index(link["cause"]), compounds.index(link["compound"])
        strength[place] = link["strength"]
    for link in data["gives"]:
        gives[compounds.index(link["compound"]), words.index(link["descriptor"])] = link["strength"]
    numbers = [
        np.array([one[key] for one in data[kind]])
        for kind, key in (
            ("causes", "base_rate"),
            ("compounds", "expected"),
            ("compounds", "unexplained"),
            ("descriptors", "wrong_word"),
        )
    ]
    rate, expected, unexplained, wrong = numbers
    return Network(
        *names.values(), rate, strength, expected, unexplained, gives, wrong, np.ones(len(wrong))
    )
