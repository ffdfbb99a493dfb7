"""The cut list: every row is a part or is rejected with the reason."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodref.errors import InputError
from woodref.lumber.cut_list import COLUMNS, REQUIRED, read_cut_list
from woodref.lumber.nominal import Nominal
from woodref.lumber.tally import rejects_beside

HEAD = "name,length,width,thickness,species,quantity,staves\n"
INCH = 25.4


def read(tmp_path, text, units="us"):
    path = tmp_path / "parts.csv"
    path.write_text(text, encoding="utf-8")
    return read_cut_list(path, units)


def test_a_row_is_a_part(tmp_path):
    found = read(
        tmp_path,
        "# invented\n\nspecies,name,thickness,width,length,quantity,staves,stock,shape,end\n"
        "white oak,top,7/8,18,60,2,4,5/4,,\n"
        "white oak,leg,1-3/4,1-3/4,34,4,,,tapered leg,1-1/8\n",
    )
    top, leg = found.parts
    assert (top.name, top.species, top.quantity, top.staves) == ("top", "white oak", 2, 4)
    assert (top.length_mm, top.width_mm, top.thickness_mm) == pytest.approx(
        (60 * INCH, 18 * INCH, 0.875 * INCH)
    )
    assert top.stock == Nominal("5/4", 31.75)
    assert leg.stock is None
    assert leg.staves == 1
    assert leg.shape.end_width_mm == pytest.approx(1.125 * INCH)
    assert found.rejects == []


def test_bare_numbers_are_millimeters_in_si_and_units_may_be_written(tmp_path):
    text = HEAD + "rail,600,60,20,ash,2,\nstile,2ft,60mm,3/4in,ash,,\n"
    rail, stile = read(tmp_path, text, "si").parts
    assert (rail.length_mm, rail.width_mm, rail.thickness_mm) == (600.0, 60.0, 20.0)
    assert (stile.length_mm, stile.width_mm) == pytest.approx((609.6, 60.0))


@pytest.mark.parametrize(
    ("row", "reason"),
    [
        ("rail,24,2,3/4,,1,", "species is missing"),
        (",24,2,3/4,ash,1,", "name is missing"),
        ("rail,,2,3/4,ash,1,", "length is missing"),
        ("rail,long,2,3/4,ash,1,", "'long' is not a length"),
        ("rail,0,2,3/4,ash,1,", "length '0' must be above 0 and at most 787.4 in"),
        ("rail,24,9000,3/4,ash,1,", "width '9000' must be above 0 and at most 196.9 in"),
        ("rail,24,1/2,3/4,ash,1,", "thickness 3/4 is more than width 1/2"),
        ("rail,24,2,3/4,ash,1.5,", "quantity '1.5' is not a whole number from 1 to 1000"),
        ("rail,24,2,3/4,ash,0,", "quantity '0' is not a whole number"),
        ("rail,24,2,3/4,ash,1,many", "staves 'many' is not a whole number"),
        ("rail,24,2,3/4,ash,1", "has 6 values, the heading 7 columns"),
        ("top,24,2,3/4,ash,1,", "name 'top' is there twice; raise its quantity"),
    ],
)
def test_a_bad_row_is_rejected_with_its_reason_and_kept(tmp_path, row, reason):
    found = read(tmp_path, HEAD + "top,60,18,7/8,white oak,1,4\n" + row + "\n")
    assert [p.name for p in found.parts] == ["top"]
    (reject,) = found.rejects
    assert reject.line == 3
    assert reason in reject.reason
    assert "\n" not in reject.reason
    kept = rejects_beside(tmp_path / "parts.csv", found.header, found.rejects)
    assert kept.read_text().splitlines()[1].startswith("3,")


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("# only a remark\n", "holds remarks only; the first line is name,length"),
        ("name,length,width,thickness\n", "the column 'species' is missing"),
        ("name,lenght,width,thickness,species\n", "unknown column 'lenght'; did you mean 'length'"),
        ("name|length|width|thickness|species\n", "columns are separated by bars"),
        ("", "the cut list is empty"),
    ],
)
def test_a_file_that_is_no_cut_list_is_one_line(tmp_path, text, said):
    with pytest.raises(InputError, match=r"parts\.csv") as caught:
        read(tmp_path, text)
    assert said in str(caught.value)
    assert "\n" not in str(caught.value)


@given(
    st.lists(
        st.lists(
            st.text(
                st.characters(blacklist_categories=("Cs",), blacklist_characters="\0"), max_size=8
            ),
            min_size=1,
            max_size=8,
        ),
        max_size=5,
    )
)
def test_no_row_is_dropped(tmp_path_factory, rows):
    import csv
    import io

    out = io.StringIO()
    csv.writer(out, lineterminator="\n").writerows(rows)
    path = tmp_path_factory.mktemp("cut") / "parts.csv"
    path.write_text(HEAD + out.getvalue(), encoding="utf-8")
    try:
        found = read_cut_list(path)
    except InputError:
        return
    given_rows = [r for r in rows if any(c.strip() for c in r)]
    # Remarks, and what follows a quote in them, are no rows.
    remarks = any(c.lstrip().startswith("#") for r in rows for c in r)
    if not remarks and not any(set("\n\r") & set(c) for r in rows for c in r):
        assert len(found.parts) + len(found.rejects) == len(given_rows)


def test_the_columns_are_told():
    assert set(REQUIRED) < set(COLUMNS)
    assert "stock" in COLUMNS
