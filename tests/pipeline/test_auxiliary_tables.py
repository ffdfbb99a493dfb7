"""Tables carried over as they stand, against a few printed cells, and the sum of cells."""

from __future__ import annotations

import pandas as pd
import pytest
from sources_kit import lost_cells

from pipeline.read import SOURCES, read_origins, read_table
from pipeline.schemas import shaped, validate
from pipeline.sources.auxiliary_tables import PLANS, auxiliary_tables, property_of
from pipeline.sources.cells import UnknownPublicationError, number
from woodref.reference.fields import TABLES


@pytest.fixture(scope="module")
def built():
    return auxiliary_tables(read_origins())


@pytest.mark.parametrize("name", list(PLANS))
def test_every_printed_cell_arrives(built, name):
    frames, rejected = built
    raw = read_table(PLANS[name].file)
    columns = [c for c in raw.columns if c not in ("source_table", "source_line")]
    assert lost_cells(raw, columns, frames[name], rejected) == set()
    kinds = {f.name: f.type for f in TABLES[name].fields}
    # cell by cell: what was printed is in the row of its line, as text or as a number
    rows = {r["source_line"]: r for r in frames[name].to_dict("records")}
    for printed in raw.to_dict("records"):
        row = rows[printed["source_line"]]
        for column, target in PLANS[name].columns.items():
            text = printed.get(column, "")
            if not text or target.startswith("("):
                continue
            value, is_text = row.get(target), kinds[target] == "string"
            said = str(row.get("text"))
            assert value == (text if is_text else number(text)) or (not is_text and text in said)


def test_the_frames_fit_their_schemas(built):
    validate({name: shaped(frame, TABLES[name]) for name, frame in built[0].items()})


def _row(frame, **where):
    for column, value in where.items():
        frame = frame[frame[column] == value]
    assert len(frame) == 1
    return frame.iloc[0]


def test_printed_cells(built):
    frames = built[0]
    # Wood Handbook FPL-GTR-190 (2010), Table 4-2, p. 4-4: 70 F, 65 % RH
    emc = _row(
        frames["equilibrium_moisture_content"], temperature_f=70.0, relative_humidity_pct=65.0
    )
    assert emc["emc_pct"] == 12.0
    assert emc["source_id"] == "wood-handbook-2010"
    # PS 20: a nominal 2 by 4 is dressed to 1.5 by 3.5 in
    sizes = frames["lumber_sizes"]
    two = _row(sizes, system="softwood dimension thickness", nominal="2")
    four = _row(sizes, system="softwood dimension width", nominal="4")
    assert (two["dressed_in"], four["dressed_in"]) == (1.5, 3.5)
    # NHLA rules: 4/4 surfaced two sides is 13/16 in; FAS yields 83-1/3 %
    assert _row(sizes, system="hardwood S2S thickness", nominal="4/4")["dressed_in"] == 0.8125
    assert _row(sizes, system="NHLA hardwood grade", nominal="FAS")[
        "clear_face_yield_pct"
    ] == pytest.approx(83.333)
    # NIOSH 94-110: load constant 23 kg; the multipliers are formulas, kept as text
    facts = frames["shipping_facts"]
    assert _row(facts, item="load constant", unit="kg")["value"] == 23
    assert _row(facts, item="horizontal multiplier")["text"] == "10/H"


def test_values_that_are_not_numbers_stay_as_text(built):
    assert (
        _row(built[0]["shipping_facts"], topic="pallet", item="standard footprint")["text"]
        == "48 x 40"
    )
    assert _row(built[0]["practice"], rule="wet-season fit")["text"] == "snug"


def test_rows_without_a_source_are_common_practice(built):
    facts = built[0]["shipping_facts"]
    bare = facts[facts["basis"] == "common_practice"]
    assert len(bare) == 12
    assert set(bare["source_id"]) == {"common-practice"}


@pytest.mark.parametrize(
    ("printed", "ours"),
    [
        ("Static bending: modulus of rupture", "modulus_of_rupture"),
        ("Compression perpendicular to grain (proportional limit)", "compression_perpendicular"),
        ("Shear strength", "shear_parallel"),
        ("Specific gravity", "basic_specific_gravity"),
        ("Toughness", None),
        ("Shrinkage, transverse and volumetric", None),
    ],
)
def test_property_of(printed, ours):
    assert property_of(printed) == ours


def test_an_edition_nobody_lists_is_an_error():
    origins = {**read_origins(), "editions": {}}
    with pytest.raises(UnknownPublicationError, match="line 2"):
        auxiliary_tables(origins)


def as_printed(name):
    """A source table as it stands in its file, in the words of the file."""
    return pd.read_csv(SOURCES / f"{name}.csv", dtype=str, keep_default_na=False)


def test_a_column_without_a_place_is_an_error(tmp_path):
    for plan in PLANS.values():
        raw = as_printed(plan.file)
        raw.assign(surprise="1").to_csv(tmp_path / f"{plan.file}.csv", index=False)
    with pytest.raises(KeyError, match="surprise"):
        auxiliary_tables(read_origins(), folder=tmp_path)


def test_a_cell_that_is_no_number_is_rejected(tmp_path):
    for plan in PLANS.values():
        raw = as_printed(plan.file)
        if plan.file == "equilibrium_moisture_content":
            raw.loc[3, "emc_pct"] = "four"
        raw.to_csv(tmp_path / f"{plan.file}.csv", index=False)
    _, rejected = auxiliary_tables(read_origins(), folder=tmp_path)
    assert rejected.to_dict("records") == [
        {
            "source_table": "equilibrium_moisture_content.csv",
            "source_line": 5,
            "source_column": "emc_pct",
            "printed_value": "four",
            "reason": "not a number",
        }
    ]
