"""The parts of a piece as its file gives them: solid wood with its cut and staves, sheet goods."""

from __future__ import annotations

from enum import StrEnum

from woodref.board.movement import CUTS, ring_angle
from woodref.board.panel import Stave, equal_staves
from woodref.board.shapes import (
    LENGTH_LIMIT_MM,
    THICKNESS_LIMIT_MM,
    WIDTH_LIMIT_MM,
    Shape,
    volume_of,
)
from woodref.lumber.nominal import Nominal, parse_nominal
from woodref.lumber.turning import GluedTurning, is_turned
from woodref.piece.shipping_table import SHAPE_KEYS, read_shape
from woodref.quantity import Range, exactly
from woodref.record import record
from woodref.reference.panel_names import PANELS
from woodref.reference.panels import PanelFigures
from woodref.toml_reader import TomlTable
from woodref.units import either_unit, size_told
from woodref.written import length_unit, parse_modulus

_PRICE_KEYS = ("price_per_ft2", "price_per_m2", "price_per_sheet")
#: Keys of a table of [[sheets]].
SHEET = ("name", "thickness", "panel", "density", "modulus", "length", "width", *_PRICE_KEYS)
_SIZES = ("name", "note", "quantity", "length", "width", "lift", "assembly")
_STAVES = ("staves", "stave_narrowest", "stave_widest")
_LUMBER_PART = (
    *(*_SIZES, "thickness", "species", "cut", *_STAVES, "stock", "coated", "grain"),
    *SHAPE_KEYS,
)
_SHEET_PART = (*_SIZES, "sheet")
#: How a figure is known that the user's file gives.
GIVEN = "given"


class Coated(StrEnum):
    """Which faces of a part get the finish of the piece."""

    ALL = "all faces"
    ONE = "one face"
    NONE = "none"


#: Staves may miss the width of their panel by this [mm].
_SLACK_MM = 0.5
#: Keys of a table of [[parts]].
PART = tuple(dict.fromkeys((*_LUMBER_PART, *_SHEET_PART)))


@record
class Sheet:
    """Sheet goods: the user's own figures, or those of a panel; area_m2 of one sold whole.

    ``price`` is per ``price_per``: 'm2', 'ft2' or 'sheet'; None where not given. ``panel`` is a
    word of woodref.reference.panels, '' where none is named, and ``figures`` what print says of
    it, None until they are looked up. ``density_kg_m3`` and ``modulus_mpa`` of the user's own go
    before them.
    """

    name: str
    thickness_mm: float
    density_kg_m3: float | None = None
    price: Range | None = None
    price_per: str = ""
    area_m2: float | None = None
    panel: str = ""
    modulus_mpa: float | None = None
    figures: PanelFigures | None = None

    @property
    def density(self) -> Range:
        """Its density, with the range of print where it is not the user's own [kg/m3]."""
        if self.density_kg_m3 is not None or self.figures is None:
            return exactly(self.density_kg_m3 or 0.0)
        return self.figures.density

    @property
    def density_basis(self) -> str:
        """How its density is known: a basis of print, or 'given' by the user."""
        if self.density_kg_m3 is not None or self.figures is None:
            return GIVEN
        return self.figures.density_basis


