"""Cells outside physical sense: kept, never preferred, each with its reason.

Every rule takes the measurements and yields (measurement_id, reason).
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
import pandas as pd

from woodref.formulas.density import specific_gravity_at, volumetric_shrinkage
from woodref.reference.properties import PROPERTIES

Finding = tuple[str, str]

#: Properties that rise on drying, and by how much a dry value may stand below the green one.
_RISING = ("modulus_of_rupture", "modulus_of_elasticity", "compression_parallel",
           "compression_perpendicular", "shear_parallel", "side_hardness")
#: Properties that follow specific gravity closely enough for the scatter rule.
_ON_GRAVITY = ("modulus_of_rupture", "modulus_of_elasticity", "compression_parallel",
               "shear_parallel", "side_hardness")
_MAX_SD = 3.0
_MIN_WOODS = 20
#: Volumetric shrinkage may differ from that of radial and tangential by so many points.
_VOLUMETRIC_POINTS = 3.0
_COEFFICIENT_SHARE = 0.10
_COEFFICIENT_STEPS = 0.00003
_TOTAL_CHANGE_PCT = 28.0
#: A change per 1 % times 28 may exceed the total shrinkage by this share.
_CHANGE_SHARE = 0.20
_GRAVITY_STEP = 0.04


def _series(frame: pd.DataFrame, columns: list[str]) -> dict[tuple[str, ...], pd.DataFrame]:
    """Rows grouped by the columns, as a dict."""
    return dict(list(frame.groupby(columns, sort=True)))


def outside_limits(m: pd.DataFrame) -> Iterator[Finding]:
    """Values no wood can have."""
    for r in m.itertuples():
        p = PROPERTIES[r.property_id]
        if not p.low <= r.value <= p.high:
            yield r.measurement_id, (
                f"{r.printed_value} {r.printed_unit} is outside {p.low:g} to {p.high:g} "
                f"{p.si_unit}, the limits of physical sense for {p.label}"
            )


def gravity_falls_on_drying(m: pd.DataFrame) -> Iterator[Finding]:
    """Specific gravity at 12 % below the green one: wood shrinks on drying."""
    pair = m[m["property_id"].isin(["basic_specific_gravity", "specific_gravity_12pct"])]
    for rows in _series(pair, ["species_id", "source_table", "trade_name"]).values():
        green = rows[rows["property_id"].eq("basic_specific_gravity")]
        dry = rows[rows["property_id"].eq("specific_gravity_12pct")]
        if green.empty or dry.empty:
            continue
        if dry["value"].iloc[0] < green["value"].iloc[0]:
            yield dry["measurement_id"].iloc[0], (
                f"specific gravity at 12 % {dry['printed_value'].iloc[0]} below the green "
                f"{green['printed_value'].iloc[0]}: wood shrinks on drying"
            )


def gravity_against_shrinkage(m: pd.DataFrame) -> Iterator[Finding]:
    """Specific gravity at 12 % far from green specific gravity and the wood's own shrinkage."""
    volumetric = (
        m[m["property_id"].eq("shrinkage_volumetric")].groupby("species_id")["value"].median()
    )
    pair = m[m["property_id"].isin(["basic_specific_gravity", "specific_gravity_12pct"])]
    found = []
    for rows in _series(pair, ["species_id", "source_table", "trade_name"]).values():
        green = rows[rows["property_id"].eq("basic_specific_gravity")]
        dry = rows[rows["property_id"].eq("specific_gravity_12pct")]
        species_id = rows["species_id"].iloc[0]
        if green.empty or dry.empty:
            continue
        basic = green["value"].iloc[0]
        shrinkage = volumetric.get(species_id, 26.5 * basic)
        expected = specific_gravity_at(basic, 12.0, shrinkage)
        found.append((dry.iloc[0], expected, dry["value"].iloc[0] - expected))
    if len(found) < _MIN_WOODS:
        return
    sd = _robust_sd(np.array([f[2] for f in found]))
    for row, expected, off in found:
        if abs(off) > max(_MAX_SD * sd, _GRAVITY_STEP):
            yield row["measurement_id"], (
                f"specific gravity at 12 % {row['printed_value']} against {expected:.2f} from the "
                f"green value and the volumetric shrinkage, {abs(off) / sd:.1f} standard "
                "deviations off"
            )


