"""Step 3, reconcile: twins, corroboration, one preferred value, published disagreements.

The written order, first difference decides:

1. physically sane: a cell in doubt is never preferred;
2. a stated condition: a density of unstated moisture condition is never preferred;
3. representative: a narrow sample gives way to a broader one, a table that only repeats
   another gives way to it, a 2-cm or 1-in. specimen series gives way to a 2-in. one
   (they are not comparable as they stand);
4. of two printings of one cell in metric and inch-pound units that agree within printed
   rounding and were both read, the one with more printed digits;
5. basis: seen2, seen, corroborated, quoted, memory;
6. publication: the handbook before other reports;
7. edition: newer first;
8. the order of the source tables.
"""

from __future__ import annotations

import pandas as pd

from woodref.reference.fields import BASES

_BASIS_RANK = {basis: rank for rank, basis in enumerate(BASES)}
_READ = ("seen2", "seen")
_KEY = ["species_id", "property_id", "condition"]
#: Properties whose value depends on the size of the specimen.
_SPECIMEN = ("modulus_of_rupture", "modulus_of_elasticity", "compression_parallel")


def twins(m: pd.DataFrame) -> pd.Series:
    """The measurement_id of the same cell in the other unit system, '' where there is none."""
    keys = ["species_id", "property_id", "condition"]
    lookup = {
        (r.source_table.removesuffix(".csv"), *(getattr(r, k) for k in keys)): r.measurement_id
        for r in m[m["twin_table"].ne("")].itertuples()
    }
    return pd.Series(
        [
            lookup.get((r.twin_table, *(getattr(r, k) for k in keys)), "") if r.twin_table else ""
            for r in m.itertuples()
        ],
        index=m.index,
    )


def agree(a: float, rounding_a: float, b: float, rounding_b: float) -> bool:
    """True where two printed values are one within their printed rounding."""
    return abs(a - b) <= (rounding_a + rounding_b) / 2.0 + 1e-9 * max(abs(a), abs(b))


#: Tables whose read cells may corroborate a recalled one, with the name shown.
_WITNESSES = {
    "fia_reference_species.csv": "the Forest Inventory and Analysis species table",
    "finishing.csv": "Table 16-1 of the Wood Handbook",
    "foreign_woods_other_reports.csv": "Agriculture Handbook 607",
}


def corroborate(m: pd.DataFrame) -> pd.DataFrame:
    """Raise a recalled value to 'corroborated' where a table that was read repeats it.

    Witnesses: the twin in the other unit system, and the tables of _WITNESSES; a printed
    range corroborates nothing.
    Returns: m with the columns basis and basis_reason renewed.
    """
    out = m.copy()
    out["basis_reason"] = ""
    read = m[m["basis"].isin(_READ) & m["value_low"].isna()]
    by_id = read.set_index("measurement_id")
    witnesses = {
        key: rows
        for key, rows in read[read["source_table"].isin(_WITNESSES)].groupby(_KEY, sort=True)
    }
    for i, r in m[m["basis"].eq("memory")].iterrows():
        names = []
        if r["twin_id"] in by_id.index:
            twin = by_id.loc[r["twin_id"]]
            if agree(r["value"], r["rounding"], twin["value"], twin["rounding"]):
                names.append(f"its twin {twin['printed_value']} {twin['printed_unit']} "
                             f"(Table {twin['printed_table']}, {twin['basis']})")
        rows = witnesses.get((r["species_id"], r["property_id"], r["condition"]))
        if rows is not None:
            names += [
                f"{_WITNESSES[w.source_table]} ({w.printed_value}, {w.basis})"
                for w in rows.itertuples()
                if w.source_table != r["source_table"]
                and agree(r["value"], r["rounding"], w.value, w.rounding)
            ]
        if names:
            out.at[i, "basis"] = "corroborated"
            out.at[i, "basis_reason"] = "repeated by " + " and ".join(dict.fromkeys(names))
    return out


def _specimen_rank(m: pd.DataFrame) -> pd.Series:
    """0 for the standard 2-in. specimens, 1 for another size, where the size matters."""
    other = m["test_standard"].str.startswith(("2-cm", "1-in."))
    return (other & m["property_id"].isin(_SPECIMEN)).astype(int)


