"""What a board does as a beam: its sag."""

from __future__ import annotations

from woodref.api.shared import reference, wood_of
from woodref.board import deflection as bending
from woodref.board.beam_material import of_panel, of_wood
from woodref.board.deflection import Deflection
from woodref.board.sag_limits import parse_limit
from woodref.board.span import Span, carried, carrying
from woodref.reference.panel_names import panel_called
from woodref.reference.panels import panel_figures
from woodref.reference.sag_rules import sag_rules
from woodref.reference.woods import Wood


def deflection(
    name: Wood | str,
    span: Span,
    moisture_pct: float = 8.0,
    load: str = "",
    limit: str = "",
    creep_factor: float | None = None,
) -> Deflection:
    """Compute the sag of a shelf, rail or top, now and after years; never a structural value.

    Parameters
    ----------
    name : Wood or str
        The wood, or a panel: 'plywood', 'MDF', 'particleboard', 'hardboard' or 'OSB'.
    span : Span
        Sizes [mm], how the ends are held, and loads [N/m, N].
    moisture_pct : float, optional
        Moisture content in use [%]; of no account for a panel.
    load : str, optional
        A usual load in place of one in ``span``: 'shelf', 'books' or 'row of books'; or
        'nothing', for its own weight alone. Where neither names a load, a board that lies flat
        carries that of a shelf.
    limit : str, optional
        A limit of your own as a fraction of the span, 'L/240', that decides in place of that of
        the trade.
    creep_factor : float, optional
        Sag after years over the first sag, in place of the two printed rules.

    Returns
    -------
    Deflection
        Sags [mm], with the likely ranges, and the thickness each limit needs.

    Raises
    ------
    InputError
        For an impossible size, load, limit or moisture content, and where an upright board
        carries nothing that is named.
    NoDataError
        Where no table holds the stiffness of the wood.
    UnknownNameError, AmbiguousNameError
        As :func:`woodref.wood`.

    Notes
    -----
    Elementary beam theory; a serviceability estimate. Limits are held against the first, elastic
    sag: L/144 of the Architectural Woodwork Standards (2009), and L/360, our choice for a line
    that looks straight.
    """
    rules = sag_rules(reference())
    panel = panel_called(name) if isinstance(name, str) else None
    if panel:
        material = of_panel(panel, panel_figures(reference(), panel))
    else:
        material = of_wood(wood_of(name), moisture_pct)
    return bending.deflection(
        material,
        carrying(span.checked(), carried(load) if load else None, rules),
        rules,
        creep_factor,
        parse_limit(limit) if limit else None,
    )
