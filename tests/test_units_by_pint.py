"""Every unit that is read and printed, against those of pint."""

import pint
import pytest

from woodref import units
from woodref import written as reading

U = pint.UnitRegistry()

#: The unit of each label of KINDS, as pint writes it.
PRINTED = {
    "mm": "mm",
    "in": "inch",
    "m2": "m**2",
    "ft2": "ft**2",
    "m3": "m**3",
    "ft3": "ft**3",
    "board feet": "board_foot",
    "cm3": "cm**3",
    "in3": "inch**3",
    "L": "L",
    "qt": "quart",
    "kg": "kg",
    "lb": "lb",
    "kg/m3": "kg/m**3",
    "lb/ft3": "lb/ft**3",
    "N": "N",
    "lbf": "lbf",
    "N/m": "N/m",
    "lbf/ft": "lbf/ft",
    "MPa": "MPa",
    "psi": "psi",
    "million psi": "megapsi",
    "kJ/m3": "kJ/m**3",
    "in-lbf/in3": "inch*lbf/inch**3",
}
#: Printed with one number in both systems.
SAME = {"", "%", "1/%", "%/%"}


def factor(unit, base):
    return U.Quantity(1.0, unit).to(base).magnitude


@pytest.mark.parametrize(
    ("constant", "unit", "base"),
    [
        ("MM_PER_INCH", "inch", "mm"),
        ("MM_PER_FOOT", "ft", "mm"),
        ("KM_PER_MILE", "mile", "km"),
        ("M2_PER_FT2", "ft**2", "m**2"),
        ("M3_PER_FT3", "ft**3", "m**3"),
        ("CM3_PER_IN3", "inch**3", "cm**3"),
        ("BOARD_FOOT_M3", "board_foot", "m**3"),
        ("L_PER_QUART", "quart", "L"),
        ("L_PER_GALLON", "gallon", "L"),
        ("LB_TO_KG", "lb", "kg"),
        ("KGF_TO_N", "kgf", "N"),
        ("LBF_TO_N", "lbf", "N"),
        ("PSI_TO_MPA", "psi", "MPa"),
        ("LB_FT3_TO_KG_M3", "lb/ft**3", "kg/m**3"),
    ],
)
def test_constants(constant, unit, base):
    assert getattr(units, constant) == pytest.approx(factor(unit, base), rel=1e-12)


@pytest.mark.parametrize("unit", reading._LENGTH_MM)
def test_lengths(unit):
    known = {'"': "inch", "'": "ft", "inches": "inch"}.get(unit, unit)
    written = f"7.5{unit}" if unit in "\"'" else f"7.5 {unit}"
    assert reading.parse_length(written) == pytest.approx(7.5 * factor(known, "mm"), rel=1e-12)


@pytest.mark.parametrize("unit", reading._MASS_KG)
def test_masses(unit):
    known = {"lbs": "lb"}.get(unit, unit)
    assert reading.parse_mass(f"7.5 {unit}") == pytest.approx(7.5 * factor(known, "kg"), rel=1e-12)


@pytest.mark.parametrize("unit", reading._DENSITY_KG_M3)
def test_densities(unit):
    known = unit.replace("3", "**3")
    read = reading.parse_density(f"36.5 {unit}")
    assert read == pytest.approx(36.5 * factor(known, "kg/m**3"), rel=1e-12)


@pytest.mark.parametrize("unit", reading._MODULUS_MPA)
def test_moduli(unit):
    known = {"million psi": "megapsi", "mpa": "MPa", "gpa": "GPa"}.get(unit, unit)
    read = reading.parse_modulus(f"1.8 {unit}")
    assert read == pytest.approx(1.8 * factor(known, "MPa"), rel=1e-12)


@pytest.mark.parametrize("unit", reading._NEWTON)
def test_loads(unit):
    """A load in kg or lb is the weight of that mass."""
    known = {"n": "N", "kn": "kN", "kg": "kgf", "lb": "lbf"}.get(unit, unit)
    assert reading.parse_load(f"50 {unit}", False) == pytest.approx(
        50.0 * factor(known, "N"), rel=1e-12
    )
    for length in reading._PER_METER:
        per = {"foot": "ft", "in": "inch"}.get(length, length)
        assert reading.parse_load(f"50 {unit}/{length}", True) == pytest.approx(
            50.0 * factor(f"{known}/{per}", "N/m"), rel=1e-12
        )


@pytest.mark.parametrize("fahrenheit", [-40.0, 0.0, 32.0, 68.0, 212.0])
def test_temperatures(fahrenheit):
    celsius = U.Quantity(fahrenheit, "degF").to("degC").magnitude
    assert reading.parse_temperature(f"{fahrenheit} F") == pytest.approx(celsius, abs=1e-9)
    assert units.KINDS["temperature"].convert(celsius, "us") == pytest.approx(fahrenheit, abs=1e-9)


@pytest.mark.parametrize("name", [k for k in units.KINDS if k not in ("temperature", "distance")])
def test_what_is_printed(name):
    kind = units.KINDS[name]
    si, us = kind.labels
    if si in SAME:
        assert us == si
        assert kind.convert(12.5, "us") == 12.5
        return
    value = U.Quantity(12.5, PRINTED[si])
    assert kind.convert(12.5, "us") == pytest.approx(value.to(PRINTED[us]).magnitude, rel=1e-12)
    assert kind.convert(12.5, "si") == 12.5


def test_a_distance_in_miles():
    miles = U.Quantity(1000.0, "km").to("mile").magnitude
    assert units.KINDS["distance"].text(1000.0, "us") == f"{miles:.0f} miles"
