"""What is cut: blanks and boards, a board cut up, and a plan of boards."""

from __future__ import annotations

from woodref.record import record


@record
class Blank:
    """A rough blank to cut, ``quantity`` times; its length runs with the grain [mm].

    ``pieces`` it holds end to end, which are cut apart last.
    """

    name: str
    length_mm: float
    width_mm: float
    quantity: int = 1
    pieces: int = 1

    @property
    def area_m2(self) -> float:
        """Face of one blank [m2]."""
        return self.length_mm * self.width_mm * 1e-6


@record
class StockBoard:
    """Boards of one usable size [mm]; ``quantity`` None where there are as many as needed."""

    name: str
    length_mm: float
    width_mm: float
    quantity: int | None = None

    @property
    def area_m2(self) -> float:
        """Face of one board [m2]."""
        return self.length_mm * self.width_mm * 1e-6


@record
class Strip:
    """A section or strip of a board, from ``start_mm``, and the pieces of its second cut.

    A piece holds one blank, by index, or several one behind another where a third cut parts
    them.
    """

    start_mm: float
    size_mm: float
    pieces: tuple[tuple[int, ...], ...]

    @property
    def blanks(self) -> tuple[int, ...]:
        """Every blank in it, by index."""
        return tuple(i for piece in self.pieces for i in piece)


@record
class CutBoard:
    """One board cut up: ``stock`` and blanks are indices; ``rip_first`` tells its first cut."""

    stock: int
    rip_first: bool
    strips: tuple[Strip, ...]

    @property
    def blanks(self) -> tuple[int, ...]:
        """Every blank of the board, by index."""
        return tuple(i for strip in self.strips for i in strip.blanks)


@record
class BlankPosition:
    """Where a blank lies: along and across from the corner of the usable board [mm]."""

    blank: int
    along_mm: float
    across_mm: float


@record
class Progress:
    """How far a search is: seconds gone, boards of the best plan, lower bound, blanks left."""

    seconds: float
    boards: int
    bound: int
    left: int


@record
class CutPlan:
    """Boards cut up, and what stays uncut.

    ``left`` is the number of blanks of each kind that no board was left for; ``too_large`` the
    kinds larger than every board; ``bound_boards`` and ``bound_m2`` what no plan for all
    blanks can do with less of; ``short`` True where the bound shows that the boards cannot do;
    ``interrupted`` True where the search was stopped by hand.
    """

    blanks: tuple[Blank, ...]
    stock: tuple[StockBoard, ...]
    kerf_mm: float
    boards: tuple[CutBoard, ...]
    left: tuple[int, ...]
    too_large: tuple[int, ...]
    bound_boards: int
    bound_m2: float
    aim: str
    short: bool = False
    interrupted: bool = False

    @property
    def stock_m2(self) -> float:
        """Usable face of the boards that are cut [m2]."""
        return sum(self.stock[b.stock].area_m2 for b in self.boards)

    @property
    def blanks_m2(self) -> float:
        """Face of the blanks that come out [m2]."""
        return sum(self.blanks[i].area_m2 for b in self.boards for i in b.blanks)

    @property
    def offcut_pct(self) -> float:
        """Share of the boards that becomes offcuts and sawdust [%]."""
        return 100.0 * (1.0 - self.blanks_m2 / self.stock_m2) if self.boards else 0.0

    @property
    def complete(self) -> bool:
        """True where every blank comes out."""
        return not any(self.left)

    @property
    def gap_boards(self) -> int | None:
        """Boards above the lower bound, None where blanks are left, or wood is what is spared."""
        counted = self.complete and self.aim == "boards"
        return len(self.boards) - self.bound_boards if counted else None

    @property
    def proven(self) -> bool:
        """True where no other plan can be better by the aim."""
        if not self.complete:
            return False
        if self.aim == "boards":
            return self.gap_boards == 0
        return self.stock_m2 <= self.bound_m2 * (1.0 + 1e-6)


def blank_positions(plan: CutPlan, board: CutBoard) -> list[BlankPosition]:
    """Where the blanks of a board lie, the kerf between them."""
    positions = []
    for strip in board.strips:
        along = 0.0
        for piece in strip.pieces:
            across, most = strip.start_mm, 0.0
            for i in piece:
                blank = plan.blanks[i]
                sizes = (blank.length_mm, blank.width_mm)
                step, size = sizes if board.rip_first else sizes[::-1]
                place = (along, across) if board.rip_first else (across, along)
                positions.append(BlankPosition(i, *place))
                across += size + plan.kerf_mm
                most = max(most, step)
            along += most + plan.kerf_mm
    return positions
