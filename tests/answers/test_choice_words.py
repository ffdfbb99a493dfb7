"""How a difference between two woods reads."""

import re

from woodref.answers.choice_words import _WORDS


def test_a_slight_difference_reads_as_a_sentence():
    slight = {w.less.format("slightly ") for w in _WORDS.values()}
    assert {"cups slightly less", "slightly softer", "slightly less stiff"} <= slight
    # An adverb stands behind the verb: only words of comparison follow it at the start.
    for words in _WORDS.values():
        for said in (words.less, words.more):
            first = said.format("slightly ").split()[0]
            assert first != "slightly" or re.match(r"\{\}(less |\w+er\b)", said), said
