"""When a part is fitted, and the driest and the wettest of its life."""

from __future__ import annotations

from typing import NamedTuple

from woodref.climate.rooms import LAG, Room
from woodref.climate.seasons import MONTH_NAMES, DesignEnd, Season
from woodref.climate.usual_year import DAMPEST_PCT, DRIEST_PCT
from woodref.note import Note
from woodref.record import record
from woodref.reference.bases import EDITORIAL

USUAL_YEAR = Note(
    "usual-year",
    "6 and 10 % stand for the dry and the damp season indoors (our own example)",
    EDITORIAL,
)
_BUILD_ASSUMED = Note(
    "build-assumed", "nothing says when it is fitted: taken between the seasons; give --built"
)


@record
class BuildMoisture:
    """Moisture content of wood when it is built or fitted [%], and where that comes from.

    ``room`` whose air brought it there, None where a number was given; ``month`` of it, 1 to
    12, 0 for the mean of its year; ``assumed`` true where nothing was said.
    """

    moisture_pct: float
    room: Room | None = None
    month: int = 0
    assumed: bool = False

    @property
    def notes(self) -> tuple[Note, ...]:
        """Where it was built, nothing of a moisture content that was given."""
        if self.room is None:
            return ()
        pct = f"{self.moisture_pct:.1f} %"
        text = f"built in {self.room.label}, at the mean of its year, {pct}"
        if self.month:
            text = (
                f"built in {self.room.label}, at {pct}, where bare thin wood comes to rest there "
                f"in {MONTH_NAMES[self.month - 1]}; thick stock may be off by its own lag: measure "
                "it and give --built"
            )
        return (Note("built-in-room", text),)


def built_in(room: Room, month: int = 0) -> BuildMoisture:
    """The moisture content of thin wood that rested in a room before it was built.

    Parameters: room; month 1 to 12, 0 for the mean of its year.
    """
    year = room.season
    pct = year.months[month - 1].emc_pct if month else year.mean_emc_pct
    return BuildMoisture(pct, room, month)


@record
class PartSeasons:
    """When a part is fitted, and the driest and the wettest of its life [%].

    ``room`` where the ends come from its year, else None; ``notes`` on all three.
    """

    build: BuildMoisture
    driest_pct: float
    wettest_pct: float
    room: Room | None
    notes: tuple[Note, ...]

    @property
    def moistures_pct(self) -> tuple[float, float, float]:
        """When it is fitted, at the driest and at the wettest [%]."""
        return self.build.moisture_pct, self.driest_pct, self.wettest_pct


def part_seasons(
    build: BuildMoisture | None = None,
    room: Room | None = None,
    ends_pct: tuple[float, float] | None = None,
) -> PartSeasons:
    """The moisture contents a fixing is worked out for.

    Parameters: build, None where nothing says when it is fitted: then the mean of the room's
    year, or the middle between the ends; room the part lives in, whose range to design for gives
    the ends; ends_pct the driest and the wettest in place of a room [%], DRIEST_PCT
    and DAMPEST_PCT where neither is given.
    Returns: PartSeasons.
    """
    if room:
        _, dry, wet = room.season.design_pct
        of_ends = (*room.notes, LAG)
    else:
        dry, wet = ends_pct or (DRIEST_PCT, DAMPEST_PCT)
        of_ends = () if ends_pct else (USUAL_YEAR,)
    of_build: tuple[Note, ...]
    if build is None:
        between = room.season.mean_emc_pct if room else (dry + wet) / 2.0
        build, of_build = BuildMoisture(between, room, assumed=True), (_BUILD_ASSUMED,)
    else:  # of the room it lives in enough is said
        of_build = () if build.room is room else build.notes
    return PartSeasons(build, dry, wet, room, (*of_build, *of_ends))


class YearSpan(NamedTuple):
    """Two moisture contents of a year between which a piece is looked at [%].

    ``first`` the end of the range to design for at the first, None where it was given; ``last``
    that at the second; ``other`` the other end, where it is not one of the two.
    """

    start_pct: float
    end_pct: float
    first: DesignEnd | None
    last: DesignEnd
    other: DesignEnd | None


def year_span(season: Season, made_pct: float | None = None) -> YearSpan:
    """From the driest to design for to the wettest, or from a build to the farther of the two.

    Parameters: season of the room; made_pct moisture content it was made at [%], None for the
    driest.
    """
    dry, wet = season.design_driest, season.design_wettest
    if made_pct is None:
        return YearSpan(dry.moisture_pct, wet.moisture_pct, dry, wet, None)
    near, far = sorted((dry, wet), key=lambda end: abs(end.moisture_pct - made_pct))
    return YearSpan(made_pct, far.moisture_pct, None, far, near)
