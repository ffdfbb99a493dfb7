"""How a printed number is known, and how much is known of a wood."""

from __future__ import annotations

#: How a printed number is known, best first.
BASES: dict[str, str] = {
    "own": "the shop's own figure",
    "seen2": "read in two copies of the publication that agree",
    "seen": "read in a copy of the publication",
    "corroborated": "recalled, and repeated within printed rounding by another table that was "
    "read; the reason names it",
    "quoted": "read only in another document that quotes the publication",
    "memory": "recalled, not seen in print",
    "common practice": "a rule of the trade without a source",
    "ours": "our own compilation",
    "estimated": "not printed: computed from a general relation",
}

#: How much is known of a wood.
TIERS: dict[str, str] = {
    "full": "basic specific gravity, three shrinkages, and side hardness, modulus of elasticity "
    "and modulus of rupture at 12 %",
    "partial": "some of those",
    "density only": "a density and nothing else",
    "no data": "the name is known, but no table holds a number",
}
