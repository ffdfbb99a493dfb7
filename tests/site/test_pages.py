"""The pages of the site: nothing the program or its data has is missing, and links resolve."""

import json
import posixpath
import re
from pathlib import Path

import pytest

import woodref
from docs.site import check
from docs.site.every import every_page
from docs.site.links import CARRIED, FENCE
from woodref.cli.main import COMMANDS

ROOT = Path(__file__).resolve().parents[2]
PAGES = {page.path: page for page in every_page()}
#: Pages of which a few stand for all, as all are made by one function from the same tables.
MANY = {"data/publications/": 12}
_LINK = re.compile(r"\]\((?P<target>/[^)\s#]+)(?:#[^)\s]*)?\)")
_MENU = re.compile(r"^```\{toctree\}\n(?P<body>.*?)^```$", re.MULTILINE | re.DOTALL)


def tried():
    """Every page but those of which a few do."""
    for start, step in MANY.items():
        yield from [p for p in PAGES if p.startswith(start)][::step]
    yield from (p for p in PAGES if not p.startswith(tuple(MANY)))


@pytest.fixture(scope="module")
def texts():
    return {path: PAGES[path].make() for path in tried()}


def test_no_two_pages_stand_in_one_place():
    assert len(PAGES) == sum(1 for _ in every_page())


def test_every_link_leads_to_a_page_or_to_a_file_that_is_carried_along(texts):
    files = {
        f"/{place}/{file.name}"
        for folder, place in CARRIED.items()
        for file in (ROOT / folder).iterdir()
    }
    there = {f"/{path}" for path in PAGES} | files
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
    assert page.startswith(f"# {name}\n")
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
