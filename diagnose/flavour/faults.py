"""What can be wrong between the cards and the small words, beyond what each file shows alone."""

from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping

from diagnose.errors import Fault
from diagnose.flavour.card import DescriptorCard
from diagnose.flavour.lexicon import phrase_key, senses_in_order, small_meanings
from diagnose.flavour.meaning import Key, Meaning
from diagnose.flavour.words import WordsFile

_WORDS = "words.yaml"


def lexicon_faults(cards: Mapping[str, DescriptorCard], words: WordsFile) -> tuple[Fault, ...]:
    """Every clash between cards, and between cards and small words."""
    owners = _owners(cards, words)
    return (
        *_unknown_ids(cards, words),
        *_repeats(cards, words),
        *_unordered(owners, words),
        *_small_word_clashes(owners, words),
    )


def _owners(cards: Mapping[str, DescriptorCard], words: WordsFile) -> dict[Key, set[str]]:
    owners: dict[Key, set[str]] = defaultdict(set)
    for card in cards.values():
        for phrase in (*card.phrasings, *card.match_only):
            owners[phrase_key(phrase, words)].add(card.id)
    return owners


def _unknown_ids(cards: Mapping[str, DescriptorCard], words: WordsFile) -> Iterator[Fault]:
    for card in cards.values():
        for confusion in card.confused_with:
            if confusion.id not in cards or confusion.id == card.id:
                yield _fault(
                    card.id, "confused_with", found=repr(confusion.id), wanted="another card's id"
                )
    named = {one for senses in words.several_senses for one in senses.first_to_last}
    for one in sorted({*named, *words.vague} - set(cards)):
        yield Fault(_WORDS, 0, "several_senses", repr(one), "the id of a card")


def _repeats(cards: Mapping[str, DescriptorCard], words: WordsFile) -> Iterator[Fault]:
    for card in cards.values():
        keys = Counter(phrase_key(p, words) for p in (*card.phrasings, *card.match_only))
        for key in (key for key, count in keys.items() if count > 1):
            found = f"{' '.join(key)!r} twice"
            yield _fault(card.id, "phrasings", found=found, wanted="each phrase once")


def _unordered(owners: Mapping[Key, set[str]], words: WordsFile) -> Iterator[Fault]:
    ordered = senses_in_order(words)
    for key, ids in owners.items():
        written = ordered.get(key, ())
        if (len(ids) > 1 or written) and set(written) != ids:
            found = f"{' '.join(key)!r} on the cards {', '.join(sorted(ids))}"
            yield Fault(_WORDS, 0, "several_senses", found, "the same ids here, likeliest first")
    for key in ordered.keys() - owners.keys():
        wanted = "a phrase that stands on its cards"
        yield Fault(_WORDS, 0, "several_senses", repr(" ".join(key)), wanted)


def _small_word_clashes(owners: Mapping[Key, set[str]], words: WordsFile) -> Iterator[Fault]:
    seen: dict[Key, Meaning] = {}
    for key, meaning in small_meanings(words):
        phrase = " ".join(key)
        if key in owners:
            found = f"{phrase!r} as {meaning.role} and on {', '.join(sorted(owners[key]))}"
            yield Fault(_WORDS, 0, "", found, "each phrase in one place")
        elif seen.setdefault(key, meaning) != meaning:
            found = f"{phrase!r} as {seen[key].role} and as {meaning.role} {meaning.value}"
            yield Fault(_WORDS, 0, "", found, "each phrase with one meaning")


def _fault(card_id: str, key: str, *, found: str, wanted: str) -> Fault:
    return Fault(f"descriptors/{card_id}.yaml", 0, key, found, wanted)
