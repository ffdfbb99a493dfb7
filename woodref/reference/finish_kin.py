"""Finishes of today by their nearest kin in the test, and finishes by their own resistance."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import NamedTuple

from woodref.errors import InputError, UnitsError
from woodref.reference.names import fold
from woodref.units import either_unit
from woodref.written import BeyondShopError, parse_length


class Kin(NamedTuple):
    """The tested finish that is nearest to one of the shop, and why; all our judgment.

    ``coats_each`` coats of it build about as much as one coat of the tested finish.
    """

    tested: str
    why: str
    coats_each: float = 1.0


_LINSEED, _WAX = "Linseed oil", "Paste furniture wax"
_URETHANE = "Urethane varnish (oil-modified)"
_WIPED = Kin(_URETHANE, "it is thinned varnish; three wiped coats build about a brushed one", 3.0)
_WATERBORNE = Kin("Acrylic latex flat house paint", "both are films of acrylic dispersed in water")
_OIL_AND_WAX = Kin(_LINSEED, "drying oils with wax leave little film, as linseed oil does")
_OIL_AND_VARNISH = Kin(_LINSEED, "mostly oil that is wiped off, with little varnish left")
_MODIFIED = Kin(_URETHANE, "it is what shops call it")
_FILM = Kin("Polyurethane finish, clear (two components)", "both are two-component clear films")
#: By the names shops use, folded; the kinship is our judgment.
KIN: dict[str, Kin] = {
    "hardwax oil": _OIL_AND_WAX,
    "hard wax oil": _OIL_AND_WAX,
    "wax oil": _OIL_AND_WAX,
    "danish oil": _OIL_AND_VARNISH,
    "oil varnish blend": _OIL_AND_VARNISH,
    "boiled linseed oil": Kin(_LINSEED, "it is linseed oil with driers"),
    "walnut oil": Kin(_LINSEED, "both are drying oils"),
    "mineral oil": Kin("Linseed oil sealer (50%)", "it never hardens and leaves no film"),
    "cutting board oil": Kin("Linseed oil sealer (50%)", "it never hardens and leaves no film"),
    "beeswax": Kin(_WAX, "both are thin films of soft wax"),
    "wax": Kin(_WAX, "both are thin films of soft wax"),
    "soap": Kin(_WAX, "it leaves a thin soft film"),
    "wiping varnish": _WIPED,
    "wipe on varnish": _WIPED,
    "wipe on polyurethane": _WIPED,
    "polyurethane": _MODIFIED,
    "polyurethane varnish": _MODIFIED,
    "oil based polyurethane": _MODIFIED,
    "waterborne polyurethane": _WATERBORNE,
    "water based polyurethane": _WATERBORNE,
    "waterborne varnish": _WATERBORNE,
    "water based varnish": _WATERBORNE,
    "waterborne lacquer": _WATERBORNE,
    "lacquer": Kin("Nitrocellulose lacquer", "the lacquer of the test"),
    "conversion varnish": _FILM,
    "two component polyurethane": _FILM,
    "2k polyurethane": _FILM,
    "milk paint": Kin("Latex flat wall paint (vinyl acrylic resin)", "both are open flat paints"),
    "chalk paint": Kin("Latex flat wall paint (vinyl acrylic resin)", "both are open flat paints"),
}

#: Vapor permeability of still air at room temperature [kg/(m s Pa)] (EN ISO 12572, from memory).
AIR_PERMEABILITY = 2.0e-10
#: One perm, grain per hour, square foot and inch of mercury [kg/(m2 s Pa)] (from memory).
PERM = 5.721e-11
_SD = re.compile(r"\s*s\.?d\.?\s*=?\s*(.+)", re.IGNORECASE)
_PERMS = re.compile(r"\s*([0-9]+\.?[0-9]*|\.[0-9]+)\s*perms?\s*", re.IGNORECASE)
#: What a coat of finish may resist, as an equivalent layer of still air [m].
_SD_LIMITS_M = (0.001, 1000.0)


def kin_of(name: str) -> Kin | None:
    """The tested finish nearest to one that shops use, None where the name is no such one."""
    return KIN.get(fold(name.replace("-", " ")))


def own_resistance(name: str) -> float | None:
    """Resistance to vapor of a finish given by its own figure [Pa s m2/kg], None for a name.

    Parameters: name: 'sd 0.8 m', the equivalent layer of still air that data sheets in metric
    countries give, or '2.5 perms', what those in inch countries give; of the whole film.
    Raises: InputError for a figure that no film has.
    """
    perms = _PERMS.fullmatch(name)
    if perms:
        if not float(perms[1]) > 0.0:
            raise InputError("a film of 0 perms would let nothing through; no finish does")
        return _checked(AIR_PERMEABILITY / (float(perms[1]) * PERM))
    layer = _SD.fullmatch(name)
    if not layer:
        return None
    try:
        layer_m = parse_length(layer[1], "") / 1000.0
    except BeyondShopError:
        raise _beyond(lambda units: layer[1]) from None
    except InputError:
        raise UnitsError(
            lambda u: f"'{name}' is no resistance; write {either_unit(u, '2.5 perms', 'sd 0.8 m')}"
        ) from None
    return _checked(layer_m)


def _checked(sd_m: float) -> float:
    low, high = _SD_LIMITS_M
    if not low <= sd_m <= high:
        raise _beyond(
            lambda units: either_unit(units, f"{_perms(sd_m):.3g} perms", f"{sd_m:.3g} m")
        )
    return sd_m / AIR_PERMEABILITY


def _perms(sd_m: float) -> float:
    """The permeance of a layer of still air [perm]."""
    return AIR_PERMEABILITY / (sd_m * PERM)


def _beyond(layer: Callable[[str], str]) -> UnitsError:
    low, high = _SD_LIMITS_M

    def say(units: str) -> str:
        perms = f"{_perms(high):.2g} to {_perms(low):.0f} perms"
        ends = either_unit(units, perms, f"{low:g} to {high:g} m of still air")
        return f"a finish resists vapor as {ends} do, not {layer(units)}"

    return UnitsError(say)
