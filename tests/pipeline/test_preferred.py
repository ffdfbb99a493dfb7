"""Reconciling: what a recalled value is raised by, which printed value is used, what disagrees."""

import pandas
import pytest

from pipeline.compiled import DATABASE, TROPICAL
from pipeline.reconcile import _CRITERIA, corroborate, disagreements, prefer

SOURCES = pandas.DataFrame(
    {
        "source_id": ["old", "new", "report", "undated"],
        "rank": [1, 1, 2, 2],
        "year": ["1999", "2021", "2021", ""],
        "short": ["Handbook (1999)", "Handbook (2021)", "Report (2021)", "Leaflet"],
    }
)
USUAL = {
    "species_id": "ash",
    "property_id": "side_hardness",
    "condition": "12pct",
    "moisture_content_pct": 12.0,
    "value": 5870.0,
    "value_low": None,
    "printed_value": "5,870",
    "printed_unit": "N",
    "printed_table": "5-3a",
    "rounding": 10.0,
    "plausibility_flag": "",
    "sample": "",
    "repeats": False,
    "grown_in": "",
    "test_standard": "",
    "unit_counterpart_id": "",
    "basis": "checked",
    "source_id": "old",
    "source_table": "one.csv",
}


def cells(*rows):
    """Cells like USUAL but for what is said, 'a', 'b' and so on."""
    return pandas.DataFrame(
        [{**USUAL, "measurement_id": "abcdefgh"[n], **row} for n, row in enumerate(rows)]
    )


def by_id(frame, column):
    return {i: told(v) for i, v in zip(frame["measurement_id"], frame[column], strict=True)}


def told(value):
    """The value of a cell, None for one that is missing."""
    return None if pandas.isna(value) else value


#: What a cell has less of by each criterion, with what the better one has where it is no usual one.
WORSE = {
    "flagged": ({"plausibility_flag": "radial above tangential"}, {}),
    "unstated": ({"property_id": "density_unstated"}, {"property_id": "density_unstated"}),
    "unit": ({"printed_unit": "not printed: g/cm3 by its size"}, {}),
    "narrow": ({"sample": "one tree"}, {}),
    "repeats": ({"repeats": True}, {}),
    "abroad": ({"grown_in": "Canada"}, {}),
    "specimen": (
        {"property_id": "modulus_of_rupture", "test_standard": "2-cm specimens"},
        {"property_id": "modulus_of_rupture"},
    ),
    "basis_rank": ({"basis": "unchecked"}, {}),
    "publication_rank": ({"source_id": "report"}, {"source_id": "new"}),
    "age": ({"source_id": "old"}, {"source_id": "new"}),
    "order": ({}, {}),
}


@pytest.mark.parametrize("criterion", [name for name in WORSE if name not in ("unstated", "order")])
@pytest.mark.parametrize("worse_first", [True, False])
def test_each_criterion_decides_between_two_cells_alike_in_the_rest(criterion, worse_first):
    worse, better = WORSE[criterion]
    rows = [worse, better] if worse_first else [better, worse]
    chosen = prefer(cells(*rows), SOURCES)
    best, other = ("b", "a") if worse_first else ("a", "b")
    assert by_id(chosen, "preferred") == {best: True, other: False}
    assert by_id(chosen, "gives_way_to") == {best: None, other: best}
    said = by_id(chosen, "preference")
    assert said[best] == "first by the written order"
    if criterion == "flagged":
        assert said[other] == "outside physical sense, never preferred"
    else:
        assert said[other] == dict(_CRITERIA)[criterion]


def test_of_cells_alike_in_all_the_first_printed_is_used():
    chosen = prefer(cells({}, {}, {}), SOURCES)
    assert list(chosen["preferred"]) == [True, False, False]
    assert by_id(chosen, "gives_way_to") == {"a": None, "b": "a", "c": "a"}
    assert list(chosen["preference"])[1:] == ["first printed", "first printed"]


def test_the_criteria_come_in_the_written_order():
    """Each cell is worse than the next one by an earlier criterion, and better by every later."""
    names = [n for n in WORSE if n not in ("unstated", "specimen", "age", "order")]
    rows = [{**WORSE[name][0], "source_id": "new"} for name in names]
    rows[names.index("publication_rank")]["source_id"] = "report"
    chosen = prefer(cells(*rows), SOURCES)
    assert by_id(chosen, "preferred")["abcdefgh"[len(rows) - 1]]
    order = ["outside physical sense, never preferred"]
    order += [dict(_CRITERIA)[name] for name in names[1:-1]]
    assert list(chosen["preference"]) == [*order, "first by the written order"]


