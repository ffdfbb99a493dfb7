"""Air that a person gives, and the moisture content of wood in it."""

import pytest

from woodref.climate.air import (
    checked_air,
    humidities_to_keep,
    humidity_to_keep,
    moisture_in_air,
)
from woodref.errors import InputError
from woodref.formulas.moisture import equilibrium_moisture_content


@pytest.mark.parametrize(
    ("celsius", "good"), [(-1.11, True), (93.33, True), (-2, False), (94, False)]
)
def test_the_range_compared_with_print(celsius, good):
    if good:
        assert checked_air(celsius, 50.0) == (celsius, 50.0)
    else:
        with pytest.raises(InputError, match="30 to 200 F"):
            checked_air(celsius, 50.0)


def test_saturated_air_has_no_answer():
    with pytest.raises(InputError, match="without end"):
        moisture_in_air(20.0, 100.0)


def test_the_humidity_to_keep_is_that_of_the_moisture_content():
    kept = humidity_to_keep(8.0, 20.0)
    assert moisture_in_air(20.0, kept) == pytest.approx(8.0, abs=1e-6)
    with pytest.raises(InputError, match="no air keeps wood at 40 %"):
        humidity_to_keep(40.0, 20.0)


@pytest.mark.parametrize("humidity", [100.0, 100.5])
def test_what_saturated_air_brings_wood_to_is_kept_by_no_air(humidity):
    """An array refuses its element as the single number does, at the very end as well."""
    most = equilibrium_moisture_content(20.0, humidity)
    with pytest.raises(InputError, match="more is liquid water"):
        humidity_to_keep(most, 20.0)
    with pytest.raises(InputError, match=r"more is liquid water \(element 1\)"):
        humidities_to_keep([8.0, most], 20.0)
