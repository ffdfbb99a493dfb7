"""The program at the shell: help, versions, errors, defaults, pipes."""

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from woodref.cli.main import COMMANDS, SECTIONS
from woodref.cli.short_help import SHORT_HELP
from woodref.reference.fields import DATASET_VERSION

WOODREF = [sys.executable, "-m", "woodref"]


def test_help_lists_every_command_under_its_heading(woodref):
    asked, short = woodref("--help"), woodref("-h")
    assert asked.code == short.code == 0
    assert asked.out == short.out
    for heading, names in SECTIONS.items():
        assert f"{heading}:" in asked.out
        for name in names:
            assert f"\n  {name} " in asked.out
    assert "WOODREF_CONFIG" in asked.out
    assert "..." not in asked.out.replace("[ARGS]...", "")  # no summary is cut short


@pytest.mark.parametrize("command", COMMANDS)
def test_help_of_every_command_ends_with_an_example(woodref, command):
    result = woodref(command, "--help")
    assert result.code == 0
    _, _, examples = result.out.partition("Example:")
    assert f"woodref {command}" in examples
    assert woodref(command, "-h").out == result.out
    assert SHORT_HELP[command] in " ".join(result.out.split())


def test_version_names_the_dataset_too(woodref):
    assert DATASET_VERSION in woodref("--version").out
    assert woodref("--version").out.startswith("woodref ")


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (["movment"], "woodref: no command 'movment'; nearest: movement"),
        (["zzz"], "woodref: no command 'zzz'; woodref --help lists them"),
        (["--zzz"], "woodref: no option --zzz; woodref --help lists them"),
        (["emc", "--unit", "si"], "woodref emc: no option --unit; nearest: --units"),
        (
            ["emc", "68F", "40", "--format", "jsn"],
            "woodref emc: --format cannot be 'jsn'; use table, json, csv, markdown; nearest: json",
        ),
        (
            ["emc", "68F", "40", "--units", "metric"],
            "woodref emc: --units cannot be 'metric'; use us, si",
        ),
        (
            ["density"],
            "woodref density: SPECIES is missing; for example: woodref density cherry --moisture 8",
        ),
        (
            ["density", "white", "oak"],
            "woodref density: Got unexpected extra argument(s) (oak); put a name of several words "
            "in quotes; for example: woodref density cherry --moisture 8",
        ),
        (
            ["tally", "--board"],
            "woodref: Option '--board' requires an argument",
        ),
        (
            ["weight", "ash", "--quantity", "two"],
            "woodref weight: --quantity: 'two' is not a whole number",
        ),
    ],
)
def test_wrong_use_is_one_line_and_exit_2(woodref, arguments, message):
    result = woodref(*arguments)
    assert (result.code, result.out) == (2, "")
    assert result.err == message + "\n"


def units_of(result):
    return "F" if " F and" in result.out else "C"


def test_a_flag_beats_the_environment_beats_the_file(woodref, monkeypatch, tmp_path):
    question = ["emc", "68F", "40%"]
    assert units_of(woodref(*question)) == "F"
    file = tmp_path / "config.toml"
    file.write_text('units = "si"')
    monkeypatch.setenv("WOODREF_CONFIG", str(file))
    assert units_of(woodref(*question)) == "C"
    monkeypatch.setenv("WOODREF_UNITS", "us")
    assert units_of(woodref(*question)) == "F"
    assert units_of(woodref(*question, "--units", "si")) == "C"


def test_a_wrong_configuration_file_is_one_line(woodref, monkeypatch, tmp_path):
    file = tmp_path / "config.toml"
    file.write_text('unis = "si"')
    monkeypatch.setenv("WOODREF_CONFIG", str(file))
    result = woodref("emc", "68F", "40%")
    assert (result.code, result.out) == (2, "")
    assert result.err == f"woodref: {file}: unknown key 'unis'; nearest: units\n"
    assert woodref("--help").code == 0


@pytest.fixture
def environment(tmp_path):
    """An environment of a process without the user's own defaults."""
    kept = {k: v for k, v in os.environ.items() if not k.startswith(("WOODREF", "_WOODREF"))}
    (tmp_path / "config.toml").write_text("")
    return {**kept, "WOODREF_CONFIG": str(tmp_path / "config.toml")}


def test_a_closed_pipe_ends_quietly(environment):
    reader, writer = os.pipe()
    os.close(reader)
    process = subprocess.run(
        [*WOODREF, "emc", "68F", "40%"],
        stdout=writer,
        stderr=subprocess.PIPE,
        env=environment,
        check=False,
    )
    os.close(writer)
    assert (process.returncode, process.stderr) == (1, b"")


