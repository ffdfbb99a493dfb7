"""The order of the rooms, read from the imports: one direction, no circle, a duty to each."""

import ast
import re

from imports import ROOT, arrows, circles, imported, modules, room

#: Rooms from the bottom up; a room may import those on the lines before its own, and of its own
#: line those that stand left of it.
ORDER = (
    ("formulas", "record", "errors", "quantity", "note", "printable", "display", "arrays"),
    (
        "user_folders",
        "files_in_use",
        "aside",
        "files",
        "spreadsheet",
        "rows",
        "units",
        "written",
        "toml_text",
        "config",
    ),
    ("toml_reader", "moisture_readings", "cache"),
    ("cutting",),
    ("reference",),
    ("board",),
    ("lumber", "climate", "joinery", "shipping"),
    ("drying",),
    ("piece",),
    ("choose", "own", "explain"),
    ("catalog",),
    ("answers",),
    ("charts",),
    ("report", "api", "spark"),
    ("cli",),
)
#: What a line of ORDER does not say: rooms of one line that may not import each other.
APART = {"lumber", "climate", "joinery", "shipping", "choose", "own", "explain"}
PLACE = {name: (n, k) for n, line in enumerate(ORDER) for k, name in enumerate(line)}
WOODREF, PIPELINE = modules("woodref"), modules("pipeline")
GRAPH = arrows({**WOODREF, **PIPELINE})
IMPORTED = {m: imported(f) for m, f in (WOODREF | PIPELINE).items()}
#: Modules that stand above the rooms: the package's face, and the program's entry.
FACE = {"woodref", "woodref.__main__"}


def test_every_module_has_its_place_in_the_order():
    assert {room(m) for m in WOODREF if m not in FACE} == set(PLACE)


def problem(module, target):
    """What is wrong with an import between two rooms, '' where nothing is."""
    here, there = room(module), room(target)
    if here == there:
        return ""
    if target in FACE:
        return f"{module} imports the package's face"
    if PLACE[there] > PLACE[here]:
        return f"{module} imports {target}, which stands above it"
    beside = PLACE[there][0] == PLACE[here][0] and {here, there} <= APART
    return f"{module} imports {target}, beside it" if beside else ""


def test_imports_go_down():
    wrong = [
        p
        for m in WOODREF
        if m not in FACE
        for t in sorted(GRAPH[m] & set(WOODREF))
        if (p := problem(m, t))
    ]
    assert wrong == []


def test_no_files_need_each_other():
    assert circles(GRAPH) == []


def test_no_rooms_need_each_other():
    graph = {name: set() for name in PLACE}
    for module in set(WOODREF) - FACE:
        graph[room(module)] |= {room(t) for t in GRAPH[module] - FACE} - {room(module)}
    assert circles(graph) == []


def test_circles_are_found_where_there_are_some():
    assert circles({"a": {"b"}, "b": {"c"}, "c": {"a"}, "d": {"a"}}) == [["a", "b", "c"]]


def test_formulas_import_nothing_of_ours_but_formulas():
    for module in WOODREF:
        if room(module) == "formulas":
            assert {room(t) for t in GRAPH[module]} <= {"formulas"}, module


def test_woodref_never_imports_the_pipeline():
    for module in WOODREF:
        assert not any(base.split(".")[0] == "pipeline" for base, _ in IMPORTED[module]), module


def test_the_pipeline_takes_formulas_and_reference_alone():
    for module in PIPELINE:
        ours = {base for base, _ in IMPORTED[module] if base.split(".")[0] == "woodref"}
        rooms = {".".join(base.split(".")[:2]) for base in ours}
        allowed = {"woodref.formulas", "woodref.reference"}
        # Once all tables are published, those that commands would have to make of them.
        ready = {"woodref.choose", "woodref.drying"} if module == "pipeline.ready" else set()
        assert rooms <= allowed | ready, module


def test_only_charts_import_matplotlib():
    for module in WOODREF:
        if room(module) != "charts":
            used = {base.split(".")[0] for base, _ in IMPORTED[module]}
            assert "matplotlib" not in used, module


def calls(file):
    """What a file calls, as written: 'print', 'connection.execute'."""
    tree = ast.parse(file.read_text(encoding="utf-8"))
    return [ast.unparse(n.func) for n in ast.walk(tree) if isinstance(n, ast.Call)]


def test_only_the_command_line_prints():
    prints = re.compile(r"print|typer\.echo|sys\.std(out|err)\.write")
    for module, file in WOODREF.items():
        if room(module) != "cli":
            assert not [c for c in calls(file) if prints.fullmatch(c)], module


def test_what_others_wrote_is_printed_through_say_alone():
    prints = re.compile(r"print|typer\.echo|sys\.std(out|err)\.write")
    # An answer is rendered so that it prints, and progress is our own words.
    others = {"say", "output", "progress", "batch", "main"}
    for module, file in WOODREF.items():
        if room(module) == "cli" and module.rpartition(".")[2] not in others:
            assert not [c for c in calls(file) if prints.fullmatch(c)], module


def test_only_rooms_that_ask_the_tables_execute_sql():
    # A picture is laid out by a call of the same name.
    asks = re.compile(r"(?!layout_engine\.).*\.(execute|executemany|sql|rows)")
    for module, file in WOODREF.items():
        # The last two compute millions of rows, which Python does not see one by one.
        if room(module) not in {"reference", "choose", "own", "catalog", "spark"}:
            assert not [c for c in calls(file) if asks.fullmatch(c)], module


def test_no_room_holds_more_than_a_fifth_of_the_lines():
    lines = dict.fromkeys(PLACE, 0)
    for module, file in WOODREF.items():
        if module not in FACE:
            lines[room(module)] += len(file.read_text(encoding="utf-8").splitlines())
    whole = sum(lines.values())
    assert {n: k for n, k in lines.items() if k > whole / 5} == {}


def test_the_page_for_developers_draws_the_rooms_there_are():
    drawn = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    assert [name for name in PLACE if name not in drawn] == []
