"""Moist air, moisture content and diffusion to 50 digits, written from print.

Equation numbers are those of Wood Handbook FPL-GTR-282 (2021), chapter 4.
"""

from exact_density import gravity_general
from mpmath import cos, exp, findroot, mpf, pi, sin, sqrt

#: The constants of Eq. 4-5 for degrees Celsius: those of T to the powers 0, 1 and 2.
SIMPSON = {
    "W": ("349", "1.29", "0.0135"),
    "K": ("0.805", "0.000736", "-0.00000273"),
    "K1": ("6.27", "-0.00938", "-0.000303"),
    "K2": ("1.91", "0.0407", "-0.000293"),
}
#: The same of the edition of 2010, p. 4-3, for degrees Fahrenheit.
SIMPSON_F = {
    "W": ("330", "0.452", "0.00415"),
    "K": ("0.791", "0.000463", "-0.000000844"),
    "K1": ("6.34", "0.000775", "-0.0000935"),
    "K2": ("1.09", "0.0284", "-0.0000904"),
}


def emc(temperature, humidity, constants=SIMPSON):
    """Eq. 4-5, the humidity in percent."""
    w, k, k1, k2 = (
        sum(mpf(c) * temperature**power for power, c in enumerate(of))
        for of in (constants[name] for name in ("W", "K", "K1", "K2"))
    )
    h = humidity / 100
    bound = (k1 * k * h + 2 * k1 * k2 * k**2 * h**2) / (1 + k1 * k * h + k1 * k2 * k**2 * h**2)
    return 1800 / w * (k * h / (1 - k * h) + bound)


def humidity_for(moisture, temperature):
    """The root of Eq. 4-5 between dry and saturated air."""
    return findroot(lambda h: emc(temperature, h) - moisture, (mpf(0), mpf(100)), solver="anderson")


def saturation(t):
    """WMO-No. 8, annex 4.B: 6.112 exp(17.62 t / (243.12 + t)) hPa."""
    return 100 * mpf("6.112") * exp(mpf("17.62") * t / (mpf("243.12") + t))


def room_temperature(outdoor, warmer, heated, cooled):
    return min(max(outdoor + warmer, heated), cooled)


def room_humidity(outdoor, humidity, room, gain):
    """The gas law for the vapor that living adds: all of it at 0 degC, none at 20 and above."""
    part = 1 if outdoor <= 0 else 0 if outdoor >= 20 else 1 - outdoor / 20
    added = gain / 1000 * part * mpf("461.5") * (room + mpf("273.15"))
    return min(mpf(100), 100 * (saturation(outdoor) * humidity / 100 + added) / saturation(room))


def porosity(basic, moisture):
    """Siau (1984): v = 1 - G (0.667 + 0.01 M)."""
    gravity = gravity_general(basic, moisture, mpf(30))
    return max(mpf(0), 1 - gravity * (mpf("0.667") + moisture / 100))


def diffusivity(moisture, temperature, basic):
    """Siau (1984): that of the cell wall over (1 - a)(1 - a2), a2 the porosity."""
    heat = mpf("8.314462618") * (temperature + mpf("273.15"))
    wall = mpf("7e-6") / exp((38500 - 290 * moisture) / heat)
    a = sqrt(porosity(basic, moisture))
    return wall / (1 - a) / (1 - a**2)


def slab_uptake(fourier, biot, terms=12):
    """Crank (1975): the series over the roots of b tan b = Bi, one from n pi to n pi + pi / 2."""
    kept = mpf(0)
    for n in range(terms):
        b = findroot(
            lambda x: x * sin(x) - biot * cos(x),
            (n * pi, n * pi + pi / 2),
            solver="anderson",
            tol=mpf("1e-60"),
        )
        kept += 2 * biot**2 * exp(-(b**2) * fourier) / (b**2 * (b**2 + biot**2 + biot))
    return 1 - kept


EXACT = {
    "air.saturation_vapor_pressure": saturation,
    "moisture.equilibrium_moisture_content": emc,
    "moisture.relative_humidity_for": humidity_for,
    # Eq. 4-2: MC = 100 (wet - dry) / dry.
    "moisture.moisture_content": lambda wet, dry: 100 * (wet / dry - 1),
    # Eq. 4-3: MCmax = 100 (1.54 - Gb) / (1.54 Gb).
    "moisture.maximum_moisture_content": lambda basic: (
        100 * (mpf("1.54") - basic) / (mpf("1.54") * basic)
    ),
    # Eq. 4-4: MCsink = 100 (1 - Gb) / Gb.
    "moisture.sink_moisture_content": lambda basic: 100 / basic - 100,
    # FPL-GTR-190 (2010), p. 13-3: 0.5 % for each 10 degF colder, in degrees Fahrenheit.
    "moisture.meter_moisture_content": lambda reading, wood, made_for: (
        reading + ((made_for * 9 / 5 + 32) - (wood * 9 / 5 + 32)) / 20
    ),
    "room.room_temperature": room_temperature,
    "room.room_humidity": room_humidity,
    "room.held_humidity": lambda humidity, least, most: min(max(humidity, least), most),
    # Eq. 4-5, no further than fiber saturation at 30 %.
    "room.moisture_content_in_air": lambda t, h: min(emc(t, h), mpf(30)),
    "diffusion.porosity": porosity,
    "diffusion.transverse_diffusivity": diffusivity,
    # The relation of Lewis: Z = rho cp Rv T / h.
    "diffusion.air_film_resistance": lambda convection, t: (
        mpf("1.2") * 1006 * mpf("461.5") * (mpf("273.15") + t) / convection
    ),
    # Equal flux: rho dM / (100 R) = dp / Z.
    "diffusion.moisture_resistance": lambda z, rho, per_pct: z * (rho / 100) / per_pct,
    "diffusion.slab_uptake": slab_uptake,
}