def test_an_interrupt_ends_quietly(woodref, monkeypatch):
    def interrupted(*_):
        raise KeyboardInterrupt

    monkeypatch.setattr("woodref.cli.emc.parse_temperature", interrupted)
    result = woodref("emc", "68F", "40%")
    assert (result.code, result.out, result.err) == (130, "", "")


@pytest.mark.skipif(os.name == "nt", reason="no such signal")
def test_an_interrupt_ends_a_long_query_at_once(environment):
    query = "select sum(sin(range)) from range(1000000000000)"
    with subprocess.Popen(
        [*WOODREF, "sql", query],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        env=environment,
    ) as process:
        try:
            with pytest.raises(subprocess.TimeoutExpired):
                process.wait(1.5)  # the query runs
            process.send_signal(signal.SIGINT)
            assert process.wait(5) == -signal.SIGINT
        finally:
            process.kill()
        assert process.stderr.read() == b""


def test_the_process_returns_code_and_streams(environment):
    def process(*arguments):
        return subprocess.run(
            [*WOODREF, *arguments], capture_output=True, text=True, env=environment, check=False
        )

    done = process("emc", "68F", "40%")
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.startswith("Wood comes to 7.7 %")
    wrong = process("emc", "68F")
    assert (wrong.returncode, wrong.stdout, wrong.stderr.count("\n")) == (2, "", 1)


def test_output_survives_a_terminal_that_knows_ascii_alone(environment):
    process = subprocess.run(
        [*WOODREF, "sql", "select 'bokm\N{LATIN SMALL LETTER A WITH RING ABOVE}l' as name"],
        capture_output=True,
        env={**environment, "PYTHONIOENCODING": "ascii"},
        check=False,
    )
    assert process.returncode == 0
    assert b"bokm?l" in process.stdout


def test_a_mistake_of_the_program_is_one_line(environment):
    broken = "import woodref.cli.emc as a; a.emit = None; from woodref.cli.main import main; main()"

    def process(**more):
        return subprocess.run(
            [sys.executable, "-c", broken, "emc", "68F", "40%"],
            capture_output=True,
            text=True,
            env={**environment, **more},
            check=False,
        )

    assert process().returncode == 1
    assert process().stderr.startswith("woodref: a mistake of the program, not of yours: TypeError")
    assert process().stderr.count("\n") == 1
    assert "Traceback" in process(WOODREF_TRACEBACK="1").stderr


def test_completion_offers_commands_and_options(environment):
    def offered(line):
        return subprocess.run(
            WOODREF,
            capture_output=True,
            text=True,
            env={
                **environment,
                "_WOODREF_COMPLETE": "complete_bash",
                "COMP_WORDS": line,
                "COMP_CWORD": str(len(line.split()) - 1),
            },
            check=False,
        ).stdout.split()

    assert offered("woodref mo") == ["movement", "moisture"]
    assert "--calibration" in offered("woodref moisture --c")


def test_no_module_of_the_command_line_is_forgotten():
    folder = Path(sys.modules["woodref.cli.main"].__file__).parent
    holders = {p.stem for p in folder.glob("*.py") if "def register(" in p.read_text("utf-8")}
    assert holders - {"main"} == set(COMMANDS.values())


def test_every_option_says_in_a_word_what_to_type():
    """No help shows the name of a type, such as <str>, for what a maker is to type."""
    from woodref.cli.help_page import dress
    from woodref.cli.main import COMMANDS, _command

    asked = []
    for name in COMMANDS:
        command = _command(name)
        for each in getattr(command, "commands", {name: command}).values():
            dress(each)
            asked += [
                (each.name, p.name)
                for p in each.params
                if p.param_type_name == "option"
                and not (p.is_flag or p.metavar or getattr(p.type, "choices", None))
            ]
    assert asked == []


def test_help_has_its_options_in_groups_and_takes_the_width_of_the_terminal(woodref, monkeypatch):
    monkeypatch.setenv("COLUMNS", "110")
    out = woodref("section", "--help").out
    heads = ["Arguments:", "What you have:", "Where it lives:", "The answer:"]
    assert [line for line in out.splitlines() if line in heads] == heads
    assert max(map(len, out.partition("Example:")[0].splitlines())) > 90


def test_a_complaint_is_one_printable_line_of_300_characters(woodref):
    told = woodref("find", "\x1b[31m\u202e" + "x" * 20_000)
    assert told.code == 2
    assert len(told.err.strip()) <= 300
    assert told.err.strip().isprintable()
    assert told.err.strip().endswith("woodref find")