def shrinkage_order(m: pd.DataFrame) -> Iterator[Finding]:
    """Tangential below radial, and volumetric far from radial and tangential together."""
    rows = m[m["property_id"].str.startswith("shrinkage_")]
    for cells in _series(rows, ["source_table", "source_line"]).values():
        by = cells.set_index(cells["property_id"].str.removeprefix("shrinkage_"))
        if not {"radial", "tangential"} <= set(by.index):
            continue
        r, t = by.at["radial", "value"], by.at["tangential", "value"]
        if t < r:
            for name in ("radial", "tangential"):
                yield by.at[name, "measurement_id"], (
                    f"tangential shrinkage {t:g} % below radial {r:g} %"
                )
        if "volumetric" not in by.index:
            continue
        v, expected = by.at["volumetric", "value"], volumetric_shrinkage(r, t)
        if abs(v - expected) > _VOLUMETRIC_POINTS:
            for name in ("radial", "tangential", "volumetric"):
                yield by.at[name, "measurement_id"], (
                    f"volumetric shrinkage {v:g} % against {expected:.1f} % from radial {r:g} "
                    f"and tangential {t:g}: more than {_VOLUMETRIC_POINTS:g} points apart"
                )


def dry_below_green(m: pd.DataFrame) -> Iterator[Finding]:
    """A strength or hardness lower dry than green in one table and series."""
    rows = m[m["property_id"].isin(_RISING) & m["condition"].isin(["green", "12pct", "15pct"])]
    keys = ["species_id", "property_id", "source_table", "trade_name", "test_standard"]
    for cells in _series(rows, keys).values():
        green = cells[cells["condition"].eq("green")]
        for dry in cells[cells["condition"].ne("green")].itertuples():
            for wet in green.itertuples():
                # A printed range overlaps rather than contradicts.
                low_green = wet.value if pd.isna(wet.value_low) else wet.value_low
                high_dry = dry.value if pd.isna(dry.value_high) else dry.value_high
                if high_dry < low_green - 1e-9:
                    yield dry.measurement_id, (
                        f"{PROPERTIES[dry.property_id].label} {dry.printed_value} dry below "
                        f"{wet.printed_value} green"
                    )
                    break


def _robust_sd(residuals: np.ndarray) -> float:
    """Standard deviation from the median absolute deviation, blind to outliers."""
    return float(1.4826 * np.median(np.abs(residuals - np.median(residuals))))


def off_the_gravity_line(m: pd.DataFrame) -> Iterator[Finding]:
    """Values more than 3 standard deviations off a log-log fit on basic specific gravity.

    One fit per property, condition and kind of specimen unit-blind (SI), on the median
    basic specific gravity of the wood; where most of a wood's strength values are off the
    same way, its specific gravity is the cell in doubt, not they.
    """
    gravities = m[m["property_id"].eq("basic_specific_gravity")]
    wood_gravity = gravities.groupby("species_id")["value"].median()
    rows = m[m["property_id"].isin(_ON_GRAVITY) & m["condition"].isin(["green", "12pct"])].copy()
    rows["gravity"] = rows["species_id"].map(wood_gravity)
    rows = rows[rows["gravity"].notna()]
    parts = []
    for _, cells in rows.groupby(["property_id", "condition"], sort=True):
        if len(cells) < _MIN_WOODS:
            continue
        x, y = np.log(cells["gravity"].to_numpy(float)), np.log(cells["value"].to_numpy(float))
        keep = np.ones(len(x), bool)
        for _ in range(5):  # refit without the cells already far off
            slope, intercept = np.polyfit(x[keep], y[keep], 1)
            off = y - (slope * x + intercept)
            sd = _robust_sd(off[keep])
            keep = np.abs(off) <= _MAX_SD * sd
        parts.append(cells.assign(off_sd=off / sd, expected=np.exp(slope * x + intercept)))
    if not parts:
        return
    scored = pd.concat(parts)
    far = scored["off_sd"].abs() > _MAX_SD
    by_wood = scored.groupby("species_id")
    blame = {
        species_id
        for species_id, cells in by_wood
        if len(cells) >= 6
        and ((cells["off_sd"] < -_MAX_SD).mean() > 0.7 or (cells["off_sd"] > _MAX_SD).mean() > 0.7)
    }
    for r in gravities[gravities["species_id"].isin(blame)].itertuples():
        yield r.measurement_id, (
            f"specific gravity {r.printed_value}: most strength values of this wood stand more "
            f"than {_MAX_SD:g} standard deviations off the line of all woods at that gravity"
        )
    for r in scored[far & ~scored["species_id"].isin(blame)].itertuples():
        yield r.measurement_id, (
            f"{r.printed_value} {r.printed_unit} is {r.off_sd:+.1f} standard deviations off the "
            f"log-log fit of {PROPERTIES[r.property_id].label} on specific gravity "
            f"({r.expected:.3g} {PROPERTIES[r.property_id].si_unit} expected)"
        )


