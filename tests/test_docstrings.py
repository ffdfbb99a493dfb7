"""The public functions and the formulas document what they take and give, in numpydoc form."""

import inspect
import re

import pytest
from formula_cases import FORMULAS

import woodref
from woodref import errors

FUNCTIONS = {
    n: getattr(woodref, n) for n in woodref.__all__ if inspect.isfunction(getattr(woodref, n))
}
#: The sections there may be, in order.
ORDER = ("Parameters", "Returns", "Raises", "See Also", "Notes", "References", "Examples")
#: What the name of a parameter of a public function ends in, and the unit it is described with.
UNITS = {
    "_mm": "[mm",
    "_pct": "[%",
    "_c": "[degC",
    "_g_kg": "[g per kg",
    "_kg": "[kg",
    "days": "[d",
}


def sections(function):
    """The sections of a docstring by title, each a list of lines without their indent."""
    lines = inspect.getdoc(function).split("\n")
    heads = [i for i, line in enumerate(lines[1:]) if re.fullmatch("-+", line)]
    ends = [*heads[1:], len(lines)]
    return {
        lines[i]: [line for line in lines[i + 2 : end] if line]
        for i, end in zip(heads, ends, strict=True)
    }


def described(lines):
    """The text under each name of a section; 'a, b : type' describes both."""
    texts, names = {}, []
    for line in lines:
        if line.startswith(" "):
            for name in names:
                texts[name] = f"{texts[name]} {line.strip()}"
        else:
            names = [n.strip(" *") for n in line.partition(" : ")[0].split(",")]
            texts |= dict.fromkeys(names, line.partition(" : ")[2])
    return texts


EVERY = FUNCTIONS | FORMULAS


@pytest.mark.parametrize("name", EVERY)
def test_every_parameter_is_described_in_order_with_its_type(name):
    parameters = inspect.signature(EVERY[name]).parameters
    texts = described(sections(EVERY[name]).get("Parameters", []))
    assert list(texts) == list(parameters)
    for parameter, text in texts.items():
        assert re.match(r"\S.* \S", text), parameter
        if parameters[parameter].default is not inspect.Parameter.empty:
            assert "optional" in text, parameter


@pytest.mark.parametrize("name", FUNCTIONS)
def test_a_quantity_is_described_with_its_unit(name):
    for parameter, text in described(sections(FUNCTIONS[name]).get("Parameters", [])).items():
        unit = next((u for end, u in UNITS.items() if parameter.endswith(end)), "")
        assert unit in text or "As for" in text, (parameter, unit)


@pytest.mark.parametrize("name", EVERY)
def test_what_it_gives_and_what_it_refuses_is_told(name):
    found = sections(EVERY[name])
    assert found["Returns"]
    for raised in described(found.get("Raises", [])):
        assert raised in {*dir(errors), "ValueError", "KeyError"}, raised
    assert list(found) == [t for t in ORDER if t in found]
    if "References" in found:
        assert "[1]_" in " ".join(found["Notes"])
