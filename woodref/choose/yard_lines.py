"""What a yard sells as one thing: a trade group, or the kinds of one species, under one name."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from woodref.reference.store import literal

#: The name of a trade group as people say it: 'red oak' of 'red oak group'.
_SAID = "regexp_replace(group_name, ' group$', '')"
#: SQL of the line each wood is sold in: the smallest trade group of one genus it belongs to, else
#: the kinds of its species.
LINES_SQL = f"""
    select s.species_id,
        coalesce(g.group_id, case when split_part(s.botanical_name, ' ', 2) similar to '[a-z-]+'
            then split_part(s.botanical_name, ' ', 1) || ' ' || split_part(s.botanical_name, ' ', 2)
            else s.species_id end) as line,
        group_name, {_SAID} as group_said
    from species s
    left join (
        select species_id, arg_min(group_id, (woods, group_id)) as group_id,
            arg_min(group_name, (woods, group_id)) as group_name
        from (
            select g.*, count(*) over (partition by group_id) as woods,
                count(distinct split_part(botanical_name, ' ', 1))
                    over (partition by group_id) as genera
            from groups g join species using (species_id))
        where woods > 1 and genera = 1 group by species_id) g using (species_id)
"""


def names_of_lines_sql(region: str) -> str:
    """SQL of the plain name of the line of each wood in a region, where the region has one.

    Over LINES_SQL as ``lines``: species_id, plain_name, and is_meant, whether that name means
    this very wood.
    """
    return f"""
    select lines.species_id, coalesce(p.name, w.name) as plain_name,
        p.species_id = lines.species_id as is_meant
    from lines
    left join (select name, species_id from plain_names where region = {literal(region)}) p
        on p.name = lines.group_said
    left join (
        select group_name, min(name) as name from plain_names
        where region = {literal(region)} and group_name is not null group by group_name) w
        on w.group_name = lines.group_name
    where plain_name is not null
    """


class Line:
    """Woods sold as one, best first: ``wood`` stands for them."""

    def __init__(self, rows: Sequence[dict[str, Any]]) -> None:
        """Choose who stands for the line.

        Parameters: rows of candidates of one line, best first: what a yard means by its name
        stands for it where that passes, else what is stocked most, else the best.
        """
        meant = [r for r in rows if r["is_meant"]]
        nearest = min(r["tier"] for r in rows)
        self.wood = next(iter(meant), next(r for r in rows if r["tier"] == nearest))
        self.others = tuple(r["common_name"] for r in rows if r is not self.wood)
        #: The plain name of the line where it is sold as several woods, else that of the wood.
        self.name: str = (
            self.wood["line_name"]
            if self.others and self.wood["line_name"]
            else self.wood["common_name"]
        )


def lines_of(rows: Sequence[dict[str, Any]]) -> list[Line]:
    """Woods, best first, as the lines they are sold in, in the order of the best of each."""
    sold: dict[str, list[dict[str, Any]]] = {}
    for row in rows:
        sold.setdefault(row["line"], []).append(row)
    return [Line(members) for members in sold.values()]
