"""The unit of every result follows from those of its inputs, as the docstrings name them.

Each formula is run with quantities of pint in the units of its docstring, and again with inputs
in other units. Where an equation holds for one unit alone, UNIT_BOUND says so and names what is
checked in place of that.
"""

import inspect
import re
from math import exp

import pint
import pytest
from formula_cases import CASES, FORMULAS

from woodref.formulas import density, diffusion, fastening, folded, lumber, spread

U = pint.UnitRegistry()
#: Units as the docstrings write them; percent, degrees and numbers have none.
WRITTEN = {
    "mm": "mm",
    "mm4": "mm**4",
    "N": "N",
    "N/mm2": "N/mm**2",
    "N/mm1.5": "N/mm**1.5",
    "MPa": "MPa",
    "m3": "m**3",
    "kg": "kg",
    "kg/m3": "kg/m**3",
    "m3/kg": "m**3/kg",
    "W/(m2 K)": "W/(m**2*K)",
    "Pa s m2/kg": "Pa*s*m**2/kg",
    "Pa per % moisture content": "Pa",
    "s/m": "s/m",
    "ft2": "ft**2",
    "144 cubic inches": "",
}
#: The same quantity in another system, for the second run.
OTHER = {
    "mm": "inch",
    "mm4": "inch**4",
    "N": "lbf",
    "N/mm2": "lbf/inch**2",
    "N/mm1.5": "lbf/inch**1.5",
    "MPa": "lbf/inch**2",
    "m3": "ft**3",
    "kg": "lb",
    "kg/m3": "lb/ft**3",
    "m3/kg": "ft**3/lb",
    "W/(m2 K)": "W/(cm**2*K)",
    "Pa s m2/kg": "lbf*s/lb",
    "Pa per % moisture content": "lbf/ft**2",
    "s/m": "hour/ft",
    "144 cubic inches": "",
}
#: Constants that carry a unit, where a formula takes them from.
CONSTANTS = [
    (density, "WATER_DENSITY_KG_M3", "kg/m**3"),
    (folded, "WATER_DENSITY_KG_M3", "kg/m**3"),
    (lumber, "BOARD_FOOT_M3", "m**3"),
    (diffusion, "AIR_DENSITY", "kg/m**3"),
    (diffusion, "AIR_HEAT", "J/(kg*K)"),
    (diffusion, "VAPOR_GAS_CONSTANT", "J/(kg*K)"),
    (diffusion, "_KELVIN", "K"),
]
#: Formulas with a constant for one unit, and what is checked below instead.
UNIT_BOUND = {
    "air.saturation_vapor_pressure": "temperatures in degC",
    "fastening.nail_withdrawal": "N and mm: against the inch-pound form of print",
    "fastening.annular_nail_withdrawal": "N and mm: against the inch-pound form of print",
    "fastening.screw_withdrawal": "N and mm: against the inch-pound form of print",
    "fastening.lag_withdrawal": "N and mm: against the inch-pound form of print",
    "moisture.equilibrium_moisture_content": "degC: against the constants for degF",
    "moisture.meter_moisture_content": "a difference of temperatures, against degF",
    "room.room_temperature": "temperatures in degC",
    "room.room_humidity": "temperatures in degC, and grams",
    "room.moisture_content_in_air": "as equilibrium_moisture_content",
    "diffusion.transverse_diffusivity": "SI: against the form in calories and centimeters",
    "lumber.board_feet": "inches and feet: against the board foot of pint",
    "lumber.surface_measure": "inches and feet, rounded",
    "lumber.board_feet_of_surface": "a whole number of square feet, inches",
}
ANY = re.compile(r"\bany\b|that unit|the unit of|the same unit|unit given|the cuts")


def documented(function):
    """The unit of each parameter and of the result, '' for a number and 'any' for any one."""
    text = inspect.getdoc(function)
    parts = re.split(r"\n(Parameters|Returns|Raises|Notes|References)\n-+\n", text)
    sections = dict(zip(parts[1::2], parts[2::2], strict=True))
    units, told = {}, ""
    for entry in re.split(r"\n(?=\w)", sections["Parameters"]):
        names, _, description = entry.partition(" : ")
        told = unit_of(description, told)
        for name in names.split(", "):
            units[name.strip("*")] = told
    return units, unit_of(sections["Returns"], "")


def unit_of(description, before):
    """The unit in square brackets; 'any' where it says so."""
    flat = " ".join(description.split())
    bracket = re.search(r"\[([^\]]+)\](?!_)", flat)
    # Of two that differ by a percent, which has no unit, the first.
    unit = bracket[1].partition(", ")[0] if bracket else ""
    if unit.startswith("any") or (not unit and ANY.search(flat)):
        return "any"
    return unit if unit in WRITTEN or unit == "degC" else ""


