"""How an answer was computed, for people in lines and for programs in a table."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from woodref.answers.answer import Answer, Column, Section

if TYPE_CHECKING:
    from woodref.explain.step import Step
    from woodref.reference.woods import Value

_KEYS = ("of", "what", "formula", "numbers", "result", "unit", "source")


def step_text(step: Step) -> str:
    """A step in a line: what, formula, numbers, result, source."""
    result = f"{step.result:.6g} {step.unit}".rstrip()
    return f"{step.of}, {step.what}: {step.formula} = {step.numbers} = {result} [{step.source}]"


def step_section(steps: Iterable[Step]) -> Section:
    """The steps for programs; in SI, whatever the units of the answer."""
    rows = [dict(zip(_KEYS, step, strict=True)) for step in steps]
    return Section("explain", "", [Column(key, "") for key in _KEYS], rows)


def add_steps(answer: Answer, steps: Iterable[Step], values: Iterable[Value] = ()) -> None:
    """Add the steps to an answer, for people and for programs.

    Parameters: answer; steps; values whose spread makes the likely range, told part by part.
    """
    listed = list(steps)
    answer.sections.append(step_section(listed))
    answer.notes += [f"Computed: {step_text(step)}" for step in listed]
    answer.notes += [spread_line(v) for v in values if v.sd]


#: What the parts of a spread are called, in the order of SpreadParts.
_PARTS = (
    "between boards",
    "of the printed mean",
    "of the printed range",
    "of the estimate",
    "between the woods of the group",
)


def spread_line(value: Value) -> str:
    """What the spread of a figure is made of, in coefficients of variation."""
    from woodref.reference.properties import PROPERTIES

    parts = [
        f"{100.0 * part / value.value:.1f} % {name}"
        for name, part in zip(_PARTS, value.known_parts, strict=True)
        if part
    ]
    together = f"; together {value.cv_pct:.1f} %" if len(parts) > 1 else ""
    label = PROPERTIES[value.property_id].label
    return f"Spread of {label}: {', '.join(parts)}{together} (standard deviations)."