def test_what_is_never_preferred_stays_so_alone():
    flagged = prefer(cells(WORSE["flagged"][0]), SOURCES)
    unstated = prefer(cells(WORSE["unstated"][0]), SOURCES)
    assert list(flagged["preferred"]) == list(unstated["preferred"]) == [False]
    assert list(flagged["preference"]) == ["outside physical sense, never preferred"]
    assert list(unstated["preference"]) == ["moisture condition not stated, never preferred"]
    assert by_id(flagged, "gives_way_to") == {"a": None}


def test_an_only_value_says_so_and_cells_of_other_keys_do_not_meet():
    rows = ({}, {"species_id": "beech"}, {"property_id": "hardness"}, {"condition": "green"})
    chosen = prefer(cells(*rows), SOURCES)
    assert chosen["preferred"].all()
    assert set(chosen["preference"]) == {"the only printed value"}


def test_the_size_of_specimens_counts_where_strength_hangs_on_it():
    inch = {"test_standard": "1-in. specimens"}
    hardness = prefer(cells(inch, {}), SOURCES)
    assert by_id(hardness, "preferred") == {"a": True, "b": False}
    for name in ("modulus_of_rupture", "modulus_of_elasticity", "compression_parallel"):
        rows = ({**inch, "property_id": name}, {"property_id": name})
        assert by_id(prefer(cells(*rows), SOURCES), "preferred") == {"a": False, "b": True}


PAIR = ({"unit_counterpart_id": "b"}, {"unit_counterpart_id": "a", "rounding": 4.4, "value": 5871})


def test_of_two_printings_of_a_cell_the_one_with_more_digits_is_used():
    chosen = prefer(cells(*PAIR), SOURCES)
    assert by_id(chosen, "preferred") == {"a": False, "b": True}
    assert by_id(chosen, "preference")["a"] == "more printed digits than its unit counterpart"


@pytest.mark.parametrize(
    "off",
    [
        {"value": 5900.0},  # does not agree
        {"basis": "unchecked"},  # was not read
        {"plausibility_flag": "doubtful"},  # is not plausible
        {"rounding": 10.0},  # prints no more digits
        {"rounding": 20.0},
        {"unit_counterpart_id": ""},
    ],
    ids=str,
)
def test_more_digits_count_only_where_the_counterpart_is_sound(off):
    first, second = PAIR
    change = [first, {**second, **off}]
    if "unit_counterpart_id" in off:
        change = [{**first, **off}, second]
    chosen = prefer(cells(*change), SOURCES)
    assert by_id(chosen, "preferred")["a"]


def test_printings_with_as_many_digits_give_way_to_no_third_cell():
    first, second = PAIR
    chosen = prefer(cells(first, {**second, "rounding": 10.0}, {}), SOURCES)
    assert by_id(chosen, "preferred") == {"a": True, "b": False, "c": False}


def test_other_moisture_contents_are_told_from_worse_cells():
    rows = (
        {"condition": "other", "moisture_content_pct": 15.0},
        {"condition": "other", "moisture_content_pct": 10.0},
        {"condition": "other", "moisture_content_pct": 15.0},
    )
    chosen = prefer(cells(*rows), SOURCES)
    assert list(chosen["preference"]) == [
        "first by the written order",
        "printed at another moisture content",
        "first printed",
    ]
    assert disagreements(
        prefer(cells(*[{**r, "value": 5000.0 + 100 * n} for n, r in enumerate(rows)]), SOURCES),
        SOURCES,
    )["other_id"].tolist() == ["c"]


GRAVITY = {
    "property_id": "basic_specific_gravity",
    "condition": "green",
    "source_table": DATABASE,
    "value": 0.55,
}
DENSITY = {"property_id": "density_12pct", "value": 640.0}


@pytest.mark.parametrize("table", [DATABASE, TROPICAL])
def test_a_compiled_gravity_gives_way_to_a_density_of_the_wood_itself(table):
    ovendry = {"property_id": "density_ovendry", "condition": "ovendry"}
    rows = [{**GRAVITY, "source_table": table}, ovendry, DENSITY]
    chosen = prefer(cells(*rows), SOURCES)
    assert by_id(chosen, "preferred") == {"a": False, "b": True, "c": True}
    # The density at 12 % is tried before that of ovendry wood.
    assert by_id(chosen, "gives_way_to")["a"] == "c"
    assert by_id(chosen, "preference")["a"] == "a density of the wood itself before a compiled mean"


