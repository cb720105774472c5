"""Reported descriptors that share a possible compound, and the compounds behind them."""

import numpy as np

from diagnose.inference.network import Network


def groups_of(network: Network, reported: tuple[str, ...]) -> tuple[tuple[str, ...], ...]:
    """Split reported descriptors into groups that share no compound.

    Two groups cannot come from one compound: two faults may be present.
    """
    groups: list[tuple[set[int], list[str]]] = []
    for word in reported:
        behind = set(compounds_behind(network, (word,)))
        touching = [group for group in groups if group[0] & behind]
        rest = [group for group in groups if not group[0] & behind]
        compounds = behind.union(*(group[0] for group in touching))
        words = [w for group in touching for w in group[1]] + [word]
        groups = [*rest, (compounds, words)]
    order = {word: place for place, word in enumerate(reported)}
    found = [tuple(sorted(words, key=order.__getitem__)) for _, words in groups]
    return tuple(sorted(found, key=lambda words: order[words[0]]))


def compounds_behind(network: Network, words: tuple[str, ...]) -> tuple[int, ...]:
    """Indices of the compounds that give at least one of `words`."""
    columns = [network.descriptor_index[word] for word in words]
    linked = (network.gives[:, columns] > 0).any(axis=1) if columns else np.zeros(0)
    return tuple(int(j) for j in np.flatnonzero(linked))