def digit_slip(m: pd.DataFrame) -> Iterator[Finding]:
    """A figure one digit away from what its twin in the other units converts to."""
    by_id = m.set_index("measurement_id")
    for r in m[m["twin_id"].ne("")].itertuples():
        other = by_id.loc[r.twin_id]
        if abs(r.value - other["value"]) <= (r.rounding + other["rounding"]) / 2 + 1e-9:
            continue
        step = r.rounding
        converted, printed = (str(round(v / step)) for v in (other["value"], r.value))
        back = str(round(r.value / other["rounding"]))
        twin = str(round(other["value"] / other["rounding"]))
        if _digits_apart(converted, printed) == 1 and _digits_apart(back, twin) != 1:
            yield r.measurement_id, (
                f"{r.printed_value} {r.printed_unit} is one digit away from its twin "
                f"{other['printed_value']} {other['printed_unit']}"
            )


def _digits_apart(a: str, b: str) -> int:
    """Number of places in which two figures of one length differ; 99 for other lengths."""
    return sum(x != y for x, y in zip(a, b, strict=True)) if len(a) == len(b) else 99


def same_as_another_wood(m: pd.DataFrame) -> Iterator[Finding]:
    """Three shrinkages equal to another wood's of the table, while another source differs."""
    rows = m[m["property_id"].str.startswith("shrinkage_")]
    triples: dict[tuple[str, tuple[float, ...]], list[tuple[str, list[str]]]] = {}
    for (table, _), cells in rows.groupby(["source_table", "source_line"], sort=True):
        if len(cells) == 3:
            key = (str(table), tuple(cells.sort_values("property_id")["value"]))
            triples.setdefault(key, []).append(
                (cells["species_id"].iloc[0], list(cells["measurement_id"]))
            )
    for (table, _), woods in triples.items():
        if len({w for w, _ in woods}) < 2:
            continue
        for species_id, ids in woods:
            mine = rows[rows["measurement_id"].isin(ids)].set_index("property_id")
            others = rows[rows["species_id"].eq(species_id) & rows["source_table"].ne(table)]
            differs = [
                o for o in others.itertuples()
                if o.property_id in mine.index
                and abs(o.value - mine.at[o.property_id, "value"]) > 0.15
            ]
            agrees = len(others) - len(differs)
            if differs and agrees == 0:
                twin = ", ".join(w for w, _ in woods if w != species_id)
                for i in ids:
                    yield i, f"equal to the three shrinkages of {twin}, while another source differs"