@record
class Part:
    """A part of the piece, ``quantity`` times; finished sizes [mm] at the build.

    Exactly one of ``species`` and ``sheet`` is set. ``panel`` holds the staves where each has a
    width or a cut of its own; else there are ``staves`` equal ones. ``place`` is where it stands
    in the file, ``lift`` what it is lifted with, ``coated`` which faces get the finish;
    ``end_grain`` is true where the grain stands up through the face, as in a chopping board. The
    staves of a turned part lie face to face; ``glued`` has them once its stock is known, where it
    is glued from some.
    """

    name: str
    quantity: int
    length_mm: float
    width_mm: float
    thickness_mm: float
    place: str
    species: str = ""
    cut: str = "flat"
    ring_angle_deg: float = 0.0
    staves: int = 1
    panel: tuple[Stave, ...] = ()
    stock: Nominal | None = None
    sheet: Sheet | None = None
    note: str = ""
    shape: Shape | None = None
    lift: str = ""
    coated: Coated = Coated.ALL
    end_grain: bool = False
    glued: GluedTurning | None = None

    @property
    def layers(self) -> int:
        """How many boards lie over one another in one piece: the staves of a turning, else 1."""
        return self.glued.staves if self.glued else 1

    @property
    def stock_mm(self) -> float:
        """Thickness that its stock must dress to [mm]."""
        return self.glued.stave_mm if self.glued else self.thickness_mm

    @property
    def face_m2(self) -> float:
        """Area of the wide faces of all pieces of the part, one side [m2]."""
        return self.quantity * self.length_mm * self.width_mm * 1e-6

    @property
    def volume_m3(self) -> float:
        """Finished volume of all pieces of the part, a box where it has no shape [m3]."""
        if self.shape:
            return self.quantity * volume_of(self.shape) * 1e-9
        return self.face_m2 * self.thickness_mm * 1e-3

    @property
    def sheet_kg(self) -> Range:
        """Mass of one piece of a part of sheet goods, nothing for one of solid wood [kg]."""
        if self.sheet is None:
            return exactly(0.0)
        return self.sheet.density.scaled(self.volume_m3 / self.quantity)


def read_sheet(table: TomlTable, units: str) -> Sheet:
    """Sheet goods from a table of [[sheets]].

    Raises: InputError naming file, table, key and problem.
    """
    unit = length_unit(units)
    given = [key for key in _PRICE_KEYS if key in table]
    if len(given) > 1:
        raise table.error(given[1], f"give one price, {given[0]} or {given[1]}")
    whole = given == ["price_per_sheet"]
    area = None
    if whole or "length" in table or "width" in table:
        sizes = [table.length(key, unit, LENGTH_LIMIT_MM) for key in ("length", "width")]
        area = sizes[0] * sizes[1] * 1e-6
    return Sheet(
        name=table.text("name"),
        thickness_mm=table.length("thickness", unit, THICKNESS_LIMIT_MM),
        density_kg_m3=_density(table),
        price=table.figure(given[0], 0.0, 1e9) if given else None,
        price_per=given[0].removeprefix("price_per_") if given else "",
        area_m2=area,
        panel=table.choice("panel", tuple(PANELS)) if "panel" in table else "",
        modulus_mpa=table.parsed("modulus", lambda: parse_modulus(table.text("modulus")))
        if "modulus" in table
        else None,
    )


def _density(table: TomlTable) -> float | None:
    """The density of sheet goods [kg/m3]; None where it is that of its panel."""
    return table.density("density", 3000.0) if "density" in table or "panel" not in table else None