@pytest.mark.parametrize(
    ("gravity", "density"),
    [
        ({}, {"species_id": "beech"}),  # of another wood
        ({}, {"source_table": DATABASE}),  # compiled as well
        ({}, {"plausibility_flag": "doubtful"}),  # never preferred
        ({}, {"property_id": "side_hardness"}),  # no density
        ({"source_table": "one.csv"}, {}),  # of the wood itself
        ({"property_id": "specific_gravity_12pct"}, {}),  # not basic
    ],
    ids=str,
)
def test_a_gravity_stays_where_nothing_of_the_wood_itself_is_printed(gravity, density):
    chosen = prefer(cells({**GRAVITY, **gravity}, {**DENSITY, **density}), SOURCES)
    assert by_id(chosen, "preferred")["a"]
    assert by_id(chosen, "gives_way_to")["a"] is None


UNCHECKED = {"basis": "unchecked", "value": 5871.0, "rounding": 10.0, "printed_table": "5-3b"}
COUNTERPART = {
    "printed_value": "1,320",
    "printed_unit": "lbf",
    "basis": "checked_twice",
    "unit_counterpart_id": "a",
}


def raised(*rows, counterpart=""):
    frame = corroborate(cells({**UNCHECKED, "unit_counterpart_id": counterpart}, *rows))
    return frame["basis"][0], frame["basis_reason"][0]


def test_a_recalled_value_is_raised_by_its_unit_counterpart():
    assert raised(COUNTERPART, counterpart="b") == (
        "corroborated",
        "repeated by its unit counterpart 1,320 lbf (Table 5-3a, checked twice)",
    )


@pytest.mark.parametrize(
    "off",
    [
        {"value": 5900.0},  # does not agree
        {"basis": "second_hand"},  # was not read
        {"basis": "unchecked"},
        {"value_low": 5000.0},  # a printed range
        {"test_standard": "2-cm specimens", "property_id": "modulus_of_rupture"},
    ],
    ids=str,
)
def test_nothing_else_raises_it(off):
    assert raised({**COUNTERPART, **off}, counterpart="b") == ("unchecked", "")


@pytest.mark.parametrize(
    ("table", "name"),
    [
        ("fia_reference_species.csv", "the Forest Inventory and Analysis species table"),
        ("finishing.csv", "Table 16-1 of the Wood Handbook"),
        ("foreign_woods_other_reports.csv", "Agriculture Handbook 607"),
    ],
)
def test_a_recalled_value_is_raised_by_a_table_that_was_read(table, name):
    witness = {"source_table": table, "printed_value": "5,870"}
    assert raised(witness) == ("corroborated", f"repeated by {name} (5,870, checked)")
    assert raised({**witness, "value": 5900.0}) == ("unchecked", "")
    assert raised({**witness, "basis": "unchecked"}) == ("unchecked", "")
    for key, other in (("species_id", "beech"), ("property_id", "x"), ("condition", "green")):
        assert raised({**witness, key: other}) == ("unchecked", "")


def test_several_witnesses_are_named_once_each_and_none_is_its_own():
    witness = {"source_table": "finishing.csv", "printed_value": "5,870"}
    both = "repeated by its unit counterpart 1,320 lbf (Table 5-3a, checked twice) and Table 16-1"
    basis, reason = raised(COUNTERPART, witness, witness, counterpart="b")
    assert basis == "corroborated"
    assert reason == f"{both} of the Wood Handbook (5,870, checked)"
    own = cells({**UNCHECKED, **{"source_table": "finishing.csv"}}, witness)
    assert list(corroborate(own)["basis"]) == ["unchecked", "checked"]
    assert list(corroborate(own)["basis_reason"]) == ["", ""]


def test_what_was_read_keeps_its_basis_and_the_frame_handed_over_stays():
    frame = cells({}, {**UNCHECKED, "unit_counterpart_id": "a"})
    out = corroborate(frame)
    assert list(out["basis"]) == ["checked", "corroborated"]
    assert list(frame["basis"]) == ["checked", "unchecked"]
    assert "basis_reason" not in frame
    prefer(frame, SOURCES)
    assert "preferred" not in frame