NUMBERS = [name for name in CASES if not name.startswith("engine.")]
CHECKED = [name for name in NUMBERS if name not in UNIT_BOUND]


@pytest.fixture
def constants(monkeypatch):
    for module, name, unit in CONSTANTS:
        monkeypatch.setattr(module, name, U.Quantity(getattr(module, name), unit))


def computed(name, system, length):
    """The result of a formula for its first case, each input in the unit of a system."""
    units, _ = documented(FORMULAS[name])
    values = {}
    for parameter, column in CASES[name].items():
        unit = units[parameter]
        if unit == "any":
            values[parameter] = U.Quantity(column[0], "mm").to(length)
        elif unit == "degC":
            values[parameter] = U.Quantity(column[0], "K")
        elif unit:
            values[parameter] = U.Quantity(column[0], WRITTEN[unit]).to(system[unit])
        else:
            values[parameter] = column[0]
    return FORMULAS[name](**values)


@pytest.mark.usefixtures("constants")
@pytest.mark.parametrize("name", CHECKED)
def test_the_unit_of_the_result_is_the_documented_one(name):
    _, unit = documented(FORMULAS[name])
    metric = computed(name, WRITTEN, "mm")
    customary = computed(name, OTHER, "inch")
    wanted = "mm" if unit == "any" else WRITTEN.get(unit, "")
    for result in (metric, customary):
        assert U.Quantity(result).is_compatible_with(wanted), name
    same = U.Quantity(customary).to(wanted).magnitude
    assert same == pytest.approx(U.Quantity(metric).to(wanted).magnitude, rel=1e-12)


@pytest.mark.parametrize("name", CHECKED)
def test_the_plain_numbers_are_those_of_the_quantities(name, request):
    first = {p: column[0] for p, column in CASES[name].items()}
    plain = FORMULAS[name](**first)
    request.getfixturevalue("constants")
    _, unit = documented(FORMULAS[name])
    wanted = "mm" if unit == "any" else WRITTEN.get(unit, "")
    assert U.Quantity(computed(name, WRITTEN, "mm")).to(wanted).magnitude == pytest.approx(
        plain, rel=1e-12
    )


def test_what_is_bound_to_a_unit_is_a_formula_and_few():
    assert set(UNIT_BOUND) <= set(NUMBERS)
    assert len(UNIT_BOUND) <= 14


def test_a_board_foot_is_that_of_pint():
    for thickness, width, length in ((1.0, 8.0, 10.0), (2.25, 6.5, 8.0)):
        volume = U.Quantity(thickness, "inch") * U.Quantity(width, "inch")
        volume = volume * U.Quantity(length, "ft")
        feet = lumber.board_feet(thickness, width, length)
        assert feet == pytest.approx(volume.to("board_foot").magnitude, rel=1e-12)
    assert U.Quantity(1, "board_foot").to("m**3").magnitude == pytest.approx(
        lumber.BOARD_FOOT_M3, rel=1e-12
    )


@pytest.mark.parametrize(
    ("formula", "constant", "gravity_power", "diameter_power"),
    [
        # Wood Handbook FPL-GTR-282 (2021), pp. 8-2, 8-4, 8-10 and 8-12: loads in lb, sizes in in.
        (fastening.nail_withdrawal, 7850.0, 2.5, 1.0),
        (fastening.annular_nail_withdrawal, 11250.0, 2.0, 1.0),
        (fastening.screw_withdrawal, 15700.0, 2.0, 1.0),
        (fastening.lag_withdrawal, 8100.0, 1.5, 0.75),
    ],
)
def test_loads_are_those_of_the_inch_pound_form(formula, constant, gravity_power, diameter_power):
    """Within 0.1 %, as both constants are rounded."""
    diameter, depth = U.Quantity(0.19, "inch"), U.Quantity(1.25, "inch")
    printed = constant * 0.55**gravity_power * 0.19**diameter_power * 1.25
    load = U.Quantity(formula(0.55, diameter.m_as("mm"), depth.m_as("mm")), "N")
    assert load.m_as("lbf") == pytest.approx(printed, rel=1e-3)


