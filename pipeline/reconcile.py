"""Step 3, reconcile: unit counterparts, corroboration, preferred values, disagreements.

The written order, first difference decides:

1. physically sane: a cell with a plausibility flag is never preferred;
2. a stated condition: a density of unstated moisture condition is never preferred; a number
   whose unit is printed comes before one whose unit is told by its size;
3. representative: a narrow sample gives way to a broader one, a table that only repeats
   or compiles others gives way to them, a table of Canadian samples gives way to one of samples
   from the United States, a 2-cm or 1-in. specimen series gives way to a 2-in. one (they are not
   comparable as they stand);
4. of two printings of one cell in metric and inch-pound units that agree within printed
   rounding and were both read, the one with more printed digits;
5. basis: checked twice, checked, corroborated, second hand, unchecked;
6. publication: the handbook before other reports;
7. edition: newer first;
8. the order of the source tables.

A compiled basic specific gravity (pipeline/compiled.py) is the mean of other samples: where a
density or a specific gravity of the wood itself is printed for a stated moisture condition, it
gives way to that, which is turned back to basic (pipeline/implied.py).
"""

from __future__ import annotations

from typing import Any

import pandas as pd

from pipeline.compiled import COMPILED
from woodref.reference.bases import BASES, CORROBORATED, READ, UNCHECKED, in_words
from woodref.reference.densities import OTHER_DENSITIES, order_of
from woodref.reference.unit_systems import agree

_BASIS_RANK = {basis: rank for rank, basis in enumerate(BASES)}
_KEY = ["species_id", "property_id", "condition"]
#: Properties whose value depends on the size of the specimen.
_SPECIMEN = ("modulus_of_rupture", "modulus_of_elasticity", "compression_parallel")


def unit_counterparts(m: pd.DataFrame) -> pd.Series:
    """The measurement_id of the same cell in the other unit system, '' where there is none.

    A cell goes with the one of its own edition; where neither table has the other's edition,
    the cell of one edition goes with that of another; where its edition prints the very figure
    of another, with the cell of that other.
    """
    cells = ["species_id", "property_id", "condition"]
    printed: dict[tuple[str, ...], dict[str, str]] = {}
    figures = dict(zip(m["measurement_id"], m["printed_value"], strict=True))
    for r in m.itertuples():
        key = (r.source_table.removesuffix(".csv"), *(getattr(r, c) for c in cells))
        printed.setdefault(key, {})[r.edition] = r.measurement_id

    def counterpart(r: Any) -> str:
        if not r.counterpart_table:
            return ""
        cell = tuple(getattr(r, c) for c in cells)
        there = printed.get((r.counterpart_table, *cell), {})
        if r.edition in there:
            return there[r.edition]
        here = printed[(r.source_table.removesuffix(".csv"), *cell)]
        alone = [i for edition, i in there.items() if edition not in here]
        same = [
            i
            for edition, i in there.items()
            if edition in here and figures[here[edition]] == r.printed_value
        ]
        return next(iter([*alone[-1:], *same]), "")

    return pd.Series([counterpart(r) for r in m.itertuples()], index=m.index)


#: Tables whose read cells may corroborate a recalled one, with the name shown.
_WITNESSES = {
    "fia_reference_species.csv": "the Forest Inventory and Analysis species table",
    "finishing.csv": "Table 16-1 of the Wood Handbook",
    "foreign_woods_other_reports.csv": "Agriculture Handbook 607",
}