def _coarser_twin(m: pd.DataFrame) -> pd.Series:
    """1 where the twin agrees, was read as well, and prints more digits."""
    by_id = m.set_index("measurement_id")
    flags = []
    for r in m.itertuples():
        flag = 0
        if r.twin_id and r.basis in _READ:
            twin = by_id.loc[r.twin_id]
            flag = int(
                twin["basis"] in _READ
                and not twin["doubt"]
                and agree(r.value, r.rounding, twin["value"], twin["rounding"])
                and twin["rounding"] < r.rounding
            )
        flags.append(flag)
    return pd.Series(flags, index=m.index)


_CRITERIA = (
    ("in_doubt", "physically sane"),
    ("unstated", "a stated moisture condition"),
    ("narrow", "a broader sample"),
    ("repeats", "the table it is taken from"),
    ("specimen", "standard 2-in. specimens"),
    ("coarser", "more printed digits than its twin"),
    ("basis_rank", "better known"),
    ("publication_rank", "the handbook before other reports"),
    ("age", "newer edition"),
    ("order", "first printed"),
)


def prefer(m: pd.DataFrame, sources: pd.DataFrame) -> pd.DataFrame:
    """Choose one value per wood, property and condition by the written order.

    Returns: m with the columns preferred and preference (why, in words).
    """
    out = m.copy()
    rank = sources.set_index("source_id")["rank"]
    year = pd.to_numeric(sources.set_index("source_id")["year"]).fillna(0)
    score = pd.DataFrame(
        {
            "in_doubt": out["doubt"].ne("").astype(int),
            "unstated": out["property_id"].eq("density_unstated").astype(int),
            "narrow": out["sample"].ne("").astype(int),
            "repeats": out["repeats"].astype(int),
            "specimen": _specimen_rank(out),
            "coarser": _coarser_twin(out),
            "basis_rank": out["basis"].map(_BASIS_RANK),
            "publication_rank": out["source_id"].map(rank),
            "age": -out["source_id"].map(year),
            "order": range(len(out)),
        },
        index=out.index,
    )
    names = [name for name, _ in _CRITERIA]
    score = score.sort_values(names)
    best: dict[tuple[str, ...], int] = {}
    for i in score.index:
        best.setdefault(tuple(out.loc[i, _KEY]), i)
    preferred, reasons = [], []
    counts = out.groupby(_KEY)["measurement_id"].transform("size")
    for i, r in out.iterrows():
        winner = best[tuple(r[_KEY])]
        if score.at[i, "in_doubt"]:
            preferred.append(False)
            reasons.append("in doubt, never preferred")
        elif score.at[i, "unstated"]:
            preferred.append(False)
            reasons.append("moisture condition not stated, never preferred")
        elif i == winner:
            preferred.append(True)
            reasons.append(
                "the only printed value" if counts[i] == 1 else "first by the written order"
            )
        else:
            why = next(text for name, text in _CRITERIA if score.at[i, name] != score.at[winner, name])
            preferred.append(False)
            reasons.append(f"gives way to {out.at[winner, 'measurement_id']}: {why}")
    out["preferred"] = preferred
    out["preference"] = reasons
    return out


def disagreements(m: pd.DataFrame, sources: pd.DataFrame) -> pd.DataFrame:
    """Pairs of preferred and other values that differ by more than their printed rounding."""
    short = sources.set_index("source_id")["short"]
    where = m["source_id"].map(short) + ", " + m["printed_table"].where(
        ~m["printed_table"].str.match(r"^\d"), "Table " + m["printed_table"]
    )
    rows = []
    frame = m.assign(where=where)
    for key, cells in frame.groupby(_KEY, sort=True):
        chosen = cells[cells["preferred"]]
        if chosen.empty:
            continue
        best = chosen.iloc[0]
        for other in cells[~cells["preferred"]].itertuples():
            if agree(best["value"], best["rounding"], other.value, other.rounding):
                continue
            rows.append(
                {
                    **dict(zip(_KEY, key, strict=True)),
                    "preferred_id": best["measurement_id"],
                    "preferred_value": best["value"],
                    "preferred_from": best["where"],
                    "other_id": other.measurement_id,
                    "other_value": other.value,
                    "other_from": other.where,
                    "difference_pct": 100.0 * (other.value / best["value"] - 1.0),
                    "between": _between(best, other),
                }
            )
    return pd.DataFrame(rows)


def _between(best: pd.Series, other: object) -> str:
    """What kind of pair disagrees."""
    if best["twin_id"] and best["twin_id"] == getattr(other, "measurement_id", ""):
        return "twin"
    if best["source_table"] == getattr(other, "source_table", ""):
        return "series" if best["source_id"] == getattr(other, "source_id", "") else "edition"
    return "source"
