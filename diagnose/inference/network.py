"""The three-layer noisy-OR network as plain arrays, for one yeast family and style."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from diagnose.evidence.said import SaidWord
from diagnose.knowledge import RuleBase

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Network:
    """Causes, compounds and descriptors with everything that joins them.

    Shapes, with n causes, m compounds and d descriptors: `base_rate` (n,), `strength` (n, m),
    `expected` and `unexplained` (m,), `gives` (m, d), `wrong_word` (d,); all probabilities.
    `expected` is what yeast and style bring by themselves; `unexplained` is the leak from
    what the rule base does not know. A strength of 0 means no link. `expected_said` (d,) weighs
    how readily a taster so complains of what the beer is meant to have.
    """

    causes: tuple[str, ...]
    compounds: tuple[str, ...]
    descriptors: tuple[str, ...]
    base_rate: Floats
    strength: Floats
    expected: Floats
    unexplained: Floats
    gives: Floats
    wrong_word: Floats
    expected_said: Floats

    @cached_property
    def cause_index(self) -> dict[str, int]:
        """Position of each cause."""
        return {name: index for index, name in enumerate(self.causes)}

    @cached_property
    def compound_index(self) -> dict[str, int]:
        """Position of each compound."""
        return {name: index for index, name in enumerate(self.compounds)}

    @cached_property
    def descriptor_index(self) -> dict[str, int]:
        """Position of each descriptor."""
        return {name: index for index, name in enumerate(self.descriptors)}


NOTHING_PREDICTED: Mapping[str, float] = MappingProxyType({})
NOTHING_SAID: Mapping[str, SaidWord] = MappingProxyType({})


def network_of(
    rules: RuleBase,
    yeast: str | None,
    style: str | None,
    noticed: Mapping[str, float] = NOTHING_PREDICTED,
    said: Mapping[str, SaidWord] = NOTHING_SAID,
) -> Network:
    """The network of a rule base in a beer of this yeast family and style.

    Args:
        rules: the rule base.
        yeast: id of the yeast family; None where it is not known: the families are weighed by
            how often home batches use them, less where nobody named a style either.
        style: id of the style; None where it is not known: the style then brings nothing.
        noticed: for compounds whose amount a process model predicts for this batch, the chance
            that it is noticed; what style and yeast bring is cut down by it.
        said: how each reported descriptor was said.
    """
    causes, compounds = tuple(sorted(rules.causes)), tuple(sorted(rules.compounds))
    descriptors = tuple(sorted(rules.descriptors))
    strength = np.zeros((len(causes), len(compounds)))
    gives = np.zeros((len(compounds), len(descriptors)))
    cause_at = {name: index for index, name in enumerate(causes)}
    word_at = {name: index for index, name in enumerate(descriptors)}
    for j, name in enumerate(compounds):
        card = rules.compounds[name]
        for cause, number in card.made_by.items():
            strength[cause_at[cause], j] = number.value
        for word, number in card.gives.items():
            gives[j, word_at[word]] = number.value
    plainly = rules.lexicon.words.intensity.clear.expected_said.value
    wrong_word = np.array([rules.descriptors[name].wrong_word.value for name in descriptors])
    return Network(
        causes=causes,
        compounds=compounds,
        descriptors=descriptors,
        base_rate=np.array([rules.causes[name].base_rate.value for name in causes]),
        strength=strength,
        expected=np.array(
            [_expected(rules, name, yeast, style) * noticed.get(name, 1.0) for name in compounds]
        ),
        unexplained=np.array([rules.compounds[n].brings.unexplained.value for n in compounds]),
        gives=_as_keen(_blended(gives, said, word_at), said, (compounds, word_at)),
        wrong_word=_blended(wrong_word[None, :], said, word_at)[0],
        expected_said=np.array(
            [said[n].expected_said if n in said else plainly for n in descriptors]
        ),
    )


def _blended(gives: Floats, said: Mapping[str, SaidWord], word_at: Mapping[str, int]) -> Floats:
    """The columns of words with several senses, as the senses' columns weighed by their shares."""
    blended = gives.copy()
    for word, how in said.items():
        blended[:, word_at[word]] = sum(
            share * gives[:, word_at[sense]] for sense, share in how.senses.items()
        )
    return blended


def _as_keen(
    gives: Floats, said: Mapping[str, SaidWord], at: tuple[tuple[str, ...], Mapping[str, int]]
) -> Floats:
    """The columns of words that a taster of a known palate said, as such a taster finds them."""
    compounds, word_at = at
    for word, how in said.items():
        if how.palate:
            keen = np.array([how.palate.get(name, 1.0) for name in compounds])
            gives[:, word_at[word]] = 1.0 - (1.0 - gives[:, word_at[word]]) ** keen
    return gives


def _expected(rules: RuleBase, compound: str, yeast: str | None, style: str | None) -> float:
    brings = rules.compounds[compound].brings
    if yeast is not None:
        by_yeast = brings.yeast[yeast].value if yeast in brings.yeast else 0.0
    else:
        unsaid = 1.0 if style else rules.lexicon.words.character_unsaid.value
        by_yeast = unsaid * sum(
            brings.yeast[family].value * share
            for family, share in _family_shares(rules).items()
            if family in brings.yeast
        )
    by_style = brings.style[style].value if style in brings.style else 0.0
    return 1.0 - (1.0 - by_yeast) * (1.0 - by_style)


def _family_shares(rules: RuleBase) -> dict[str, float]:
    """How often home batches use each yeast family, from the measure that names it."""
    typical = rules.measures["yeast_family"].typical
    return {str(family): share for family, share in typical}
