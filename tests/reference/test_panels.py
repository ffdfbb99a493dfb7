"""Panels: what print says of their density and stiffness."""

import pytest

from woodref.reference.library import Reference
from woodref.reference.panel_names import PANELS, panel_called
from woodref.reference.panels import panel_figures

LIBRARY = Reference(own=False)


def test_panels_go_by_the_words_of_a_shop_and_of_print():
    assert panel_called("mdf") == panel_called("Medium-density fiberboard ") == "MDF"
    assert panel_called("OSB") == "OSB"
    assert panel_called("white oak") is None


@pytest.mark.parametrize(
    ("panel", "density", "modulus"),
    [
        ("plywood", (500, 400, 600), (7755, 6960, 8550)),
        ("particleboard", (700, 600, 800), (3450, 2760, 4140)),
        ("hardboard", (950, 900, 1000), (4310, 3100, 5520)),
        ("OSB", (650, 500, 800), (5345, 4410, 6280)),
    ],
)
def test_figures_are_those_of_table_12_1(panel, density, modulus):
    """Wood Handbook FPL-GTR-190 (2010), Table 12-1: specific gravity, modulus in GPa."""
    figures = panel_figures(LIBRARY, panel)
    assert tuple(figures.density) == pytest.approx(density)
    assert tuple(figures.modulus_mpa) == pytest.approx(modulus)
    assert figures.density_basis == figures.modulus.basis == "checked"
    assert "Table 12-1" in figures.modulus.source


def test_a_single_number_has_the_range_of_the_mills():
    """MDF: 3.59 GPa in Table 12-1; eight mills in Table 12-6, from 2.98 to 4.38 GPa."""
    assert tuple(panel_figures(LIBRARY, "MDF").modulus_mpa) == (3590.0, 2980.0, 4380.0)


def test_the_modulus_is_known_in_both_printings():
    for panel in PANELS:
        figure = panel_figures(LIBRARY, panel).modulus
        assert figure.in_units("us").printed.endswith("10^6 lbf/in2")
        assert figure.in_units("us").value == pytest.approx(figure.value, rel=0.03)
