"""All cards and small words, indexed so that a typed sentence can be read quickly."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from diagnose.flavour.card import DescriptorCard
from diagnose.flavour.meaning import Key, Meaning, Role, small_phrases
from diagnose.flavour.spelling import Spelling, canonical, correction_targets
from diagnose.flavour.tokens import cut_into_words
from diagnose.flavour.words import WordsFile

_BRAND_LENGTH = 5


@dataclass(frozen=True)
class Lexicon:
    """What `understand` reads with; make one with `build_lexicon` or `load_lexicon`."""

    cards: Mapping[str, DescriptorCard]
    words: WordsFile
    meanings: Mapping[Key, Meaning]
    longest: int
    glue: frozenset[str]
    spelling: Spelling
    keys_with: Mapping[str, tuple[Key, ...]]
    words_of: Mapping[str, frozenset[str]]
    leans: frozenset[Key]
    brand_words: tuple[str, ...]

    def trick(self, one: str, other: str) -> str:
        """The sentence that tells two descriptors apart, or a plain question if none is written."""
        for here, there in ((one, other), (other, one)):
            for confusion in self.cards[here].confused_with:
                if confusion.id == there:
                    return confusion.trick
        return f"Is it more like {self.cards[one].name} or more like {self.cards[other].name}?"


def build_lexicon(cards: Mapping[str, DescriptorCard], words: WordsFile) -> Lexicon:
    """Index cards and small words.

    Where two meanings claim one phrase the first stands; `lexicon_faults` reports the clash.
    """
    meanings: dict[Key, Meaning] = {}
    for key, meaning in [*card_meanings(cards, words), *small_meanings(words)]:
        meanings.setdefault(key, meaning)
    card_keys = [key for key, meaning in meanings.items() if meaning.role is Role.DESCRIPTOR]
    return Lexicon(
        cards=dict(cards),
        words=words,
        meanings=meanings,
        longest=max(map(len, meanings), default=1),
        glue=frozenset(_canonical(word, words) for word in words.glue),
        spelling=_spelling(meanings, words),
        keys_with=_keys_with(key for key in card_keys if len(key) > 1),
        words_of=_words_of(meanings),
        leans=frozenset(phrase_key(phrase, words) for phrase in words.leans_on_next),
        brand_words=_brand_words(meanings),
    )


def word_keys(text: str, lexicon: Lexicon) -> Key:
    """Every word of a text in order, in the one spelling and number that words are kept in."""
    return _folded(text, lexicon.words)


def phrase_key(phrase: str, words: WordsFile) -> Key:
    """A phrase as it is looked up: one spelling, no plurals, no articles."""
    folded = _folded(phrase, words)
    glue = {_canonical(word, words) for word in words.glue}
    return tuple(word for word in folded if word not in glue) or folded


def _folded(text: str, words: WordsFile) -> Key:
    return tuple(_canonical(token.folded, words) for token in cut_into_words(text))


def card_meanings(
    cards: Mapping[str, DescriptorCard], words: WordsFile
) -> list[tuple[Key, Meaning]]:
    """Every phrase of every card; a phrase of several cards appears once, with all its senses.

    A household name of two words counts when written as one too, so that it is never shown.
    """
    owners: dict[Key, list[str]] = defaultdict(list)
    brands: set[Key] = set()
    for card in cards.values():
        written = {phrase_key(phrase, words) for phrase in card.match_only}
        household = written | {("".join(key),) for key in written}
        brands |= household
        for key in household | {phrase_key(phrase, words) for phrase in card.phrasings}:
            owners[key].append(card.id)
    order = senses_in_order(words)
    return [
        (key, Meaning(Role.DESCRIPTOR, "", _ordered(ids, order.get(key, ())), key in brands))
        for key, ids in owners.items()
    ]


def small_meanings(words: WordsFile) -> list[tuple[Key, Meaning]]:
    """Every phrase of rules/words.yaml, as it is looked up."""
    return [(phrase_key(phrase, words), meaning) for phrase, meaning in small_phrases(words)]


def senses_in_order(words: WordsFile) -> dict[Key, tuple[str, ...]]:
    """The written order of senses of every phrase that has several."""
    return {
        phrase_key(phrase, words): senses.first_to_last
        for senses in words.several_senses
        for phrase in senses.said
    }


def _ordered(ids: list[str], order: tuple[str, ...]) -> tuple[str, ...]:
    known = [one for one in order if one in ids]
    return tuple(dict.fromkeys([*known, *ids]))


def _canonical(word: str, words: WordsFile) -> str:
    return canonical(word, words.spellings)


def _spelling(meanings: Mapping[Key, Meaning], words: WordsFile) -> Spelling:
    parts = {word for key in meanings for word in key}
    known = frozenset(parts | {_canonical(word, words) for word in words.glue})
    spans = frozenset({*words.spans, *words.numbers})
    flavours = [key for key, meaning in meanings.items() if meaning.role is Role.DESCRIPTOR]
    return Spelling(
        spellings=words.spellings,
        known=known | spans,
        flavours=frozenset(key[0] for key in flavours if len(key) == 1),
        targets=correction_targets(flavours, words.spellings),
        never_a_slip=frozenset(words.never_a_slip),
        endings=words.endings,
    )


def _brand_words(meanings: Mapping[Key, Meaning]) -> tuple[str, ...]:
    """Household names long enough to be known inside a longer word."""
    single = {key[0] for key, meaning in meanings.items() if meaning.brand and len(key) == 1}
    return tuple(sorted(word for word in single if len(word) >= _BRAND_LENGTH))


def _keys_with(keys: Iterable[Key]) -> Mapping[str, tuple[Key, ...]]:
    found: dict[str, list[Key]] = defaultdict(list)
    for key in keys:
        for word in key:
            found[word].append(key)
    return {word: tuple(sorted(keys, key=len, reverse=True)) for word, keys in found.items()}


def _words_of(meanings: Mapping[Key, Meaning]) -> Mapping[str, frozenset[str]]:
    found: dict[str, set[str]] = defaultdict(set)
    for key, meaning in meanings.items():
        for sense in meaning.senses:
            found[sense].update(key)
    return {sense: frozenset(words) for sense, words in found.items()}
