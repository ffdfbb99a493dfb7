"""The package offers what it says; its wheel and its source archive hold what they must."""

import ast
import os
import pkgutil
import shutil
import subprocess
import sys
import tarfile
import zipfile
from pathlib import Path

import pytest

import woodref

ROOT = Path(__file__).resolve().parents[1]


@pytest.fixture(scope="module")
def archives(tmp_path_factory):
    """Names in the wheel and in the source archive, built without the package index."""
    out = tmp_path_factory.mktemp("dist")
    subprocess.run(
        [sys.executable, "-m", "hatchling", "build", "-d", str(out)],
        cwd=ROOT,
        check=True,
        capture_output=True,
    )
    wheel = zipfile.ZipFile(next(out.glob("*.whl")))
    with tarfile.open(next(out.glob("*.tar.gz"))) as archive:
        sources = {name.partition("/")[2] for name in archive.getnames()}
    return wheel, sources


def test_the_wheel_holds_the_whole_dataset_and_the_program_alone(archives):
    wheel, _ = archives
    names = set(wheel.namelist())
    folder = ROOT / "datasets" / "reference"
    built = {p.relative_to(folder).as_posix() for p in folder.rglob("*") if p.is_file()}
    assert {n.removeprefix("woodref/_reference/") for n in names if "/_reference/" in n} == built
    assert {"species.parquet", "datapackage.json", "ready/woods.parquet"} < built
    assert {"woodref/py.typed", "woodref/templates/piece.toml", "woodref/cli/main.py"} < names
    tops = {n.partition("/")[0] for n in names}
    assert {t for t in tops if not t.endswith(".dist-info")} == {"woodref"}


def test_the_wheel_answers_from_its_own_dataset(archives, tmp_path):
    wheel, _ = archives
    wheel.extractall(tmp_path / "site")
    process = subprocess.run(
        [sys.executable, "-m", "woodref", "density", "white oak"],
        cwd=tmp_path,
        env={"PYTHONPATH": str(tmp_path / "site"), "PATH": ""},
        capture_output=True,
        text=True,
        check=True,
    )
    assert process.stdout.startswith("White oak at 12 %")
    where = subprocess.run(
        [
            sys.executable,
            "-c",
            "from woodref.reference.store import data_directory; print(data_directory())",
        ],
        cwd=tmp_path,
        env={"PYTHONPATH": str(tmp_path / "site"), "PATH": ""},
        capture_output=True,
        text=True,
        check=True,
    )
    assert where.stdout.strip() == str((tmp_path / "site" / "woodref" / "_reference").resolve())


def test_the_source_archive_can_build_and_test_itself(archives):
    _, sources = archives
    wanted = {
        ".ci/run",
        "README.md",
        "LICENSE",
        "CHANGELOG.md",
        "Makefile",
        "constraints.txt",
        "datasets/sources/origins.toml",
        "datasets/reference/species.parquet",
        "datasets/demo/hall-bench.toml",
        "pipeline/build.py",
        "tests/cli/test_docs.py",
    }
    assert wanted - sources == set()


def test_the_source_archive_lacks_nothing_that_is_kept(archives):
    if not (ROOT / ".git").exists():
        pytest.skip("no checkout: what is kept is not known")
    _, sources = archives
    kept = subprocess.run(
        ["git", "ls-files", "-z"], cwd=ROOT, check=True, capture_output=True, text=True
    ).stdout.split("\0")
    assert [name for name in kept if name and (ROOT / name).exists() and name not in sources] == []


def test_the_wheel_is_small_and_the_same_wherever_and_whenever_it_is_built(archives, tmp_path):
    wheel, _ = archives
    elsewhere = tmp_path / "a copy" / "elsewhere"
    for name in ("woodref", "datasets/reference"):
        ignored = shutil.ignore_patterns("__pycache__")
        shutil.copytree(ROOT / name, elsewhere / name, ignore=ignored)
    for name in ("pyproject.toml", "README.md", "LICENSE", ".gitignore"):
        shutil.copy(ROOT / name, elsewhere / name)
    for path in elsewhere.rglob("*"):
        path.chmod(0o700 if path.is_dir() else 0o600)
        os.utime(path, (1_000_000_000, 1_000_000_000))
    subprocess.run(
        [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(tmp_path)],
        cwd=elsewhere,
        env={**os.environ, "TZ": "Asia/Tokyo", "PYTHONHASHSEED": "7"},
        umask=0o077,
        check=True,
        capture_output=True,
    )
    built = Path(wheel.filename).read_bytes()
    assert next(tmp_path.glob("*.whl")).read_bytes() == built
    assert len(built) < 5_000_000


def test_every_public_name_is_where_a_checker_of_types_is_told():
    tree = ast.parse(Path(woodref.__file__).read_text(encoding="utf-8"))
    seen = {
        alias.name: node.module
        for node in ast.walk(tree)
        if isinstance(node, ast.ImportFrom) and node.module.startswith("woodref.")
        for alias in node.names
    }
    del seen["DATASET_VERSION"]
    assert seen == {name: f"woodref.{home}" for name, home in woodref._HOMES.items()}
    assert {*seen, "data_version"} == set(woodref.__all__)
    # A room of that name would stand in the way of the function once it is imported.
    rooms = {m.name for m in pkgutil.iter_modules(woodref.__path__)}
    assert rooms.isdisjoint(woodref.__all__)
