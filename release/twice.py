"""Build the committed state twice, each time under other circumstances, and compare the bytes.

    python -m release.twice --out dist

Two clones in folders of other names and depths, with other permissions of new files, another time
zone, language, hash seed and hour, must give one wheel and one source archive. The wheel is built
from the source archive, which shows that the archive lacks nothing. SOURCE_DATE_EPOCH is not
needed: the build tool writes a fixed time. Nothing is uploaded.
"""

from __future__ import annotations

import argparse
import hashlib
import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
#: Most the wheel may have [bytes].
MOST_BYTES = 5_000_000
#: What differs between the builds: folder, permissions taken from new files, environment.
CIRCUMSTANCES: tuple[tuple[str, int, dict[str, str]], ...] = (
    ("one", 0o022, {"TZ": "UTC", "LC_ALL": "C", "PYTHONHASHSEED": "1"}),
    ("another/and deeper", 0o077, {"TZ": "Asia/Tokyo", "LC_ALL": "C.UTF-8", "PYTHONHASHSEED": "2"}),
)
#: Time given to the files of the second clone, in seconds since 1970.
_LONG_AGO = 1_000_000_000


def sha256(path: Path) -> str:
    """SHA-256 of a file in hexadecimal digits."""
    return hashlib.sha256(path.read_bytes()).hexdigest()


def build(source: Path, out: Path, umask: int, environment: dict[str, str]) -> dict[str, str]:
    """Build source archive and wheel of a checkout.

    Parameters: source, a checkout; out, the folder of the archives; umask of the build;
    environment that goes before that of the process.
    Returns: SHA-256 by file name.
    """
    kept = {k: v for k, v in os.environ.items() if k != "SOURCE_DATE_EPOCH"}
    subprocess.run(
        [sys.executable, "-m", "build", "--no-isolation", "--outdir", str(out), str(source)],
        check=True,
        cwd=source,
        env=kept | environment,
        umask=umask,
        stdout=subprocess.DEVNULL,
    )
    return {path.name: sha256(path) for path in sorted(out.iterdir())}


def clone(target: Path, umask: int) -> None:
    """A clone of the committed state, with permissions as the umask leaves them."""
    target.parent.mkdir(parents=True, exist_ok=True)
    subprocess.run(["git", "clone", "--quiet", str(ROOT), str(target)], check=True, umask=umask)


def age(folder: Path) -> None:
    """Give all files of a folder, git's own aside, a time long ago."""
    for path in folder.rglob("*"):
        if path.is_file() and ".git" not in path.relative_to(folder).parts:
            os.utime(path, (_LONG_AGO, _LONG_AGO))


def main() -> int:
    """Build, compare, and leave the archives in a folder."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--out", type=Path, default=ROOT / "dist", help="folder of the archives")
    out = parser.parse_args().out.resolve()
    changed = subprocess.run(
        ["git", "status", "--porcelain"], cwd=ROOT, check=True, capture_output=True, text=True
    ).stdout
    if changed:
        print(f"commit first: a release is built of what is committed\n{changed}", file=sys.stderr)
        return 1
    with tempfile.TemporaryDirectory(prefix="woodref-release-") as name:
        builds = []
        for folder, umask, environment in CIRCUMSTANCES:
            source = Path(name) / folder / "woodref"
            clone(source, umask)
            if builds:
                age(source)
            builds.append(build(source, Path(name) / folder / "dist", umask, environment))
        if builds[0] != builds[1]:
            print(f"two builds differ: {builds[0]} and {builds[1]}", file=sys.stderr)
            return 1
        out.mkdir(parents=True, exist_ok=True)
        for file in builds[0]:
            shutil.copyfile(Path(name) / CIRCUMSTANCES[0][0] / "dist" / file, out / file)
    for file, digest in builds[0].items():
        size = (out / file).stat().st_size
        print(f"{digest}  {file}  {size / 1e6:.2f} MB")
        if file.endswith(".whl") and size > MOST_BYTES:
            print(f"{file}: over {MOST_BYTES / 1e6:g} MB", file=sys.stderr)
            return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
