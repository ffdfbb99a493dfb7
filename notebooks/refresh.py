"""Run the notebooks and keep the outputs stored in them in step with the library.

    python notebooks/refresh.py            renew the stored outputs (make notebooks)
    python notebooks/refresh.py --check    name what is out of date, change nothing

A notebook runs in its own folder, in the Python that runs this program, without the defaults
and figures of the user. What is stored holds no time, no path and no version.
"""

from __future__ import annotations

import argparse
import os
import sys
import tempfile
from pathlib import Path
from typing import Any
from unittest import mock

import nbformat
from nbclient import NotebookClient

HERE = Path(__file__).resolve().parent
ROOT = HERE.parent
NOTEBOOKS = tuple(sorted(HERE.glob("*.ipynb")))
#: Seconds a cell may take.
_PATIENCE_S = 120
_METADATA = {
    "kernelspec": {"display_name": "Python 3", "language": "python", "name": "python3"},
    "language_info": {"name": "python"},
}


def read(path: Path) -> nbformat.NotebookNode:
    """A notebook as it is stored."""
    return nbformat.read(path, as_version=4)


def executed(path: Path) -> nbformat.NotebookNode:
    """The notebook with the outputs of today, tidied as it is stored.

    Raises: nbclient.exceptions.CellExecutionError where a cell fails.
    """
    from jupyter_client.kernelspec import KernelSpecManager
    from jupyter_client.manager import KernelManager

    notebook = read(path)
    with (
        tempfile.TemporaryDirectory() as folder,
        mock.patch.dict(os.environ, _environment(folder), clear=True),
    ):
        # Without folders to look in, the kernel is the Python that runs this, whatever else
        # is installed; sockets are files, so that kernels side by side share no ports.
        kernel = KernelManager(
            kernel_name="python3", kernel_spec_manager=KernelSpecManager(kernel_dirs=[])
        )
        if os.name == "posix":
            kernel.transport, kernel.ip = "ipc", str(Path(folder, "k"))
        client = NotebookClient(
            notebook,
            km=kernel,
            timeout=_PATIENCE_S,
            record_timing=False,
            resources={"metadata": {"path": str(HERE)}},
        )
        try:
            client.execute()
        finally:
            kernel.shutdown_kernel(now=True)
    return tidied(notebook)


def _environment(folder: str) -> dict[str, str]:
    """The environment of a kernel: of the user's, no woodref settings, no profile of IPython."""
    kept = {k: v for k, v in os.environ.items() if not k.startswith("WOODREF")}
    return kept | {
        "WOODREF_CONFIG": os.devnull,
        "WOODREF_NO_OWN": "1",
        "WOODREF_CACHE": os.devnull,
        "PYTHONPATH": str(ROOT),
        "IPYTHONDIR": folder,
        "JUPYTER_RUNTIME_DIR": folder,
    }


def tidied(notebook: nbformat.NotebookNode) -> nbformat.NotebookNode:
    """The notebook without what differs from run to run, or from one machine to another."""
    notebook.metadata = nbformat.from_dict(_METADATA)
    for cell in notebook.cells:
        cell.metadata = nbformat.from_dict({})
        if cell.cell_type == "code":
            cell.outputs = _joined(cell.outputs)
    return notebook


def _joined(outputs: list[nbformat.NotebookNode]) -> list[nbformat.NotebookNode]:
    """The outputs of a cell, printed text in one: where it is cut depends on the time it took."""
    joined: list[nbformat.NotebookNode] = []
    for output in outputs:
        last = joined[-1] if joined else None
        if output.output_type == "stream" and last and last.get("name") == output.name:
            last.text += output.text
        else:
            joined.append(output)
    return joined


def shown(notebook: nbformat.NotebookNode) -> list[list[Any]]:
    """What each code cell shows: text word for word, of pictures only that they are there."""
    return [
        [_shown(output) for output in cell.outputs]
        for cell in notebook.cells
        if cell.cell_type == "code"
    ]


def _shown(output: nbformat.NotebookNode) -> Any:
    if output.output_type == "stream":
        return output.name, output.text
    if output.output_type == "error":
        return output.ename, output.evalue
    return {k: "" if k.startswith("image/") else v for k, v in output.data.items()}


def stale(stored: nbformat.NotebookNode, fresh: nbformat.NotebookNode) -> list[int]:
    """The code cells, counted from 1, whose stored outputs are not those of today."""
    pairs = zip(shown(stored), shown(fresh), strict=True)
    return [n for n, (before, now) in enumerate(pairs, 1) if before != now]


def main() -> int:
    """Run every notebook; 1 where --check finds a stale one."""
    parser = argparse.ArgumentParser(description="Renew the outputs of the notebooks.")
    parser.add_argument("--check", action="store_true", help="name what is stale, change nothing")
    check = parser.parse_args().check
    found = 0
    for path in NOTEBOOKS:
        fresh = executed(path)
        cells = stale(read(path), fresh)
        if cells:
            found += 1
            print(f"{path.relative_to(ROOT)}: code cells {', '.join(map(str, cells))}")
        if not check:
            nbformat.write(fresh, path)
    return 1 if check and found else 0


if __name__ == "__main__":
    sys.exit(main())
