"""What is refused is told in the units that are asked for, and in no others."""

import re
from shlex import split

import pytest

#: A question that is refused, and what it is told in US and in SI units.
REFUSED = {
    "lag 'black cherry' --thickness 900mm --from 6 --to 9": (
        "a thickness of 1/32 to 6 in is followed, not 35.43 in",
        "a thickness of 0.8 to 152 mm is followed, not 900 mm",
    ),
    "delivery 'black cherry' --thickness 40in --width 8in --built 'Tucson/unheated-shop/March' "
    "--place Duluth": ("1/32 to 6 in is followed, not 40 in", "152 mm is followed, not 1016 mm"),
    "lag 'black cherry' --thickness 1in --from 6 --to 9 --finish '0.001 perms'": (
        "resists vapor as 0.0035 to 3496 perms do, not 0.001 perms",
        "as 0.001 to 1000 m of still air do, not 3.5e+03 m",
    ),
    "movement 'black cherry' --width 0in --from 6 --to 9": (
        "above 0 and below 328 ft, not 0 in",
        "above 0 and below 100 m, not 0 mm",
    ),
    "movement 'black cherry' --from 6 --to 9": ("--width 8in", "--width 200mm"),
    "movement 'black cherry' --width 8in --from x --to 9": ("air as 68F,40%", "air as 20C,40%"),
    "weight 'black cherry' --length 200m --width 9in --thickness 1in": (
        "below 328 ft, not 7874 in",
        "below 100 m, not 200000 mm",
    ),
    "emc 400F 40%": (
        "air at 400 F is outside 30 to 200 F, the range in which the moisture content of wood was "
        "compared with print; nearest: 200F",
        "air at 204.4 C is outside -1 to 93 C, the range in which the moisture content of wood was "
        "compared with print; nearest: 93C",
    ),
    "emc": ("woodref emc 68F --keep 8", "woodref emc 20C --keep 8"),
    "season --winter 68F,30%": ("--winter 68F,30%", "--winter 20C,30%"),
    "season Duluth --room heated_to=400F": ("-4 to 140 F, not 400 F", "-20 to 60 C, not 204.4 C"),
    "season Duluth --room heated_to=30C --room cooled_to=10C": (
        "heated to 86 F and cooled to 50 F",
        "heated to 30 C and cooled to 10 C",
    ),
    "season --months months.csv": ("-76 to 140 F, not 210.2 F", "-60 to 60 C, not 99 C"),
    "tally pile.csv": ("at most 78.74 in", "at most 2000 mm"),
    "substitute 'black cherry' --for tabletop --width 9000mm": (
        "at most 196.9 in, not 354.3 in",
        "at most 5000 mm, not 9000 mm",
    ),
    "section 'black cherry' --width 8in --thickness 1in --from 12 --to 7": (
        "--pith-distance 2in",
        "--pith-distance 50mm",
    ),
    "own weigh 'black cherry' --length 1m --width 100mm --thickness 100mm --weight 80kg "
    "--moisture 8": (
        "176.4 lb in 0.3531 ft3 is 499.4 lb/ft3, which no wood has",
        "80 kg in 0.01 m3 is 8000 kg/m3, which no wood has",
    ),
    "crate --length 60in --depth 20in --height 34in --weight 150lb --wall 300mm": (
        "a wall below 7.874 in",
        "a wall below 200 mm",
    ),
}
#: A number with a unit of a system, where it is not a word that was typed.
NUMBER = r"(?<![\w=/'-])-?[\d./-]+ ?"
OTHERS = {
    "us": re.compile(rf"{NUMBER}(mm|cm|m|kg|m3|kg/m3|C)\b"),
    "si": re.compile(rf"{NUMBER}(in|ft|lb|ft3|lb/ft3|F|perms)\b"),
}


@pytest.fixture
def files(tmp_path, monkeypatch):
    """The tables that questions name."""
    monkeypatch.chdir(tmp_path)
    air = "".join(f"{n},{99 if n == 1 else 10}C,50\n" for n in range(1, 13))
    (tmp_path / "months.csv").write_text(f"month,temperature,humidity_pct\n{air}")
    pile = "thickness,width,length,quantity,species\n"
    good, bad = "4/4,200mm,3m,1,teak\n", "4/4,9000mm,3m,1,teak\n"
    (tmp_path / "pile.csv").write_text(pile + good + bad)


@pytest.mark.usefixtures("files")
@pytest.mark.parametrize("question", REFUSED)
def test_a_mistake_is_told_in_the_units_asked_for(woodref, question):
    for units, words in zip(("us", "si"), REFUSED[question], strict=True):
        told = woodref(*split(question), "--units", units).err
        assert words in told
        assert not OTHERS[units].search(told.replace("'9000mm'", "")), told


def test_the_units_of_the_configuration_serve_too(woodref, tmp_path, monkeypatch):
    file = tmp_path / "own.toml"
    file.write_text('units = "si"\n')
    monkeypatch.setenv("WOODREF_CONFIG", str(file))
    assert "-1 to 93 C" in woodref("emc", "400F", "40%").err