def corroborate(m: pd.DataFrame) -> pd.DataFrame:
    """Raise a recalled value to 'corroborated' where a table that was read repeats it.

    Witnesses: the same cell in the other unit system, and the tables of _WITNESSES; a printed
    range, and a test series that is not comparable as it stands, corroborate nothing.
    Returns: m with the columns basis and basis_reason renewed.
    """
    out = m.copy()
    out["basis_reason"] = ""
    read = m[m["basis"].isin(READ) & m["value_low"].isna() & ~_odd_specimen(m)]
    by_id = {r.measurement_id: r for r in read.itertuples()}
    witnesses: dict[tuple[str, ...], list[Any]] = {}
    for w in read[read["source_table"].isin(_WITNESSES)].itertuples():
        witnesses.setdefault((w.species_id, w.property_id, w.condition), []).append(w)
    for r in m[m["basis"].eq(UNCHECKED)].itertuples():
        names = []
        counterpart = by_id.get(r.unit_counterpart_id)
        if counterpart and agree(r.value, r.rounding, counterpart.value, counterpart.rounding):
            names.append(
                f"its unit counterpart {counterpart.printed_value} {counterpart.printed_unit} "
                f"(Table {counterpart.printed_table}, {in_words(counterpart.basis)})"
            )
        names += [
            f"{_WITNESSES[w.source_table]} ({w.printed_value}, {in_words(w.basis)})"
            for w in witnesses.get((r.species_id, r.property_id, r.condition), [])
            if w.source_table != r.source_table and agree(r.value, r.rounding, w.value, w.rounding)
        ]
        if names:
            out.at[r.Index, "basis"] = CORROBORATED
            out.at[r.Index, "basis_reason"] = "repeated by " + " and ".join(dict.fromkeys(names))
    return out


def _odd_specimen(m: pd.DataFrame) -> pd.Series:
    """True for another size than the standard 2-in. specimens, where the size matters."""
    other = m["test_standard"].str.startswith(("2-cm", "1-in."))
    return other & m["property_id"].isin(_SPECIMEN)


def _coarser_counterpart(m: pd.DataFrame) -> pd.Series:
    """True where the counterpart agrees, was read as well, is plausible, and prints more digits."""
    sound = m[m["basis"].isin(READ) & m["plausibility_flag"].eq("")]
    by_id = {
        r.measurement_id: (r.value, r.rounding, r.unit_counterpart_id) for r in sound.itertuples()
    }
    coarser = {
        i
        for i, (value, rounding, unit_counterpart_id) in by_id.items()
        if unit_counterpart_id in by_id
        and agree(value, rounding, *by_id[unit_counterpart_id][:2])
        and by_id[unit_counterpart_id][1] < rounding
    }
    return m["measurement_id"].isin(coarser)


_CRITERIA = (
    ("flagged", "physically sane"),
    ("unstated", "a stated moisture condition"),
    ("unit", "a printed unit"),
    ("narrow", "a broader sample"),
    ("repeats", "a table of its own before one that repeats or compiles"),
    ("abroad", "samples of the United States before those of another country"),
    ("specimen", "standard 2-in. specimens"),
    ("coarser", "more printed digits than its unit counterpart"),
    ("basis_rank", "better known"),
    ("publication_rank", "the handbook before other reports"),
    ("age", "newer edition"),
    ("order", "first printed"),
)


def prefer(m: pd.DataFrame, sources: pd.DataFrame) -> pd.DataFrame:
    """Choose one value per wood, property and condition by the written order.

    Returns: m with the columns preferred, gives_way_to (the figure used in its place) and
    preference (why, in words).
    """
    out = m.copy()
    rank = sources.set_index("source_id")["rank"]
    year = pd.to_numeric(sources.set_index("source_id")["year"]).fillna(0)
    score = pd.DataFrame(
        {
            "flagged": out["plausibility_flag"].ne(""),
            "unstated": out["property_id"].eq("density_unstated"),
            "unit": out["printed_unit"].str.startswith("not printed"),
            "narrow": out["sample"].ne(""),
            "repeats": out["repeats"],
            "abroad": out["grown_in"].ne(""),
            "specimen": _odd_specimen(out),
            "coarser": _coarser_counterpart(out),
            "basis_rank": out["basis"].map(_BASIS_RANK),
            "publication_rank": out["source_id"].map(rank),
            "age": -out["source_id"].map(year),
            "order": range(len(out)),
        }
    )
    names = [name for name, _ in _CRITERIA]
    keys = list(out[_KEY].itertuples(index=False, name=None))
    ids = out["measurement_id"].tolist()
    scores = list(score[names].itertuples(index=False, name=None))
    best: dict[tuple[str, ...], int] = {}
    count: dict[tuple[str, ...], int] = {}
    for i in sorted(range(len(out)), key=scores.__getitem__):
        best.setdefault(keys[i], i)
        count[keys[i]] = count.get(keys[i], 0) + 1
    cells = list(out.itertuples())
    preferred, instead, reasons = [], [], []
    for i, key in enumerate(keys):
        winner = best[key]
        flagged, unstated = scores[i][:2]
        reason = "first by the written order" if count[key] > 1 else "the only printed value"
        if flagged:
            reason = "outside physical sense, never preferred"
        elif unstated:
            reason = "moisture condition not stated, never preferred"
        elif i != winner and _other_moisture(cells[i], cells[winner]):
            reason = "printed at another moisture content"
        elif i != winner:
            pairs = zip(_CRITERIA, scores[i], scores[winner], strict=True)
            reason = next(text for (_, text), mine, theirs in pairs if mine != theirs)
        preferred.append(i == winner and not flagged and not unstated)
        instead.append(ids[winner] if i != winner else None)
        reasons.append(reason)
    out["preferred"] = preferred
    out["gives_way_to"] = instead
    out["preference"] = reasons
    return _own_densities_first(out)


