"""Every public formula, with arguments that exercise each of its parameters."""

import importlib
import inspect
import pkgutil

import woodref.formulas

#: Arguments of every engine-neutral formula: one list of values per parameter.
CASES = {
    "bending.second_moment": {"width_mm": [250.0, 40.0], "thickness_mm": [19.0, 90.0]},
    "bending.second_moment_round": {"diameter_mm": [32.0, 60.0]},
    "bending.disc_width": {"diameter_mm": [350.0, 900.0]},
    "bending.deflection_uniform": {
        "load_n": [300.0, 50.0],
        "span_mm": [900.0, 1800.0],
        "modulus_mpa": [8500.0, 12300.0],
        "second_moment_mm4": [142_000.0, 2.4e6],
        "coefficient": [5 / 384, 1 / 8],
    },
    "bending.deflection_point_simple": {
        "load_n": [200.0, 50.0],
        "span_mm": [900.0, 1800.0],
        "nearer_mm": [450.0, 100.0],
        "modulus_mpa": [8500.0, 12300.0],
        "second_moment_mm4": [142_000.0, 2.4e6],
    },
    "bending.deflection_point_fixed": {
        "load_n": [200.0, 50.0],
        "span_mm": [900.0, 1800.0],
        "nearer_mm": [450.0, 100.0],
        "modulus_mpa": [8500.0, 12300.0],
        "second_moment_mm4": [142_000.0, 2.4e6],
    },
    "bending.deflection_point_cantilever": {
        "load_n": [200.0, 50.0],
        "span_mm": [900.0, 1800.0],
        "distance_mm": [900.0, 100.0],
        "modulus_mpa": [8500.0, 12300.0],
        "second_moment_mm4": [142_000.0, 2.4e6],
    },
    "fastening.nail_withdrawal": {
        "specific_gravity": [0.35, 0.68],
        "diameter_mm": [2.87, 3.76],
        "penetration_mm": [30.0, 50.0],
    },
    "fastening.annular_nail_withdrawal": {
        "ovendry_specific_gravity": [0.37, 0.72],
        "diameter_mm": [3.05, 4.5],
        "penetration_mm": [30.0, 50.0],
    },
    "fastening.screw_withdrawal": {
        "specific_gravity": [0.35, 0.68],
        "diameter_mm": [2.84, 4.83],
        "penetration_mm": [12.0, 40.0],
    },
    "fastening.lag_withdrawal": {
        "specific_gravity": [0.35, 0.68],
        "diameter_mm": [6.4, 12.7],
        "penetration_mm": [40.0, 90.0],
    },
    "fastening.nail_lateral": {"coefficient": [50.04, 94.52], "diameter_mm": [2.87, 4.11]},
    "fastening.screw_lateral": {"coefficient": [23.17, 44.13], "diameter_mm": [2.84, 6.15]},
    "fastening.lag_lateral": {
        "coefficient": [26.34, 34.13],
        "diameter_mm": [6.35, 9.525],
        "factor": [0.62, 1.22],
    },
    "fastening.screw_pilot_hole": {"shank_mm": [4.17, 5.49], "root_share_pct": [70.0, 90.0]},
    "fastening.long_time_load": {"average_maximum_n": [600.0, 5300.0]},
    "folded.density_by_coefficients": {
        "moisture_pct": [0.0, 12.0, 60.0],
        "middle_m3_per_kg": [1.5e-3, 1.8e-3, 1.3e-3],
        "per_pct_m3_per_kg": [9e-6, 7e-6, 8e-6],
        "fiber_saturation_pct": [28.0, 26.0, 24.0],
    },
    "folded.share_by_coefficients": {
        "moisture_pct": [3.0, 11.0, 40.0],
        "level": [0.90, 0.92, 0.94],
        "slope": [3e-3, 2.8e-3, 2e-3],
        "bend_at_6": [3.4e-4, 2.9e-4, 0.0],
        "bend_at_14": [-3.1e-4, 3e-4, 0.0],
        "bend_at_saturation": [-3.1e-3, -3e-3, -2.1e-3],
        "fiber_saturation_pct": [28.0, 26.0, 24.0],
    },
    "folded.tangential_share": {"ring_angle_deg": [0.0, 45.0, 80.0]},
    "folded.across_by_share": {
        "tangential": [9.0, 7.2, 4.4],
        "radial": [4.0, 3.7, 2.4],
        "share": [1.0, 0.5, 0.2],
    },
    "engine.exp": {"x": [-2.0, 0.0, 1.5]},
    "engine.log": {"x": [0.2, 1.0, 30.0]},
    "engine.atan_degrees": {"x": [-1.0, 0.0, 0.98]},
    "engine.cos_degrees": {"x": [0.0, 45.0, 90.0]},
    "engine.floor": {"x": [-1.5, 2.0, 2.999]},
    "engine.absolute": {"x": [-1.5, 0.0, 2.25]},
    "engine.smaller": {"a": [1.0, 2.0, -3.0], "b": [2.0, 1.0, -3.0]},
    "engine.larger": {"a": [1.0, 2.0, -3.0], "b": [2.0, 1.0, -3.0]},
    "air.saturation_vapor_pressure": {"temperature_c": [-20.0, 0.0, 35.0]},
    "room.room_temperature": {
        "outdoor_c": [-12.0, 18.0, 30.0],
        "warmer_c": [0.0, 3.0, 0.0],
        "heated_c": [21.0, 5.0, 21.0],
        "cooled_c": [24.0, 40.0, 24.0],
    },
    "room.room_humidity": {
        "outdoor_c": [-12.0, 21.0, 30.0],
        "outdoor_humidity_pct": [75.0, 40.0, 80.0],
        "room_c": [21.0, 22.0, 24.0],
        "gain_g_m3": [4.0, 0.0, 6.0],
    },
    "room.held_humidity": {
        "humidity_pct": [18.0, 47.0, 92.0],
        "least_pct": [30.0, 0.0, 40.0],
        "most_pct": [100.0, 45.0, 50.0],
    },
    "room.moisture_content_in_air": {
        "temperature_c": [-1.0, 20.0, 10.0],
        "relative_humidity_pct": [5.0, 40.0, 100.0],
    },
    "moisture.equilibrium_moisture_content": {
        "temperature_c": [-1.0, 20.0, 93.0],
        "relative_humidity_pct": [5.0, 40.0, 95.0],
    },
    "moisture.moisture_content": {"wet_mass": [412.0, 371.0], "dry_mass": [371.0, 371.0]},
    "moisture.maximum_moisture_content": {"basic_specific_gravity": [0.3, 0.55, 0.9]},
    "moisture.sink_moisture_content": {"basic_specific_gravity": [0.3, 0.55, 1.1]},
    "moisture.meter_moisture_content": {
        "reading_pct": [6.0, 11.0, 30.0],
        "temperature_c": [-10.0, 5.0, 40.0],
        "calibration_c": [20.0, 21.1, 27.0],
    },
    "movement.cv_of_size_change": {
        "tangential": [9.9, 0.32, 12.0],
        "radial": [4.8, 0.2, 5.0],
        "tangential_sd": [1.6, 0.05, 1.8],
        "radial_sd": [0.8, 0.03, 0.75],
        "ring_angle_deg": [0.0, 45.0, 90.0],
        "fiber_saturation_cv": [0.13, 0.0, 0.15],
    },
    "movement.share_of_green_size_across": {
        "moisture_pct": [4.0, 12.0, 20.0],
        "ring_angle_deg": [0.0, 45.0, 90.0],
        "tangential_pct": [7.4, 5.1, 9.9],
        "radial_pct": [4.2, 2.5, 4.8],
        "fiber_saturation_pct": [28.0, 22.0, 30.0],
        "tangential_per_pct": [0.00238, 0.00187, 0.00353],
        "radial_per_pct": [0.00150, 0.00084, 0.00165],
    },
    "movement.size_across": {
        "size": [965.0, 200.0, 25.0],
        "from_moisture_pct": [7.0, 20.0, 12.0],
        "to_moisture_pct": [11.0, 8.0, 0.0],
        "ring_angle_deg": [0.0, 45.0, 90.0],
        "tangential_pct": [7.4, 5.1, 9.9],
        "radial_pct": [4.2, 2.5, 4.8],
        "fiber_saturation_pct": [28.0, 22.0, 30.0],
        "tangential_per_pct": [0.00238, 0.00187, 0.00353],
        "radial_per_pct": [0.00150, 0.00084, 0.00165],
    },
    "shrinkage.shrinkage_at_ring_angle": {
        "tangential_pct": [9.9, 7.0, 12.0],
        "radial_pct": [4.8, 3.2, 5.0],
        "ring_angle_deg": [0.0, 45.0, 77.0],
    },
    "shrinkage.shrinkage_to": {
        "total_pct": [9.9, 4.8, 14.7],
        "moisture_pct": [0.0, 8.0, 45.0],
        "fiber_saturation_pct": [30.0, 28.0, 25.0],
    },
    "shrinkage.size_at": {
        "size": [965.0, 200.0, 25.0],
        "from_moisture_pct": [7.0, 60.0, 12.0],
        "to_moisture_pct": [11.0, 8.0, 0.0],
        "total_pct": [9.9, 4.8, 7.0],
        "fiber_saturation_pct": [30.0, 28.0, 25.0],
    },
    "cross_section.relative_shrinkage": {
        "total_pct": [9.9, 4.8, 14.7],
        "from_moisture_pct": [12.0, 6.0, 45.0],
        "to_moisture_pct": [6.0, 11.0, 8.0],
        "fiber_saturation_pct": [30.0, 28.0, 25.0],
    },
    "shrinkage.size_by_change_per_pct": {
        "size": [965.0, 200.0],
        "from_moisture_pct": [7.0, 12.0],
        "to_moisture_pct": [11.0, 8.0],
        "change_pct_per_pct": [0.36, 0.2],
    },
    "shrinkage.dimensional_change_coefficient": {
        "total_pct": [9.9, 4.8, 0.0],
        "from_moisture_pct": [10.0, 6.0, 14.0],
        "fiber_saturation_pct": [30.0, 22.0, 30.0],
    },
    "shrinkage.implied_fiber_saturation": {
        "total_pct": [4.2, 5.1, 2.6],
        "coefficient_per_pct": [0.00238, 0.00187, 0.0012],
    },
    "shrinkage.shrinkage_of_coefficient": {
        "coefficient_per_pct": [0.00238, 0.00187, 0.0012],
        "fiber_saturation_pct": [28.0, 27.0, 30.0],
    },
    "shrinkage.coefficient_off_shrinkage": {
        "coefficient_per_pct": [0.00238, 0.00187, 0.00084],
        "total_pct": [4.2, 5.1, 2.5],
        "fiber_saturation_pct": [28.0, 27.0, 30.0],
    },
    "shrinkage.share_of_green_size": {
        "moisture_pct": [4.0, 12.0, 33.0],
        "total_pct": [4.2, 5.1, 2.6],
        "fiber_saturation_pct": [28.0, 22.0, 30.0],
    },
    "shrinkage.share_of_green_size_by_coefficient": {
        "moisture_pct": [4.0, 12.0, 20.0],
        "total_pct": [4.2, 5.1, 2.6],
        "fiber_saturation_pct": [28.0, 22.0, 30.0],
        "coefficient_per_pct": [0.00238, 0.00187, 0.0012],
    },
    "shrinkage.share_of_green_size_on_curve": {
        "moisture_pct": [4.0, 12.0, 20.0],
        "total_pct": [4.2, 5.1, 2.5],
        "fiber_saturation_pct": [28.0, 22.0, 30.0],
        "coefficient_per_pct": [0.00238, 0.00187, 0.00084],
    },
    "shrinkage.size_by_coefficient": {
        "size": [232.0, 965.0],
        "from_moisture_pct": [8.0, 11.0],
        "to_moisture_pct": [11.0, 7.0],
        "coefficient_per_pct": [0.00245, 0.00353],
    },
    "density.volumetric_shrinkage": {"radial_pct": [4.8, 2.0], "tangential_pct": [9.9, 4.0]},
    "density.volumetric_shrinkage_general": {"basic_specific_gravity": [0.16, 0.55]},
    "density.volumetric_shrinkage_from_ovendry_density": {"ovendry_density_kg_m3": [160.0, 700.0]},
    "density.specific_gravity_at": {
        "basic_specific_gravity": [0.55, 0.6, 0.3],
        "moisture_pct": [12.0, 0.0, 80.0],
        "volumetric_pct": [13.3, 16.3, 8.0],
        "fiber_saturation_pct": [30.0, 28.0, 25.0],
    },
    "density.specific_gravity_at_general": {
        "basic_specific_gravity": [0.55, 0.6, 0.3],
        "moisture_pct": [12.0, 0.0, 80.0],
        "fiber_saturation_pct": [30.0, 28.0, 25.0],
    },
    "density.volumetric_shrinkage_implied": {
        "basic_specific_gravity": [0.6, 0.78, 0.31],
        "specific_gravity": [0.68, 0.82, 0.35],
        "moisture_pct": [12.0, 12.0, 8.0],
        "fiber_saturation_pct": [30.0, 28.0, 25.0],
    },
    "strength.property_from_gravity": {
        "coefficient": [20300.0, 15880.0],
        "specific_gravity": [0.42, 0.63],
        "exponent": [0.83, 2.15],
    },
    "spread.sd_of_range": {"low": [0.34, 545.0], "high": [0.68, 610.0]},
    "density.specific_gravity_from_another": {
        "specific_gravity": [0.6, 0.5],
        "shrunk_pct": [8.0, 0.0],
        "other_shrunk_pct": [13.3, 12.0],
    },
    "density.basic_specific_gravity_from": {
        "specific_gravity": [0.6, 0.68, 0.3],
        "moisture_pct": [12.0, 0.0, 80.0],
        "volumetric_pct": [13.3, 16.3, 8.0],
        "fiber_saturation_pct": [30.0, 28.0, 25.0],
    },
    "density.basic_specific_gravity_from_general": {
        "specific_gravity": [0.6, 0.68, 0.3],
        "moisture_pct": [12.0, 0.0, 80.0],
        "fiber_saturation_pct": [30.0, 28.0, 25.0],
    },
    "density.density_at": {"specific_gravity": [0.605, 0.3], "moisture_pct": [12.0, 80.0]},
    "density.mass_of": {"volume_m3": [0.0104, 2.0], "density_kg_m3": [655.0, 480.0]},
    "density.specific_gravity_from_density": {
        "density_kg_m3": [677.6, 540.0],
        "moisture_pct": [12.0, 80.0],
    },
    "density.density_from_ovendry": {
        "ovendry_density_kg_m3": [640.0, 450.0],
        "moisture_pct": [12.0, 40.0],
        "volumetric_pct": [13.3, 10.0],
        "fiber_saturation_pct": [30.0, 28.0],
    },
    "density.greatest_density": {"moisture_pct": [0.0, 12.0, 60.0]},
    "diffusion.porosity": {
        "basic_specific_gravity": [0.38, 0.56, 0.9],
        "moisture_pct": [6.0, 20.0, 0.0],
    },
    "diffusion.transverse_diffusivity": {
        "moisture_pct": [6.0, 20.0, 12.0],
        "temperature_c": [26.7, 10.0, 20.0],
        "basic_specific_gravity": [0.38, 0.56, 0.9],
    },
    "diffusion.air_film_resistance": {
        "convection_w_m2k": [2.5, 0.7, 5.0],
        "temperature_c": [20.0, 5.0, 26.7],
    },
    "diffusion.moisture_resistance": {
        "vapor_resistance": [6e7, 1e10, 4e8],
        "dry_density_kg_m3": [400.0, 600.0, 900.0],
        "vapor_pressure_per_pct": [150.0, 90.0, 40.0],
    },
    "strength.property_at": {
        "at_12_pct": [103000.0, 6450.0, 900.0],
        "green": [66000.0, 4300.0, 950.0],
        "moisture_pct": [8.0, 20.0, 60.0],
        "intersection_pct": [24.0, 25.0, 25.0],
    },
    "strength.modulus_along_grain": {"bending_modulus": [12000.0, 9.5]},
    "spread.cv_of_boards": {
        "cv": [0.1, 0.3, 0.25],
        "boards": [1.0, 4.0, 100.0],
        "correlation": [0.5, 0.0, 1.0],
    },
    "spread.high_end": {
        "expected": [6.8, 120.0],
        "cv": [0.1, 0.0],
        "deviate": [1.645, 1.0],
    },
    "lumber.board_feet": {
        "thickness_in": [0.75, 1.0, 2.25],
        "width_in": [8.0, 6.5, 10.0],
        "length_ft": [10.0, 8.0, 12.5],
    },
    "lumber.surface_measure": {"width_in": [8.0, 6.5, 9.0], "length_ft": [10.0, 8.9, 14.0]},
    "lumber.board_feet_of_surface": {
        "surface_measure_ft2": [7.0, 12.0],
        "thickness_in": [0.75, 1.25],
    },
    "lumber.board_feet_of_volume": {"volume_m3": [0.01, 1.0]},
    "miter.miter_slope": {
        "width": [3.0, 75.0],
        "other_width": [3.0, 50.0],
        "corner_deg": [90.0, 120.0],
    },
    "miter.miter_angle": {"shrinkage": [0.0, 0.02, -0.03], "slope": [1.0, 0.6, 1.5]},
    "miter.miter_opening": {
        "shrinkage": [0.02, -0.03],
        "slope": [1.0, 0.6],
        "other_shrinkage": [0.02, 0.01],
        "other_slope": [1.0, 1.7],
    },
    "miter.cut_length": {"width": [3.0, 75.0], "shrinkage": [0.02, -0.03], "slope": [1.0, 0.6]},
    "miter.opened_gap": {
        "cut": [4.2, 106.0],
        "other_cut": [4.2, 100.0],
        "opening_deg": [1.2, -0.7],
    },
    "miter.corner_opening": {"shrinkage": [0.0, 0.02, -0.03]},
    "miter.miter_gap": {"width": [3.0, 75.0], "shrinkage": [0.02, -0.03]},
    "lumber.volume_of_board_feet": {"board_feet": [6.67, 423.8]},
}