def coefficient_against_shrinkage(m: pd.DataFrame) -> Iterator[Finding]:
    """A dimensional change coefficient away from S / (3000 - 20 S)."""
    shrinkage = m[m["source_table"].isin(["shrinkage_domestic.csv", "shrinkage_imported.csv"])]
    lookup = {(r.species_id, r.property_id): r.value for r in shrinkage.itertuples()}
    for r in m[m["property_id"].str.startswith("dimensional_change_")].itertuples():
        direction = r.property_id.rsplit("_", 1)[1]
        total = lookup.get((r.species_id, f"shrinkage_{direction}"))
        if total is None:
            continue
        expected = total / (3000.0 - 20.0 * total)
        off = r.value / expected - 1.0
        if abs(off) <= 0.05 or abs(r.value - expected) <= _COEFFICIENT_STEPS:
            continue
        at_22 = total / (2200.0 - 12.0 * total)
        why = (
            "; it fits a fiber saturation point of 22 %"
            if abs(r.value / at_22 - 1.0) < 0.02
            else ""
        )
        if abs(off) > _COEFFICIENT_SHARE or why:
            yield r.measurement_id, (
                f"coefficient {r.printed_value} is {off:+.0%} off {expected:.5f} from the "
                f"shrinkage {total:g} %{why}; movement is computed from shrinkage"
            )


def change_per_pct_against_shrinkage(m: pd.DataFrame) -> Iterator[Finding]:
    """A change per 1 % that times 28 exceeds the total shrinkage of the wood."""
    total = (
        m[m["property_id"].isin(["shrinkage_radial", "shrinkage_tangential"]) & m["sample"].eq("")]
        .groupby(["species_id", "property_id"])["value"]
        .median()
    )
    for r in m[m["property_id"].str.startswith("change_per_pct_")].itertuples():
        direction = r.property_id.rsplit("_", 1)[1]
        key = (r.species_id, f"shrinkage_{direction}")
        if key not in total.index:
            continue
        if r.value * _TOTAL_CHANGE_PCT > total[key] * (1.0 + _CHANGE_SHARE):
            yield r.measurement_id, (
                f"{r.printed_value} % per 1 % over 28 % moisture content is "
                f"{r.value * _TOTAL_CHANGE_PCT:.1f} %, more than the total shrinkage "
                f"{total[key]:.1f} % allows"
            )


def other_moisture_elsewhere(m: pd.DataFrame) -> Iterator[Finding]:
    """A '12 %' row whose figures another publication prints at 15 %."""
    rows = m[m["property_id"].isin(_RISING)]
    at_15 = rows[rows["condition"].eq("15pct")]
    for (species_id, table), cells in rows[rows["condition"].eq("12pct")].groupby(
        ["species_id", "source_table"], sort=True
    ):
        others = at_15[at_15["species_id"].eq(species_id) & at_15["source_table"].ne(table)]
        if others.empty:
            continue
        same = [
            r.measurement_id
            for r in cells.itertuples()
            for o in others[others["property_id"].eq(r.property_id)].itertuples()
            if abs(r.value - o.value) <= (r.rounding + o.rounding) / 2 + 1e-9
        ]
        if len(same) >= 3:
            for i in dict.fromkeys(same):
                yield i, "another publication prints the same figures at 15 % moisture content"


RULES = (
    outside_limits,
    gravity_falls_on_drying,
    gravity_against_shrinkage,
    shrinkage_order,
    dry_below_green,
    off_the_gravity_line,
    digit_slip,
    same_as_another_wood,
    coefficient_against_shrinkage,
    change_per_pct_against_shrinkage,
    other_moisture_elsewhere,
)


def doubts(m: pd.DataFrame) -> pd.Series:
    """The reason why each measurement is outside physical sense, '' where it is not.

    Cells outside the limits are set aside before the other rules, so that one slip of
    print does not hide others.
    """
    reasons: dict[str, list[str]] = {}
    for i, reason in outside_limits(m):
        reasons.setdefault(i, []).append(reason)
    rest = m[~m["measurement_id"].isin(reasons)]
    for rule in RULES[1:]:
        for i, reason in rule(rest):
            if reason not in reasons.setdefault(i, []):
                reasons[i].append(reason)
    return m["measurement_id"].map(lambda i: "; ".join(reasons.get(i, [])))
