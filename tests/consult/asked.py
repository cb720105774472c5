"""A brewer at the counter: words and a small record in, what is known and the network out."""

from diagnose.consult import Consultation, consult_on
from diagnose.evidence.gathering import gather
from diagnose.evidence.noticing import noticed_shares
from diagnose.evidence.pieces import Evidence
from diagnose.inference.network import Network, network_of
from tests.evidence.records import batch_of
from tests.knowledge.shipped import rule_base


def asked(words: str, record: str = "batch: this beer") -> Consultation:
    """What is known when these words are said of this record."""
    return consult_on(rule_base(), batch_of(record), [words] if words else [])


def network_and_evidence(consultation: Consultation) -> tuple[Network, Evidence]:
    """What a diagnosis of the consultation is worked out from."""
    rules, beer, known = rule_base(), consultation.beer, consultation.known
    noticed = noticed_shares(rules, known.findings)
    return network_of(rules, beer.yeast_id, beer.style_id, noticed), gather(rules, known)
