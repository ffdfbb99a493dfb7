"""The tables [[span]] of a piece: which part carries what, over which distance."""

from __future__ import annotations

from collections.abc import Mapping

from woodref.board.sag_limits import SagLimit, parse_limit
from woodref.board.shapes import LENGTH_LIMIT_MM
from woodref.board.span import CARRIED, SUPPORTS, Span
from woodref.formulas.bending import disc_width
from woodref.piece.parts_table import Part
from woodref.record import record
from woodref.reference.sag_rules import Carried
from woodref.toml_reader import PERCENT, TomlTable
from woodref.units import size_told
from woodref.written import length_unit, parse_load

#: Keys of a table of [[span]].
SPAN = (
    "name",
    "part",
    "span",
    "support",
    "load",
    "uniform",
    "point",
    "at",
    "short",
    "on_edge",
    "moisture_pct",
    "creep",
    "shear_free",
    "limit",
)


@record
class PieceSpan:
    """A span of a piece: the name of its part, and the board as a beam.

    ``load`` the usual load it carries, None where none is named; ``moisture_pct`` in use, None
    for the wettest of the piece; ``creep_factor`` and ``limit`` of the maker's own, None for
    those of print. ``place`` is where it stands in the file.
    """

    name: str
    part: str
    span: Span
    place: str
    load: Carried | None = None
    moisture_pct: float | None = None
    creep_factor: float | None = None
    shear_free: bool = False
    limit: SagLimit | None = None


def read_span(table: TomlTable, units: str, parts: Mapping[str, Part]) -> PieceSpan:
    """A span from a table of [[span]]; ``parts`` the parts of the piece by name.

    The sizes are those of the part; ``on_edge`` stands it upright, as a rail. Without ``span``
    it is as long as the part. A cylinder is a round beam, a disc the board that sags as it does.

    Raises: InputError naming file, table, key and problem.
    """
    unit = length_unit(units)
    part = parts[table.choice("part", parts)]
    length = table.length("span", unit, LENGTH_LIMIT_MM) if "span" in table else part.length_mm
    if length > part.length_mm + 1e-6:
        given, most = (size_told(x, units) for x in (length, part.length_mm))
        raise table.error("span", f"{given} is more than the length of the part, {most}")
    width, thickness = _section(table, part)

    def load(key: str, per_length: bool) -> float:
        if key not in table:
            return 0.0
        text = table.text(key)
        return table.parsed(key, lambda: parse_load(text, per_length))

    return PieceSpan(
        name=table.text("name") if "name" in table else part.name,
        part=part.name,
        span=Span(
            length,
            width,
            thickness,
            table.choice("support", SUPPORTS) if "support" in table else "simple",
            load("uniform", True),
            load("point", False),
            table.length("at", unit, LENGTH_LIMIT_MM) if "at" in table else None,
            short=table.truth("short"),
            is_round=_kind(part) == "cylinder",
        ),
        place=table.place,
        load=Carried(table.choice("load", CARRIED)) if "load" in table else None,
        moisture_pct=table.number("moisture_pct", 0.0, 30.0, PERCENT)
        if "moisture_pct" in table
        else None,
        creep_factor=table.number("creep", 1.0, 10.0) if "creep" in table else None,
        shear_free=table.truth("shear_free"),
        limit=_limit(table) if "limit" in table else None,
    )


def _kind(part: Part) -> str:
    return part.shape.kind if part.shape else "box"


def _section(table: TomlTable, part: Part) -> tuple[float, float]:
    """The width and the thickness of a part as a beam [mm].

    Raises: InputError for a shape that is no beam of one section, and for a disc on edge.
    """
    kind, on_edge = _kind(part), table.truth("on_edge")
    if kind not in ("box", "cylinder", "disc") or (kind == "disc" and on_edge):
        raise table.error("part", f"'{part.name}' is a {kind}, whose sag cannot be computed")
    if kind == "disc":
        return float(disc_width(part.width_mm)), part.thickness_mm
    sizes = (part.width_mm, part.thickness_mm)
    return (sizes[1], sizes[0]) if on_edge else sizes


def _limit(table: TomlTable) -> SagLimit:
    text = table.text("limit", '"L/240"')
    return table.parsed("limit", lambda: parse_limit(text))