def _own_densities_first(m: pd.DataFrame) -> pd.DataFrame:
    """Let a compiled gravity give way to a density of the wood itself."""
    out = m.copy()
    own: dict[str, tuple[tuple[bool, int], str]] = {}
    densities = m["property_id"].isin(OTHER_DENSITIES) & m["preferred"]
    for r in m[densities & ~m["source_table"].isin(COMPILED)].itertuples():
        key = (order_of(str(r.property_id), str(r.sample)), str(r.measurement_id))
        own[str(r.species_id)] = min(key, own.get(str(r.species_id), key))
    compiled = (
        m["property_id"].eq("basic_specific_gravity")
        & m["source_table"].isin(COMPILED)
        & m["preferred"]
        & m["species_id"].isin(own)
    )
    out.loc[compiled, "preferred"] = False
    out.loc[compiled, "gives_way_to"] = m.loc[compiled, "species_id"].map(lambda s: own[s][1])
    out.loc[compiled, "preference"] = "a density of the wood itself before a compiled mean"
    return out


def _other_moisture(a: Any, b: Any) -> bool:
    """True for two values of the condition 'other' printed at different moisture contents."""
    return a.condition == "other" and bool(a.moisture_content_pct != b.moisture_content_pct)


def disagreements(m: pd.DataFrame, sources: pd.DataFrame) -> pd.DataFrame:
    """Pairs of preferred and other values that differ by more than their printed rounding."""
    short = sources.set_index("source_id")["short"]
    table = m["printed_table"].where(
        ~m["printed_table"].str.match(r"^\d"), "Table " + m["printed_table"]
    )
    where = (m["source_id"].map(short) + ", " + table).str.removesuffix(", ")
    frame = m.assign(where=where)
    chosen = {tuple(getattr(r, k) for k in _KEY): r for r in frame[frame["preferred"]].itertuples()}
    rows = []
    for other in frame[~frame["preferred"]].sort_values([*_KEY, "measurement_id"]).itertuples():
        best = chosen.get(tuple(getattr(other, k) for k in _KEY))
        if best is None or agree(best.value, best.rounding, other.value, other.rounding):
            continue
        if _other_moisture(best, other):
            continue
        rows.append(
            {
                **{k: getattr(other, k) for k in _KEY},
                "preferred_id": best.measurement_id,
                "preferred_value": best.value,
                "preferred_from": best.where,
                "other_id": other.measurement_id,
                "other_value": other.value,
                "other_from": other.where,
                "difference_pct": 100.0 * (other.value / best.value - 1.0),
                "between": _between(best, other),
            }
        )
    return pd.DataFrame(rows)


def _between(best: Any, other: Any) -> str:
    """What kind of pair disagrees."""
    if best.unit_counterpart_id == other.measurement_id:
        return "unit_counterpart"
    if best.grown_in != other.grown_in:
        return "sample"
    if best.source_table == other.source_table:
        return "series" if best.source_id == other.source_id else "edition"
    return "source"
