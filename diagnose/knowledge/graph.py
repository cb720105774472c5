"""The causal graph: causes to compounds to descriptors."""

from typing import TYPE_CHECKING

from diagnose.knowledge.base import RuleBase

if TYPE_CHECKING:
    import networkx as nx

Node = tuple[str, str]


def causal_graph(rules: RuleBase) -> "nx.DiGraph[Node]":
    """Causes, compounds and descriptors as (kind, id) nodes; links carry their strength."""
    # Slow to import, and only the lint asks for the whole graph.
    import networkx as nx  # noqa: PLC0415

    graph: nx.DiGraph[Node] = nx.DiGraph()
    graph.add_nodes_from(("causes", card_id) for card_id in rules.causes)
    graph.add_nodes_from(("descriptors", card_id) for card_id in rules.descriptors)
    for card_id, compound in rules.compounds.items():
        here = ("compounds", card_id)
        graph.add_node(here)
        for cause, number in compound.made_by.items():
            graph.add_edge(("causes", cause), here, strength=number.value)
        for descriptor, number in compound.gives.items():
            graph.add_edge(here, ("descriptors", descriptor), strength=number.value)
    return graph


def mute_causes(rules: RuleBase) -> list[str]:
    """Causes from which no way leads to a flavour."""
    import networkx as nx  # noqa: PLC0415

    graph = causal_graph(rules)
    words = [("descriptors", card_id) for card_id in rules.descriptors]
    heard = set().union(*(nx.ancestors(graph, word) for word in words))
    return [card_id for card_id in rules.causes if ("causes", card_id) not in heard]


def paths_between(rules: RuleBase, cause: str, descriptor: str) -> list[tuple[str, str, str]]:
    """Every path cause -> compound -> descriptor, the strongest first."""
    found = []
    for card_id, compound in rules.compounds.items():
        if cause in compound.made_by and descriptor in compound.gives:
            strength = compound.made_by[cause].value * compound.gives[descriptor].value
            found.append((strength, (cause, card_id, descriptor)))
    return [path for _, path in sorted(found, key=lambda one: (-one[0], one[1]))]
