"""The woods that could take the place of one: what is told of each, and of all together."""

from __future__ import annotations

from typing import Any

from woodref.choose.buyable import Buyable
from woodref.choose.changes import Change, Verdict
from woodref.choose.columns import PRICED
from woodref.choose.distance import Axis
from woodref.choose.look_distance import LOOK_ALIKE
from woodref.choose.look_pair import LookPair
from woodref.choose.profile import LookCounts, Profile
from woodref.choose.screening import FilterCount, Unranked
from woodref.choose.seasonal_range import SeasonalRange
from woodref.choose.shared_names import SharedName
from woodref.choose.wood_table import WoodTable
from woodref.display import Grid, Shown
from woodref.record import record
from woodref.reference.looks import Look
from woodref.reference.woods import Wood

DISTANCE_RULE = (
    "apart in work: standard deviations of single boards of all woods, over the criteria of the "
    "use by their weights, one where a figure is not known; apart in look: hue, lightness, "
    "texture, pores, figure and luster (our own measure); where the look decides, woods that "
    "look alike come first, then related ones, and no figure lifts a wood out of its class"
)


@record(repr=False)
class Substitute(Shown):
    """A wood that may take the place of another.

    ``name`` what a yard sells it as; ``look`` beside the first wood; ``in_work`` how far apart
    in work, ``distance`` in work and look as far as the look counts; ``stock`` the class of the
    region, '' where no table tells it, and ``tier`` how far it is from the shop
    (woodref.choose.buyable); ``figures`` its columns; ``also`` other woods sold as the same
    thing that pass; ``lacking`` the criteria that could not be compared.
    """

    species_id: str
    common_name: str
    botanical_name: str
    trade_group: str
    name: str
    stock: str
    tier: int
    distance: float
    in_work: float
    look: LookPair
    changes: tuple[Change, ...]
    weight_change_pct: float | None
    price_change_pct: float | None
    control: str
    figures: dict[str, Any]
    lacking: tuple[str, ...]
    also: tuple[str, ...] = ()
    names: tuple[SharedName, ...] = ()

    def _line(self) -> str:
        return f"{self.name}, {self.look.band or 'look not known'}"

    @property
    def looks_alike(self) -> bool:
        """True where it may be called a look-alike."""
        return self.look.band in LOOK_ALIKE

    def verdicts(self, verdict: Verdict) -> tuple[Change, ...]:
        """The changes of one verdict."""
        return tuple(c for c in self.changes if c.verdict == verdict)


@record(repr=False)
class Substitutes(WoodTable):
    """The woods that could take the place of one, best first.

    ``own_group`` those of its own trade group, which yards often sell with it; ``fails`` the
    limits the first wood itself does not meet; ``figures`` of the first wood; ``unranked``
    woods of which too little is known; ``filter_counts`` what each filter removes; ``buyable``
    where woods come from, None for any; ``look_counts`` what the look counts;
    ``nearest_in_work`` and ``nearest_in_look`` of all that pass.

    A frame (``to_frame``) has the woods best first, then those of its own trade group, each
    with ``wood``, ``sold_as``, ``botanical_name``, ``species_id``, ``trade_group``,
    ``own_group``, ``stock``, ``look``, ``distance``, ``in_work``, ``in_look``,
    ``weight_change_pct``, ``price_change_pct``, prices and ``trade_control``; then of each
    criterion the value under the name of its column and the verdict.
    """

    wood: Wood
    profile: Profile
    seasonal_range: SeasonalRange
    buyable: Buyable | None
    axes: tuple[Axis, ...]
    look: Look | None
    look_counts: LookCounts
    figures: dict[str, Any]
    fails: tuple[str, ...]
    passed: int
    considered: int
    woods: tuple[Substitute, ...]
    own_group: tuple[Substitute, ...]
    unranked: tuple[Unranked, ...]
    filter_counts: tuple[FilterCount, ...]
    nearest_in_work: Substitute | None
    nearest_in_look: Substitute | None
    printed: tuple[Substitute, ...]

    def _line(self) -> str:
        near = ", ".join(w.name for w in (*self.woods, *self.own_group)[:3])
        return f"in place of {self.wood.common_name}, {self.profile.title}: {near}"

    @property
    def stocked_alike(self) -> tuple[Substitute, ...]:
        """Look-alikes that are commonly stocked, on the list or in the yard."""
        return tuple(s for s in self.woods if s.looks_alike and s.tier == 0)

    def _grid(self) -> Grid:
        return Grid(
            ("wood", "botanical name", "look", "in work", "stock"),
            (
                (w.name, w.botanical_name, w.look.band or "", w.in_work, w.stock)
                for w in (*self.woods, *self.own_group)
            ),
        )

    def _records(self) -> list[dict[str, Any]]:
        return [
            {
                "wood": s.common_name,
                "sold_as": s.name,
                "botanical_name": s.botanical_name,
                "species_id": s.species_id,
                "trade_group": s.trade_group,
                "own_group": own_group,
                "stock": s.stock,
                "look": s.look.band,
                "distance": s.distance,
                "in_work": s.in_work,
                "in_look": s.look.distance,
                "weight_change_pct": s.weight_change_pct,
                "price_change_pct": s.price_change_pct,
                "trade_control": s.control,
                **{name: s.figures[name] for name in PRICED},
                **{c.criterion.column.name: c.after for c in s.changes},
                **{f"{c.criterion.column.name}_verdict": c.verdict.value for c in s.changes},
            }
            for own_group, woods in ((False, self.woods), (True, self.own_group))
            for s in woods
        ]
