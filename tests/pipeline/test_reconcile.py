"""Reconciling: which cells of the two unit systems are one."""

import pandas
import pytest

from pipeline.reconcile import unit_counterparts

SI, US = "strength_us_hardwoods_si", "strength_us_hardwoods_us"


def cells(*rows, same=False):
    """Cells of one wood and property (identifier, table, edition), same figures or own ones."""
    other = {SI: US, US: SI}
    return pandas.DataFrame(
        {
            "measurement_id": [i for i, _, _ in rows],
            "species_id": "fraxinus-americana",
            "property_id": "side_hardness",
            "condition": "12pct",
            "source_table": [f"{table}.csv" for _, table, _ in rows],
            "counterpart_table": [other.get(table, "") for _, table, _ in rows],
            "edition": [edition for _, _, edition in rows],
            "printed_value": ["1" if same else i for i, _, _ in rows],
        }
    )


@pytest.mark.parametrize("order", [(0, 1, 2, 3), (1, 0, 3, 2), (3, 2, 1, 0)])
def test_two_editions_in_one_table_go_each_with_their_own(order):
    rows = [("old n", SI, "1999"), ("new n", SI, "2010"), ("old lbf", US, "1999")]
    rows.append(("new lbf", US, "2010"))
    m = cells(*(rows[i] for i in order))
    paired = dict(zip(m["measurement_id"], unit_counterparts(m), strict=True))
    assert paired == {
        "old n": "old lbf",
        "new n": "new lbf",
        "old lbf": "old n",
        "new lbf": "new n",
    }


def test_an_edition_printed_in_one_system_alone_takes_no_cell_that_has_a_partner():
    m = cells(("old n", SI, "1999"), ("new n", SI, "2010"), ("old lbf", US, "1999"))
    assert list(unit_counterparts(m)) == ["old lbf", "", "old n"]


def test_an_edition_that_repeats_another_goes_with_the_partner_of_that():
    rows = [("old n", SI, "2010"), ("new n", SI, "2021"), ("old lbf", US, "2010")]
    assert list(unit_counterparts(cells(*rows, same=True))) == ["old lbf", "old lbf", "old n"]


def test_two_editions_without_partners_of_their_own_go_together():
    m = cells(("new n", SI, "2021"), ("old lbf", US, "2010"), ("else", "european_woods", "2015"))
    assert list(unit_counterparts(m)) == ["old lbf", "new n", ""]


def test_a_cell_that_the_other_system_does_not_print_has_no_partner():
    assert list(unit_counterparts(cells(("new n", SI, "2021")))) == [""]


def test_of_two_editions_without_partners_the_last_is_taken():
    m = cells(("new n", SI, "2021"), ("first lbf", US, "2010"), ("last lbf", US, "1999"))
    assert unit_counterparts(m)[0] == "last lbf"


def test_partners_stand_at_the_place_of_their_cells():
    m = cells(("new n", SI, "2021"), ("old lbf", US, "2010")).set_axis([7, 3])
    assert unit_counterparts(m).to_dict() == {7: "old lbf", 3: "new n"}