def test_a_meter_is_off_by_half_a_percent_for_ten_degrees_fahrenheit():
    """FPL-GTR-190 (2010), p. 13-3 (page inferred)."""
    meter = FORMULAS["moisture.meter_moisture_content"]
    made_for, wood = U.Quantity(70, "degF"), U.Quantity(40, "degF")
    corrected = meter(9.0, wood.to("degC").magnitude, made_for.to("degC").magnitude)
    assert corrected == pytest.approx(10.5, abs=1e-9)


def test_diffusion_is_that_of_the_form_in_calories():
    """Siau (1984), from memory: 0.07 exp(-(9200 - 70 M) / (R T)) cm2/s in calories.

    Within 2 %: 70 cal is 293 J, rounded to 290.
    """
    for moisture, celsius in ((8.0, 20.0), (20.0, 27.0)):
        energy = U.Quantity(9200.0 - 70.0 * moisture, "cal/mol")
        heat = U.Quantity(1.0, "molar_gas_constant") * U.Quantity(celsius, "degC").to("K")
        wall = U.Quantity(0.07 * exp(-(energy / heat).m_as("")), "cm**2/s")
        pores = diffusion.porosity(0.5, moisture)
        whole = diffusion.transverse_diffusivity(moisture, celsius, 0.5)
        cell_wall = whole * (1.0 - pores**0.5) * (1.0 - pores)
        assert cell_wall == pytest.approx(wall.m_as("m**2/s"), rel=0.02)


def test_a_range_is_in_the_unit_of_its_figures():
    mean, sd = U.Quantity(10.0, "inch"), U.Quantity(5.08, "mm")
    low, high = spread.likely_range(mean, sd, U.Quantity(0.0, "mm"), U.Quantity(1.0, "ft"))
    assert low.m_as("inch") == pytest.approx(10.0 - 0.2 * spread.Z90, rel=1e-12)
    assert high.m_as("mm") == pytest.approx(254.0 + 5.08 * spread.Z90, rel=1e-12)


def test_sums_of_spreads_scale_with_their_unit():
    sds = [1.0, 2.5, 0.3]
    inches = [s / 25.4 for s in sds]
    assert spread.sd_of_sum(inches) * 25.4 == pytest.approx(spread.sd_of_sum(sds), rel=1e-12)
    one, other = {"a": sds, "b": [4.0]}, {"a": inches, "b": [4.0 / 25.4]}
    assert spread.sd_of_woods(other) * 25.4 == pytest.approx(spread.sd_of_woods(one), rel=1e-12)
    chance = spread.chance_greater(10.0 / 25.4, 1.0 / 25.4, 9.0 / 25.4, 2.0 / 25.4)
    assert chance == pytest.approx(spread.chance_greater(10.0, 1.0, 9.0, 2.0), rel=1e-12)


def test_a_cross_section_scales_with_its_unit():
    point, facing = complex(30.0, 42.0), complex(0.6, 0.8)
    for name in ("cross_section.moved", "cross_section.moved_far"):
        moved = FORMULAS[name]
        inches = moved(point / 25.4, 0.02, 0.05, facing) * 25.4
        assert inches == pytest.approx(moved(point, 0.02, 0.05, facing), rel=1e-12)
    ratio = FORMULAS["cross_section.length_ratio"]
    assert ratio(point / 25.4, 1j, 0.02, 0.05) == pytest.approx(
        ratio(point, 1j, 0.02, 0.05), rel=1e-12
    )


#: Without a unit in or out, or not of numbers alone.
NO_UNIT = {
    *("cross_section.angle_ratio", "cross_section.gap_deg", "declaration.declaration"),
    *("declaration.formula", "slab.diffuse", "diffusion.slab_uptake"),
    *("folded.size_lines", "folded.lines_as_bends"),
    *("moisture.relative_humidity_for", "spread.difference"),
}
#: With a test of their own above.
OWN_TEST = {
    *("cross_section.moved", "cross_section.moved_far", "cross_section.length_ratio"),
    "folded.density_coefficients",
    *("spread.likely_range", "spread.sd_of_sum", "spread.sd_of_woods", "spread.chance_greater"),
}


def test_every_public_formula_is_checked_or_has_no_unit():
    engine = {name for name in FORMULAS if name.startswith("engine.")}
    assert set(CHECKED) | set(UNIT_BOUND) | NO_UNIT | OWN_TEST | engine == set(FORMULAS)


@pytest.mark.usefixtures("constants")
def test_folded_coefficients_are_volumes_of_a_kilogram():
    middle, half = folded.density_coefficients(0.55, 13.3, 28.0)
    assert U.Quantity(middle).m_as("m**3/kg") == pytest.approx(1.6973e-3, rel=1e-4)
    assert U.Quantity(half).is_compatible_with("ft**3/lb")
