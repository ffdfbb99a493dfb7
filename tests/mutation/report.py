"""The page docs/mutation.md, from the last run of each room.

``python tests/mutation/report.py`` in the environment of ``make mutation``. A mutant that
survives is argued where a pattern of ``argued.toml`` matches its change; the rest is listed.
"""

from __future__ import annotations

import json
import os
import re
import sys
import tomllib
from collections import Counter
from collections.abc import Iterator, Mapping
from datetime import UTC, datetime
from pathlib import Path
from typing import NamedTuple

from run import ENDLESS, KILLED, NO_TESTS, ROOMS, ROOT, SURVIVED, WORK, results

PAGE = ROOT / "docs" / "mutation.md"
ARGUED = Path(__file__).with_name("argued.toml")


class Survivor(NamedTuple):
    """A mutant that no test noticed: its function, and the lines that changed, in one."""

    function: str
    change: str


class Room(NamedTuple):
    """What became of the mutants of a room, and the survivors by the reason that argues them."""

    name: str
    mutants: int
    run: int
    tests: int
    timeouts: int
    argued: Mapping[str, list[Survivor]]
    left: list[Survivor]

    @property
    def killed(self) -> int:
        """What the tests or the clock stopped."""
        return self.tests + self.timeouts

    @property
    def share_pct(self) -> float:
        """Killed of those that were run, what is argued not counted as killed [%]."""
        return 100.0 * self.killed / self.run

    @property
    def share_told(self) -> str:
        """The share with what a sample may be off by, 19 times in 20."""
        if self.run == self.mutants:
            return f"{self.share_pct:.1f}"
        share, left = self.share_pct / 100.0, 1.0 - self.run / self.mutants
        off = 196.0 * (share * (1.0 - share) * left / self.run) ** 0.5
        return f"{self.share_pct:.1f} ± {off:.1f}"


def survivors(folder: Path, names: list[str]) -> Iterator[Survivor]:
    """The change of each mutant, in the folder of a room."""
    from mutmut.configuration import reset_config
    from mutmut.mutation.diff_apply import get_diff_for_mutant

    before = Path.cwd()
    os.chdir(folder)
    try:
        reset_config()
        for name in names:
            lines = get_diff_for_mutant(name).splitlines()[3:]
            changed = (" ".join(line.split()) for line in lines if line[:1] in "+-")
            module, _, function = name.rpartition(".")
            plain = re.sub(r"^x_?|__mutmut_\d+$", "", function).strip("ǁ").replace("ǁ", ".")
            yield Survivor(f"{module.removeprefix('woodref.')}.{plain}", " | ".join(changed))
    finally:
        os.chdir(before)


def room_of(name: str, reasons: Mapping[str, list[str]]) -> Room | None:
    """What became of a room, None where it was not run."""
    fates = results(WORK / name)
    if not fates:
        return None
    counts = Counter(fates.values())
    alive = [mutant for mutant, fate in fates.items() if fate in (SURVIVED, NO_TESTS)]
    argued: dict[str, list[Survivor]] = {}
    left = []
    for survivor in survivors(WORK / name, alive):
        because = next(
            (
                r
                for r, patterns in reasons.items()
                if any(
                    re.search(p, survivor.change) or re.search(p, survivor.function)
                    for p in patterns
                )
            ),
            None,
        )
        argued.setdefault(because, []).append(survivor) if because else left.append(survivor)
    mutants = json.loads((WORK / name / "mutants.json").read_text(encoding="utf-8"))
    return Room(name, mutants, len(fates), counts[KILLED], counts[ENDLESS], argued, left)


def page(rooms: list[Room], day: str) -> str:
    """The page."""
    rows = [
        f"| {r.name} | {r.mutants} | {r.run} | {r.tests} | {r.timeouts} | "
        f"{sum(map(len, r.argued.values()))} | {len(r.left)} | {r.share_told} |"
        for r in rooms
    ]
    reasons: Counter[str] = Counter()
    for r in rooms:
        reasons.update({reason: len(found) for reason, found in r.argued.items()})
    left = []
    for r in rooms:
        if r.left:
            left += [f"### {r.name}", ""]
            counts = Counter(s.function for s in r.left)
            left += [f"- `{function}`: {count}" for function, count in counts.most_common()]
            left.append("")
    return "\n".join(
        [
            "# Mutation testing",
            "",
            "The code of a room is changed in one place at a time: a number, an operator, a word,",
            "an argument. A change that no test notices shows what the tests leave open.",
            f"Last run: {day}, with mutmut. Repeat it: `make mutation ROOM=board`, a room of",
            "`tests/mutation/rooms.toml`; then `make mutation-report` renews this page.",
            "",
            "| room | mutants | run | killed by tests | out of time | argued | left | killed % |",
            "| --- | --- | --- | --- | --- | --- | --- | --- |",
            *rows,
            "",
            "Where fewer were run than there are, they were drawn at random, and the share may be",
            "off by what stands behind it, 19 times in 20.",
            "Killed is what a test noticed or the clock stopped; what is argued counts as alive.",
            "Only the tests of the room itself run, so a change that a test of another room or",
            "the check of types would notice may stand under left.",
            "",
            "mutmut changes code within functions. Numbers of a module, such as the tables of",
            "constants, are outside them: tests hold those against print by hand.",
            "",
            "## Argued",
            "",
            "| why it makes no difference | mutants |",
            "| --- | --- |",
            *(f"| {reason} | {count} |" for reason, count in reasons.most_common()),
            "",
            "## Left",
            "",
            *(left or ["None."]),
        ]
    )


def main() -> int:
    """Write the page."""
    rooms = tomllib.loads(ROOMS.read_text(encoding="utf-8"))
    reasons = tomllib.loads(ARGUED.read_text(encoding="utf-8"))["argued"]
    done = [r for name in rooms if (r := room_of(name, reasons))]
    if len(done) < len(rooms):
        missing = ", ".join(sorted(set(rooms) - {r.name for r in done}))
        print(f"not run to the end: {missing}", file=sys.stderr)
    day = datetime.now(UTC).date().isoformat()
    PAGE.write_text(page(done, day).rstrip("\n") + "\n", encoding="utf-8")
    for r in done:
        print(f"{r.name}: {r.share_pct:.1f} % of {r.mutants}, {len(r.left)} left")
        if "--left" in sys.argv:
            print("\n".join(f"  {s.function}: {s.change}" for s in r.left))
    return 0 if len(done) == len(rooms) else 1


if __name__ == "__main__":
    sys.exit(main())
