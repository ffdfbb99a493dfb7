"""The pages of the site: nothing the program or its data has is missing, and links resolve."""

import ast
import json
import posixpath
import re
from pathlib import Path

import pytest
from formula_cases import CASES

import woodref
from docs.site import accuracy, check, how_to, woods
from docs.site.every import every_page
from docs.site.links import CARRIED, FENCE
from docs.site.page import plain
from docs.site.records import record_of
from docs.site.sold import library, sold_woods
from woodref.answers.show_page import page_of
from woodref.cli.main import COMMANDS

ROOT = Path(__file__).resolve().parents[2]
PAGES = {page.path: page for page in every_page()}
_LINK = re.compile(r"\]\((?P<target>/[^)\s#]+)(?:#[^)\s]*)?\)")
_MENU = re.compile(r"^```\{toctree\}\n(?P<body>.*?)^```$", re.MULTILINE | re.DOTALL)


@pytest.fixture(scope="module")
def texts():
    """Every page; what the checks against print find is left out, as they run by themselves."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(accuracy, "found", dict)
        return {path: page.make() for path, page in PAGES.items()}


def test_no_two_pages_stand_in_one_place():
    assert len(PAGES) == sum(1 for _ in every_page())


def test_every_link_leads_to_a_page_or_to_a_file_that_is_carried_along(texts):
    files = {
        f"/{place}/{file.name}"
        for folder, place in CARRIED.items()
        for file in (ROOT / folder).iterdir()
    }
    drawn = {f"/{woods.picture_path(i)}" for i in sold_woods()}
    there = {f"/{path}" for path in PAGES} | files | drawn
    lost = [
        (path, m["target"])
        for path, text in texts.items()
        for m in _LINK.finditer(FENCE.sub("", text))
        if m["target"] not in there
    ]
    assert lost == []


def test_every_listed_page_stands_in_one_menu(texts):
    listed = []
    for path, text in texts.items():
        for menu in _MENU.finditer(text):
            names = [n for n in menu["body"].split("\n") if n and not n.startswith(":")]
            listed += [
                posixpath.normpath(posixpath.join("/", posixpath.dirname(path), n)) for n in names
            ]
    wanted = [f"/{p.path.rpartition('.')[0]}" for p in PAGES.values() if p.listed]
    assert sorted([*listed, "/index"]) == sorted(wanted)


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_has_a_page_with_all_its_options(texts, name):
    import typer

    from woodref.cli.main import app

    page = texts[f"commands/{name}.md"]
    command = typer.main.get_command(app).get_command(None, name)
    options = [o for p in command.params for o in p.opts if o.startswith("--")]
    assert page.startswith(f"# woodref {name}\n")
    assert [o for o in options if o not in page] == []


def test_every_public_name_has_a_page(texts):
    for name in woodref.__all__:
        page = next(texts[p] for p in (f"python/{name}.rst", f"python/{name}.md") if p in texts)
        assert name in page.partition("\n")[0].replace("\\", "")


def test_every_field_of_every_table_stands_on_its_page(texts):
    package = json.loads((ROOT / "datasets/reference/datapackage.json").read_text("utf-8"))
    for resource in package["resources"]:
        page = texts[f"data/tables/{resource['name']}.md"]
        missing = [
            f["name"] for f in resource["schema"]["fields"] if f"| `{f['name']}` |" not in page
        ]
        assert missing == [], resource["name"]


def test_every_publication_has_a_page():
    sources = woodref.table("sources")["source_id"]
    assert {f"data/publications/{source}.md" for source in sources} <= set(PAGES)


def test_every_check_against_print_stands_on_the_page_of_accuracy(texts):
    page = texts["trust/accuracy.md"]
    for path in (ROOT / "tests" / "published").glob("test_*.py"):
        module = ast.parse(path.read_text(encoding="utf-8"))
        assert plain(ast.get_docstring(module).partition("\n")[0].rstrip(".")) in page, path.name
        for name in re.findall(r"^def test_(\w+)", path.read_text(encoding="utf-8"), re.MULTILINE):
            assert name.replace("_", " ").lower() in page.lower(), f"{path.name}: {name}"


def test_every_question_of_the_tour_stands_under_one_topic():
    starts = [start for topic in how_to.topics() for start in topic["tour"]]
    meant = [ask for ask in how_to.tour_questions() for start in starts if ask.startswith(start)]
    assert sorted(meant) == sorted(how_to.tour_questions())


def test_every_term_and_every_formula_has_its_place(texts):
    terms = [word.term for word in woodref.words()]
    assert [t for t in terms if f"| {t} |" not in texts["glossary.md"]] == []
    formulas = [f.partition(".")[2] for f in CASES if not f.startswith("engine.")]
    assert [f for f in formulas if f"`{f}`" not in texts["trust/method.md"]] == []


def test_every_wood_that_is_sold_somewhere_has_a_page():
    stock = woodref.table("stock")
    sold = set(stock.loc[stock["class"] != "not in trade", "species_id"])
    assert len(sold) > 400
    assert {f"woods/{i}.md" for i in sold} <= set(PAGES)


@pytest.mark.parametrize("species_id", ["prunus-serotina", "khaya-spp", "acacia-koa"])
def test_woods_read_at_once_are_those_read_one_by_one(species_id):
    alone = page_of(library(), species_id, "us")
    assert record_of(species_id)._replace(names=()) == alone._replace(names=())


def test_the_page_of_a_wood_says_what_the_library_says(texts):
    page = texts["woods/prunus-serotina.md"]
    assert "| side hardness (Janka) at 12 % | 950 lbf (" in page
    assert library().wood("black cherry").value("side_hardness").source.split(",")[0] in page
    for part in ("Look, working", "mistaken for", "Cautions", "Where the figures stand"):
        assert f"{part}" in page
    assert "](/woods/prunus-serotina.svg)" in page


def test_every_mark_on_the_page_of_a_wood_is_explained(texts):
    for path in (f"woods/{i}.md" for i in sold_woods()):
        parts = texts[path].split("~ estimated, read only")
        assert "~" not in parts[0] or len(parts) == 2, path


def test_pages_of_figures_defer_to_local_codes(texts):
    kinds = ("woods/", "data/tables/", "data/publications/w", "how-to/a", "trust/accuracy")
    told = [t for p, t in texts.items() if p.startswith(kinds)]
    assert all("structural" in t and "local codes" in " ".join(t.split()) for t in told)


def test_the_picture_of_a_wood_has_a_text_that_says_what_is_seen():
    drawings = woods.drawings()
    first = next(drawings)
    svg = first.make()
    assert "<desc>" in svg
    assert "moves" in svg.partition("</title>")[0]
    assert "<text" in svg


def test_a_site_that_loads_from_elsewhere_or_links_to_nothing_is_noticed(tmp_path):
    (tmp_path / "a.html").write_text(
        "<script src='//cdn.example/x.js'></script><a href='b.html'>b</a><a href='#c'>c</a>"
        "<a href='a.html#here' id='here'>d</a><link href='https://fonts.example/f.css'>"
    )
    (tmp_path / "a.css").write_text("@import 'theirs.css'; p {background: url(//x.example/y.png)}")
    assert sorted(check.mistakes(tmp_path)) == [
        "a.css: loads //x.example/y.png",
        "a.html: #c names no place on its page",
        "a.html: b.html leads nowhere",
        "a.html: loads //cdn.example/x.js",
        "a.html: loads https://fonts.example/f.css",
    ]
