"""The pages keep step with the program: nothing is missing, and no output is stale."""

import importlib.util
import re
import shlex
from importlib.metadata import version
from pathlib import Path

import pytest

from woodref import config
from woodref.answers.render import SCREEN_HEIGHT, SCREEN_WIDTH
from woodref.choose import profile
from woodref.cli.main import COMMANDS, app
from woodref.lumber import price_rows, tally
from woodref.piece import (
    assembly_table,
    buying_table,
    carton_table,
    finish_table,
    fixing_table,
    maker_table,
    moisture_table,
    parts_table,
    piece,
    quote_table,
    shipping_table,
    span_table,
)
from woodref.reference.bases import BASES

ROOT = Path(__file__).resolve().parents[2]
DOCS = ROOT / "docs"


def load_refresh():
    """docs/refresh.py, which is a program and no part of a package."""
    spec = importlib.util.spec_from_file_location("refresh", DOCS / "refresh.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


refresh = load_refresh()
EXAMPLES = [
    pytest.param(example, id=f"{page.name}: {example.command[:60]}")
    for page in refresh.PAGES
    for example in refresh.examples(page.read_text(encoding="utf-8"))
]


def text_of(name):
    return (ROOT / name).read_text(encoding="utf-8")


def sections(text):
    """Section of a page by the words of its heading."""
    parts = re.split(r"^## (.+)$", text, flags=re.MULTILINE)
    return dict(zip(parts[1::2], parts[2::2], strict=True))


def command_of(name):
    """The command as the parser knows it."""
    import typer

    group = typer.main.get_command(app)
    return group.get_command(None, name)


@pytest.mark.pinned
@pytest.mark.parametrize("example", EXAMPLES)
def test_output_is_what_is_printed_now(example):
    assert example.body == refresh.body_of(example), "run make docs"


#: Examples that are no first screen, each with the reason.
NO_SCREEN = {
    "--help": "help folds itself to the terminal",
    "--full": "asks for the whole page",
    "--explain": "asks for each formula with its numbers",
    "--sources": "asks where each figure stands",
    "--monthly": "asks for the table of the months",
    "woodref begin": "writes a piece file",
    "woodref report": "writes a page to print",
    "woodref template": "writes a file to fill in",
    "woodref sources": "a list by nature",
    "woodref sql": "prints what the query asks for",
    "woodref words": "a list by nature",
    "woodref uses": "a list by nature",
}


def shown(example):
    """What an example prints in full, without running it again where the page holds all of it."""
    cut = example.answer or example.start or example.lines is not None
    return refresh.printed_by(example.command) if cut else example.body.partition("\n")[2]


@pytest.mark.parametrize(
    "example",
    [
        p
        for p in EXAMPLES
        if p.values[0].command.startswith("woodref ")
        and p.values[0].fenced
        and not any(f"{why} " in f"{p.values[0].command} " for why in NO_SCREEN)
    ],
)
def test_an_answer_fits_one_screen(example):
    lines = shown(example).splitlines()
    assert len(lines) <= SCREEN_HEIGHT
    assert [line for line in lines if len(line) > SCREEN_WIDTH] == []


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_has_a_section_with_an_example_and_its_options(name):
    section = sections(text_of("docs/commands.md"))[name]
    run = [shlex.split(e.command)[1:] for e in refresh.examples(section)]
    assert any(words[0] == name and "--help" not in words for words in run)
    prose = re.sub(r"```text\n.*?^```", "", section, flags=re.MULTILINE | re.DOTALL)
    shared = text_of("docs/commands.md").partition("\n## ")[0]
    for parameter in command_of(name).params:
        long = [o for o in parameter.opts if o.startswith("--")]
        assert all(o in prose + shared for o in long), f"{name}: {long} is not explained"
        assert all(o in section for o in long), f"{name}: {long} is missing"


def test_options_of_the_commands_of_a_group_are_explained():
    section = sections(text_of("docs/commands.md"))["own"]
    for name, command in command_of("own").commands.items():
        assert f"$ woodref own {name} --help" in section
        long = [o for p in command.params for o in p.opts if o.startswith("--")]
        assert [o for o in long if o not in section] == []


def test_no_section_is_left_of_a_command_that_is_gone():
    assert set(sections(text_of("docs/commands.md"))) == set(COMMANDS)


def test_options_of_the_program_itself_are_explained():
    import typer

    page = text_of("docs/commands.md").partition("\n## ")[0]
    found = [o for p in typer.main.get_command(app).params for o in p.opts]
    assert "--version" in found
    assert [o for o in found if o not in page] == []


def keys(page):
    """What a page sets as code at the beginning of a row of a table."""
    cells = re.findall(r"^\| (`.+?`) \|", page, flags=re.MULTILINE)
    return {key for cell in cells for key in re.findall(r"`([^`]+)`", cell)}


def test_every_key_of_a_piece_and_every_column_of_a_price_list_is_explained():
    page = text_of("docs/piece-file.md")
    tables = set(piece._TABLES)
    written = {
        *piece._TOP,
        *span_table.SPAN,
        *finish_table.FINISH,
        *shipping_table.ITEM_KEYS,
        *shipping_table.SHIPPING_KEYS,
        *maker_table.MAKER,
        *quote_table.QUOTE,
        *fixing_table.FIXING_KEYS,
        *buying_table.BUYING,
        *assembly_table.ASSEMBLY,
        *carton_table.CARTON,
        *moisture_table.BUILD,
        *(key for key in moisture_table.USE if key not in ("driest", "wettest")),
        *piece._WASTE,
        *parts_table.SHEET,
        *parts_table.PART,
        *price_rows.COLUMNS,
    }
    # Each [[span]] has a key of its own name.
    assert keys(page) - tables == written - tables
    assert [t for t in tables if f"[{t}]" not in page] == []


def test_every_key_of_a_profile_is_explained():
    page = text_of("docs/profiles.md").partition("## The columns")[0]
    written = {*profile._TOP_KEYS, *profile._CRITERION_KEYS, *profile._LIMIT_KEYS}
    written -= {"criterion", "limit"}
    assert keys(page) == written
    assert all(f"`{word}`" in page.replace('`"', "`").replace('"`', "`") for word in written)


def test_every_column_of_a_pile_is_explained():
    section = sections(text_of("docs/commands.md"))["tally"]
    assert [c for c in tally.COLUMNS if f"`{c}`" not in section] == []


def test_the_readme_explains_defaults_and_bases():
    readme = text_of("README.md")
    variables = [f"WOODREF_{name}" for name in ("UNITS", "PRICES", "PLACE", "CONFIG")]
    for word in [*config.KEYS, *variables, *BASES]:
        assert f"`{word}`" in readme


def test_every_page_is_linked_from_the_readme():
    readme = text_of("README.md")
    pages = [*DOCS.glob("*.md"), ROOT / "DEVELOPERS.md", ROOT / "datasets" / "LICENSE.md"]
    assert [p.name for p in pages if f"]({p.relative_to(ROOT).as_posix()})" not in readme] == []


DRAWN = [
    pytest.param(page, file, command, id=file)
    for page in refresh.PAGES
    for file, command in refresh.drawings(page.read_text(encoding="utf-8")).items()
]


@pytest.mark.parametrize(("page", "file", "command"), DRAWN)
def test_a_picture_is_what_its_command_draws_today(page, file, command):
    pinned = re.search(r"^matplotlib==(.+)$", text_of("constraints.txt"), re.MULTILINE)[1]
    if version("matplotlib") != pinned:
        pytest.skip(f"pictures are kept as matplotlib {pinned} writes them")
    assert refresh.drawn_by(file, command) == text_of(file), "run make docs"
    assert f"]({file.removeprefix('docs/')})" in page.read_text(encoding="utf-8")


def test_no_picture_is_left_over():
    kept = {f"docs/pictures/{p.name}" for p in (DOCS / "pictures").iterdir()}
    assert kept == {p.values[1] for p in DRAWN}


@pytest.mark.parametrize("page", refresh.PAGES, ids=lambda p: p.name)
def test_links_lead_somewhere(page):
    links = re.findall(r"\]\(([^)\s#]+)(?:#[^)]*)?\)", page.read_text(encoding="utf-8"))
    local = [link for link in links if not re.match(r"https?://", link)]
    assert [link for link in local if not (page.parent / link).exists()] == []


def test_files_named_for_developers_exist():
    named = re.findall(r"`([a-z_]+/[\w./-]+\.\w+)`", text_of("DEVELOPERS.md"))
    assert named
    assert [name for name in named if not (ROOT / name).exists()] == []


def test_a_mark_without_a_block_is_an_error():
    with pytest.raises(ValueError, match="no block to fill"):
        list(refresh.examples("<!-- run: woodref emc 68F 40% -->\nno fence\n"))


def test_an_old_output_is_replaced_and_the_rest_left_alone():
    page = "a\n<!-- run, first 1 lines: woodref emc 68F 40% -->\n```text\nold\n```\nz\n"
    new = refresh.refreshed(page)
    assert new.startswith("a\n<!-- run, first 1 lines: woodref emc 68F 40% -->\n```text\n$ woodref")
    assert "7.7 %" in new
    assert "old" not in new
    assert new.endswith("...\n```\nz\n")
    assert refresh.refreshed(new) == new