def read_part(table: TomlTable, units: str, sheets: dict[str, Sheet]) -> Part:
    """A part from a table of [[parts]], of solid wood or of one of the ``sheets`` by name.

    Raises: InputError naming file, table, key and problem.
    """
    if "sheet" in table and "species" in table:
        raise table.error("sheet", "a part is of a species or of a sheet, not both")
    if "sheet" not in table and "species" not in table:
        raise table.error(
            "species", 'is missing; write species = "white oak", or sheet = a name of [[sheets]]'
        )
    unit = length_unit(units)
    name = table.text("name")
    quantity = table.integer("quantity", 1, 1000) if "quantity" in table else 1
    length = table.length("length", unit, LENGTH_LIMIT_MM)
    width = table.length("width", unit, WIDTH_LIMIT_MM)
    if "sheet" in table:
        for key in table.data:
            if key in PART and key not in _SHEET_PART:
                where = " (it stands in [[sheets]])" if key == "thickness" else ""
                raise table.error(key, f"a part of sheet goods takes no {key}{where}")
        if not sheets:
            raise table.error("sheet", "there is no [[sheets]] in the file to choose from")
        sheet = sheets[table.choice("sheet", sheets)]
        return Part(
            name,
            quantity,
            length,
            width,
            sheet.thickness_mm,
            table.place,
            sheet=sheet,
            lift=table.text("lift") if "lift" in table else "",
            note=table.text("note") if "note" in table else "",
        )
    thickness = table.length("thickness", unit, THICKNESS_LIMIT_MM)
    if thickness > width:
        thick, wide = (size_told(x, units) for x in (thickness, width))
        raise table.error(
            "thickness", f"{thick} is more than the width of {wide}; the width is the larger"
        )
    cut, angle = _cut(table)
    staves, panel = _panel(table, unit, width, angle)
    stock = _stock(table, unit) if "stock" in table else None
    shape = read_shape(table, units, length, width, thickness)
    if panel and is_turned(shape):
        raise table.error("staves", "those of a turned part are alike; write how many there are")
    if stock and stock.size_mm < thickness and not is_turned(shape):
        rough, thick = (size_told(x, units) for x in (stock.size_mm, thickness))
        raise table.error(
            "stock",
            f"{stock.label} is {rough} rough, thinner than the part, {thick}; take thicker stock",
        )
    return Part(
        name=name,
        quantity=quantity,
        length_mm=length,
        width_mm=width,
        thickness_mm=thickness,
        place=table.place,
        species=table.text("species"),
        cut="by stave" if len({s.ring_angle_deg for s in panel}) > 1 else cut,
        ring_angle_deg=angle,
        staves=staves,
        panel=panel,
        stock=stock,
        shape=shape,
        lift=table.text("lift") if "lift" in table else "",
        note=table.text("note") if "note" in table else "",
        coated=Coated(table.choice("coated", [c.value for c in Coated]))
        if "coated" in table
        else Coated.ALL,
        end_grain="grain" in table and table.choice("grain", ("along", "end")) == "end",
    )


def _cut(table: TomlTable) -> tuple[str, float]:
    """Name and ring angle [degree] of a cut: a word or a number; flat where not given."""
    if "cut" not in table:
        return "flat", CUTS["flat"]
    value = table.data["cut"]
    if isinstance(value, str):
        word = table.choice("cut", tuple(CUTS))
        return word, ring_angle(word)
    angle = table.number("cut", 0.0, 90.0, "degrees from flat (0) to quarter (90)")
    return f"{angle:g} degrees", angle


def _panel(
    table: TomlTable, unit: str, width_mm: float, angle: float
) -> tuple[int, tuple[Stave, ...]]:
    """Number of staves; and the staves themselves where each has a width or a cut of its own."""
    limits = [key for key in _STAVES[1:] if key in table]
    if limits:
        if len(limits) == 1:
            raise table.error(limits[0], f"needs {' and '.join(_STAVES[1:])} together")
        if "staves" in table:
            raise table.error(limits[0], "give either staves, or the narrowest and the widest")
        narrow, wide = (table.length(key, unit, WIDTH_LIMIT_MM) for key in limits)
        equal = table.parsed(limits[0], lambda: equal_staves(width_mm, narrow, wide, angle))
        return len(equal), ()
    if not isinstance(table.data.get("staves"), list):
        return (table.integer("staves", 1, 200) if "staves" in table else 1), ()
    staves = tuple(
        Stave(t.length("width", unit, WIDTH_LIMIT_MM), _cut(t)[1] if "cut" in t else angle)
        for t in table.tables("staves", ("width", "cut"))
    )
    together = sum(s.width_mm for s in staves)
    if not staves or abs(together - width_mm) > _SLACK_MM:
        come_to, whole = (size_told(x, table.units) for x in (together, width_mm))
        raise table.error("staves", f"come to {come_to} together, not to the width of {whole}")
    return len(staves), staves


def _stock(table: TomlTable, unit: str) -> Nominal:
    value = table.data["stock"]
    example = either_unit(table.units, '"5/4"', '"27 mm"')
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        raise table.error("stock", f"must be a nominal thickness, such as {example}")
    if not isinstance(value, str) and not abs(value) < 1e9:
        raise table.error("stock", f"must be a nominal thickness, such as {example}")
    return table.parsed("stock", lambda: parse_nominal(value, unit))
