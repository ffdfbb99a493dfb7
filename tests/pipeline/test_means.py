"""How far printed means of one wood differ between publications."""

from types import SimpleNamespace

import pytest

from pipeline.means import CHANGE, DENSITY, SHRINKAGE, STRENGTH, independent_figures, kind_of


def figure(value, source, rounding=0.01, test_standard=""):
    return SimpleNamespace(
        value=value, source_id=source, rounding=rounding, test_standard=test_standard
    )


def test_editions_of_the_handbook_are_one_publication():
    rows = [figure(0.50, "wood-handbook-2010"), figure(0.60, "wood-handbook-2021")]
    assert independent_figures(rows) == [0.50]


def test_a_figure_carried_over_counts_once():
    rows = [figure(0.50, "a"), figure(0.505, "b"), figure(0.58, "c")]
    assert independent_figures(rows) == [0.50, 0.58]


def test_test_series_of_the_sheets_are_publications_of_their_own():
    rows = [
        figure(90.0, "tropical-timbers-1984", 1.0, "2-in. specimens, source 1 of the sheet"),
        figure(110.0, "tropical-timbers-1984", 1.0, "2-in. specimens, source 2 of the sheet"),
    ]
    assert len(independent_figures(rows)) == 2


@pytest.mark.parametrize(
    ("property_id", "kind"),
    [
        ("density_12pct", DENSITY),
        ("basic_specific_gravity", DENSITY),
        ("shrinkage_radial", SHRINKAGE),
        ("dimensional_change_coefficient_radial", SHRINKAGE),
        ("change_per_pct_radial", CHANGE),
        ("side_hardness", STRENGTH),
        ("green_moisture_content_sapwood", ""),
    ],
)
def test_kinds(property_id, kind):
    assert kind_of(property_id) == kind


def test_every_printed_mean_says_how_sure_it_is(frames):
    m, properties = frames["measurements"], frames["properties"].set_index("property_id")
    share = (m["uncertainty"] / m["value"]).astype(float)
    printed = m["source_column"].ne("basic_density_g_cm3") & m["value"].notna()
    for property_id, cv in properties["coefficient_of_variation_of_mean_pct"].dropna().items():
        rows = share[m["property_id"].eq(property_id) & printed]
        assert rows.sub(cv / 100.0).abs().max() < 1e-3
    assert 5.0 < properties.loc["density_12pct", "coefficient_of_variation_of_mean_pct"] < 10.0
