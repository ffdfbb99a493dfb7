"""How an answer was computed, for people in lines and for programs in a table."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from woodref.answers.render import Answer, Column, Section

if TYPE_CHECKING:
    from woodref.explain.step import Step

_KEYS = ("of", "what", "formula", "numbers", "result", "unit", "source")


def step_text(step: Step) -> str:
    """A step in a line: what, formula, numbers, result, source."""
    result = f"{step.result:.6g} {step.unit}".rstrip()
    return f"{step.of}, {step.what}: {step.formula} = {step.numbers} = {result} [{step.source}]"


def step_section(steps: Iterable[Step]) -> Section:
    """The steps for programs; in SI, whatever the units of the answer."""
    rows = [dict(zip(_KEYS, step, strict=True)) for step in steps]
    return Section("explain", "", [Column(key, "") for key in _KEYS], rows)


def add_steps(answer: Answer, steps: Iterable[Step]) -> None:
    """Add the steps to an answer, for people and for programs."""
    listed = list(steps)
    answer.sections.append(step_section(listed))
    answer.notes += [f"Computed: {step_text(step)}" for step in listed]