def differing(*rows):
    frame = disagreements(prefer(cells(*rows), SOURCES), SOURCES)
    return frame.to_dict("records")


def test_a_disagreement_tells_both_figures_and_where_they_stand():
    (row,) = differing(
        {"source_id": "new"}, {"value": 6457.0, "printed_table": "Appendix", "basis": "unchecked"}
    )
    assert row == {
        "species_id": "ash",
        "property_id": "side_hardness",
        "condition": "12pct",
        "preferred_id": "a",
        "preferred_value": 5870.0,
        "preferred_from": "Handbook (2021), Table 5-3a",
        "other_id": "b",
        "other_value": 6457.0,
        "other_from": "Handbook (1999), Appendix",
        "difference_pct": pytest.approx(10.0),
        "between": "edition",
    }


def test_what_agrees_within_its_rounding_is_no_disagreement():
    assert differing({}, {"value": 5880.0}) == []
    assert len(differing({}, {"value": 5880.1})) == 1
    assert differing({}, {"species_id": "beech", "value": 9.0}) == []
    assert differing({"plausibility_flag": "x"}, {"plausibility_flag": "x", "value": 9.0}) == []


def test_a_place_without_a_table_ends_with_the_publication():
    (row,) = differing({"printed_table": ""}, {"value": 9000.0})
    assert row["preferred_from"] == "Handbook (1999)"


@pytest.mark.parametrize(
    ("first", "other", "between"),
    [
        ({"unit_counterpart_id": "b"}, {"grown_in": "Canada"}, "unit_counterpart"),
        ({}, {"grown_in": "Canada"}, "sample"),
        ({}, {}, "series"),
        ({"source_id": "new"}, {}, "edition"),
        ({}, {"source_table": "two.csv"}, "source"),
    ],
    ids=lambda x: x if isinstance(x, str) else "",
)
def test_what_kind_of_pair_disagrees(first, other, between):
    (row,) = differing(first, {"value": 9000.0, **other})
    assert row["between"] == between


def test_disagreements_come_in_the_order_of_wood_property_condition_and_cell():
    rows = [
        {"species_id": "oak"},
        {"species_id": "oak", "value": 1.0, "measurement_id": "z"},
        {"species_id": "oak", "value": 2.0, "measurement_id": "y"},
        {},
        {"value": 3.0},
    ]
    assert [r["other_id"] for r in differing(*rows)] == ["e", "y", "z"]


def test_an_undated_publication_is_older_than_any():
    chosen = prefer(cells({"source_id": "undated"}, {"source_id": "report"}), SOURCES)
    assert by_id(chosen, "preferred") == {"a": False, "b": True}
    assert by_id(chosen, "preference")["a"] == "newer edition"


@pytest.mark.parametrize("turned", [False, True])
def test_a_density_of_a_broad_sample_is_tried_before_one_of_a_narrow_one(turned):
    rows = [
        {**DENSITY, "sample": "one tree"},
        {"property_id": "density_ovendry", "condition": "ovendry"},
        {"property_id": "density_air_dry", "condition": "air dry"},
    ]
    chosen = prefer(cells(GRAVITY, *(rows[::-1] if turned else rows)), SOURCES)
    assert by_id(chosen, "gives_way_to")["a"] == "c"


def test_cells_keep_their_places():
    frame = cells({"value": 9000.0}, {"basis": "checked_twice"}).set_axis([8, 4])
    chosen = prefer(frame, SOURCES)
    assert chosen["preferred"].to_dict() == {8: False, 4: True}
    raised = corroborate(
        cells({**UNCHECKED, "unit_counterpart_id": "b"}, COUNTERPART).set_axis([8, 4])
    )
    assert raised["basis"].to_dict() == {8: "corroborated", 4: "checked_twice"}


def test_a_pair_that_agrees_ends_no_list():
    other = {"condition": "other", "moisture_content_pct": 10.0}
    rows = [
        {"condition": "other", "moisture_content_pct": 15.0},
        {**other, "value": 9000.0},
        {"species_id": "oak"},
        {"species_id": "oak", "value": 5875.0},
        {"species_id": "oak", "value": 9000.0},
        {"species_id": "pine", "plausibility_flag": "doubtful", "value": 1.0},
        {"species_id": "yew"},
        {"species_id": "yew", "value": 9000.0},
    ]
    assert [r["other_id"] for r in differing(*rows)] == ["e", "h"]
