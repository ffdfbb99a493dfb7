"""The imports of the project's own modules, read from their text."""

import ast
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]


def modules(top):
    """Every module of a package with its file."""
    found = {}
    for file in sorted((ROOT / top).rglob("*.py")):
        name = ".".join(file.relative_to(ROOT).with_suffix("").parts)
        found[name.removesuffix(".__init__")] = file
    return found


def imported(file):
    """The names a file imports, wherever it does so: (module, name or '')."""
    found = []
    for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module:
            found += [(node.module, alias.name) for alias in node.names]
        elif isinstance(node, ast.Import):
            found += [(alias.name, "") for alias in node.names]
    return found


def arrows(known):
    """Module to the modules of the project it imports."""
    return {
        module: {
            target
            for base, name in imported(file)
            if (target := f"{base}.{name}" if f"{base}.{name}" in known else base) in known
            and target != module
        }
        for module, file in known.items()
    }


def room(module):
    """The room of a module of woodref: its folder, or the file itself where it stands alone."""
    return module.split(".")[1] if "." in module else module


def circles(graph):
    """Groups of nodes that need each other (strongly connected components of more than one)."""
    order, seen = [], set()

    def visit(node, edges, into):
        stack = [(node, iter(sorted(edges[node])))]
        seen.add(node)
        while stack:
            here, targets = stack[-1]
            for target in targets:
                if target not in seen:
                    seen.add(target)
                    stack.append((target, iter(sorted(edges[target]))))
                    break
            else:
                stack.pop()
                into.append(here)

    for node in graph:
        if node not in seen:
            visit(node, graph, order)
    back = {node: {a for a, targets in graph.items() if node in targets} for node in graph}
    seen.clear()
    groups = []
    for node in reversed(order):
        if node not in seen:
            group = []
            visit(node, back, group)
            groups.append(sorted(group))
    return [g for g in groups if len(g) > 1]
