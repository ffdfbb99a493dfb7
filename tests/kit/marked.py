"""Runs the command line with a mark behind every sentence of the answers, or without it.

As a program: the commands as a JSON list on stdin, 'plain' or 'marked' as argument; on stdout what
each printed as JSON, the marks taken out of every text again.
"""

import ast
import contextlib
import importlib.abc
import importlib.machinery
import io
import json
import sys

MARK = "\N{REFERENCE MARK}"
#: Rooms whose every sentence is marked; elsewhere the texts of remarks alone.
ANSWERS = "woodref.answers."


def is_sentence(text):
    """True for words that people read: more than one of them, and no query."""
    return " " in text.strip() and not text.lower().startswith(("select ", "with "))


class Marks(ast.NodeTransformer):
    """Appends the mark to sentences, and to the texts of remarks."""

    def __init__(self, everywhere):
        self.everywhere = everywhere

    def marked(self, node):
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            return ast.Constant(node.value + MARK) if is_sentence(node.value) else node
        if isinstance(node, ast.JoinedStr):
            return ast.JoinedStr([*node.values, ast.Constant(MARK)])
        return node

    def visit_Expr(self, node):
        # A docstring stays as it is.
        return node if isinstance(node.value, ast.Constant) else self.generic_visit(node)

    def visit_Constant(self, node):
        return self.marked(node) if self.everywhere else node

    def visit_JoinedStr(self, node):
        texts = [v.value for v in node.values if isinstance(v, ast.Constant)]
        self.generic_visit_values(node)
        return self.marked(node) if self.everywhere and any(map(is_sentence, texts)) else node

    def generic_visit_values(self, node):
        for value in node.values:
            if isinstance(value, ast.FormattedValue):
                value.value = self.visit(value.value)

    def visit_Call(self, node):
        self.generic_visit(node)
        if not self.everywhere and isinstance(node.func, ast.Name) and node.func.id == "Note":
            if len(node.args) > 1:
                node.args[1] = self.marked(node.args[1])
            for keyword in node.keywords:
                if keyword.arg == "text":
                    keyword.value = self.marked(keyword.value)
        return node


class Loader(importlib.machinery.SourceFileLoader):
    """Compiles a module of ours with the marks in."""

    def source_to_code(self, data, path, *, _optimization=-1):
        tree = Marks(self.name.startswith(ANSWERS)).visit(ast.parse(data))
        return compile(ast.fix_missing_locations(tree), path, "exec", dont_inherit=True)

    def get_code(self, fullname):
        # Never from, or into, the cache of compiled files.
        return self.source_to_code(self.get_data(self.path), self.path)


class Finder(importlib.abc.MetaPathFinder):
    """Gives every module of woodref to the loader."""

    def find_spec(self, fullname, path, target=None):
        if not fullname.startswith("woodref."):
            return None
        spec = importlib.machinery.PathFinder.find_spec(fullname, path)
        if spec and isinstance(spec.loader, importlib.machinery.SourceFileLoader):
            spec.loader = Loader(fullname, spec.loader.path)
        return spec


def unmarked(value):
    """The answer without marks."""
    if isinstance(value, dict):
        return {k: unmarked(v) for k, v in value.items()}
    if isinstance(value, list):
        return [unmarked(v) for v in value]
    return value.replace(MARK, "") if isinstance(value, str) else value


def main():
    """Answer the commands; how many marks each showed stands beside."""
    if sys.argv[1] == "marked":
        sys.meta_path.insert(0, Finder())
    from woodref.cli.main import run

    answers, marks = [], []
    for words in json.load(sys.stdin):
        out, errors = io.StringIO(), io.StringIO()
        with contextlib.redirect_stdout(out), contextlib.redirect_stderr(errors):
            code = run([*words, "--format", "json"])
        text = out.getvalue()
        marks.append(text.count(MARK))
        answers.append([code, unmarked(json.loads(text)) if text else errors.getvalue()])
    json.dump({"marks": marks, "answers": answers}, sys.stdout)


if __name__ == "__main__":
    main()