#: Public functions that need not run on every engine, and why.
EXEMPT = {
    "cross_section.angle_ratio": "one number of a map that takes floats and NumPy",
    "cross_section.gap_deg": "one number of a map that takes floats and NumPy",
    "cross_section.moved": "complex numbers: floats and NumPy",
    "cross_section.moved_far": "complex numbers: floats and NumPy",
    "cross_section.length_ratio": "complex numbers: floats and NumPy",
    "declaration.declaration": "says what a formula is, computes nothing",
    "declaration.formula": "says what a formula is, computes nothing",
    "engine.is_known": "gives a truth; has a test of its own below",
    "folded.density_coefficients": "gives two; tested with density_by_coefficients",
    "folded.lines_as_bends": "gives five; tested with share_by_coefficients",
    "folded.size_lines": "gives four; tested with share_by_coefficients",
    "engine.choose": "takes a condition; has a test of its own below",
    "slab.diffuse": "a grid in space and time, of one board in plain numbers",
    "diffusion.slab_uptake": "iteration and a series: NumPy",
    "moisture.relative_humidity_for": "iteration: floats and NumPy",
    "spread.likely_range": "gives two ends; has a test of its own",
    "spread.sd_of_sum": "sums over a list of parts",
    "spread.sd_of_woods": "sums over a list of parts",
    "spread.chance_greater": "one answer, floats",
    "spread.difference": "gives a word",
}


def public_formulas():
    found = {}
    for info in pkgutil.iter_modules(woodref.formulas.__path__):
        module = importlib.import_module(f"woodref.formulas.{info.name}")
        for name, function in inspect.getmembers(module, inspect.isfunction):
            if not name.startswith("_") and function.__module__ == module.__name__:
                found[f"{info.name}.{name}"] = function
    return found


FORMULAS = public_formulas()
