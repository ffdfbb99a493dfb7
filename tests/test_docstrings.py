"""The public functions document what they take and give, in numpydoc form."""

import inspect
import re

import pytest

import woodref
from woodref import errors

FUNCTIONS = [n for n in woodref.__all__ if inspect.isfunction(getattr(woodref, n))]
#: The sections there may be, in order.
ORDER = ("Parameters", "Returns", "Raises", "See Also", "Notes", "References", "Examples")
#: What a name ends in, and the unit that its description then gives.
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


@pytest.mark.parametrize("name", FUNCTIONS)
def test_every_parameter_is_described_with_its_type_and_unit(name):
    function = getattr(woodref, name)
    parameters = inspect.signature(function).parameters
    texts = described(sections(function).get("Parameters", []))
    assert list(texts) == list(parameters)
    for parameter, text in texts.items():
        assert re.match(r"\S.* \S", text), parameter
        unit = next((u for end, u in UNITS.items() if parameter.endswith(end)), "")
        assert unit in text or "As for" in text, (parameter, unit)
        if parameters[parameter].default is not inspect.Parameter.empty:
            assert "optional" in text, parameter


@pytest.mark.parametrize("name", FUNCTIONS)
def test_what_it_gives_and_what_it_refuses_is_told(name):
    found = sections(getattr(woodref, name))
    assert found["Returns"]
    known = {*dir(errors), "InputError"}
    for raised in described(found.get("Raises", [])):
        assert raised in known, raised
    order = [t for t in ORDER if t in found]
    assert [t for t in found if t in ORDER] == order
    assert set(found) <= set(ORDER), set(found)
    if "References" in found:
        assert "[1]_" in " ".join(found["Notes"])
