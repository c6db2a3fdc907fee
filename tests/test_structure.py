"""The shape of the house: sizes, cycles, documentation, and what the repository holds."""

import ast
import os
import re
import shutil
import subprocess
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
LONGEST_FILE = 600
LONGEST_FUNCTION = 80
TOP_LEVEL = {
    ".ci", ".gitignore", "CHANGELOG.md", "DEVELOPERS.md", "LICENSE", "README.md", "build", "courseware", "modules",
    "pyproject.toml", "question_bank", "tests",
}  # fmt: skip
# Written so that this file does not hold what it looks for.
MACHINE_PATHS = re.compile(
    r"(?<![\w.>])([/]w[o]rk\b|[/]t[m]p/|[/]h[o]me/|[/]ro[o]t/|[/]Us[e]rs/|[/]m[n]t/|[/]o[p]t/)|\b[A-Z]:\\Us[e]rs|\bsh[a]red/"
)
NOT_TEXT = {".png", ".jpg", ".ttf", ".woff2", ".pdf"}


Documented = ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef | ast.Module


@cache
def tracked() -> tuple[Path, ...]:
    """Return the files of the repository; in an unpacked archive, those that lie there."""
    git = shutil.which("git")
    if git and (ROOT / ".git").exists():
        done = subprocess.run(  # noqa: S603  # a fixed program
            [git, "-C", str(ROOT), "ls-files", "-z", "--cached", "--others", "--exclude-standard"],
            capture_output=True, check=True, timeout=60,
        )  # fmt: skip
        names = [os.fsdecode(name) for name in done.stdout.split(b"\0") if name]
        return tuple(sorted(path for name in names if (path := ROOT / name).is_file()))
    found = (path for top in TOP_LEVEL for path in [ROOT / top, *(ROOT / top).rglob("*")])
    return tuple(sorted(path for path in found if path.is_file() and "__pycache__" not in path.parts))


def name_of(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


@cache
def python_files() -> dict[str, ast.Module]:
    paths = [path for path in tracked() if path.suffix == ".py"]
    return {name_of(path): ast.parse(path.read_text(encoding="utf-8")) for path in paths}


def test_there_is_a_house_to_measure() -> None:
    assert len(python_files()) > 100
    assert any(name.startswith("tests/") for name in python_files())


def test_no_file_is_longer_than_can_be_read_at_a_sitting() -> None:
    sizes = {name: len((ROOT / name).read_text(encoding="utf-8").splitlines()) for name in python_files()}
    assert {name: size for name, size in sizes.items() if size > LONGEST_FILE} == {}


def test_no_function_is_longer_than_a_screen() -> None:
    long = {
        f"{name}:{node.lineno} {node.name}": node.end_lineno - node.lineno + 1
        for name, tree in python_files().items()
        for node in ast.walk(tree)
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef)
        and node.end_lineno is not None
        and node.end_lineno - node.lineno >= LONGEST_FUNCTION
    }
    assert long == {}


def public_names(name: str, body: list[ast.stmt], prefix: str = "") -> Iterator[tuple[str, Documented]]:
    for node in body:
        if not isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef) or node.name.startswith("_"):
            continue
        if {getattr(one, "attr", "") for one in getattr(node, "decorator_list", [])} & {"setter", "overload"}:
            continue
        yield f"{name}:{node.lineno} {prefix}{node.name}", node
        if isinstance(node, ast.ClassDef):
            yield from public_names(name, node.body, f"{prefix}{node.name}.")


def test_every_public_name_and_every_module_is_documented() -> None:
    own = {name: tree for name, tree in python_files().items() if name.startswith("courseware/")}
    named = [found for name, tree in own.items() for found in public_names(name, tree.body)]
    assert len(named) > 300
    parts: list[tuple[str, Documented]] = [*named, *own.items()]
    silent = [where for where, node in parts if not ast.get_docstring(node)]
    assert silent == []


@cache
def modules() -> dict[str, ast.Module]:
    """Return the package's modules by dotted name."""
    return {
        name.removesuffix(".py").removesuffix("/__init__").replace("/", "."): tree
        for name, tree in python_files().items()
        if name.startswith("courseware/")
    }


def imports_of(module: str, tree: ast.Module) -> set[str]:
    """Return the modules of the package that a module imports anywhere in it, also by name as a string."""
    known = modules()
    found = set()
    for node in ast.walk(tree):
        match node:
            case ast.Import(names=names):
                found |= {alias.name for alias in names}
            case ast.ImportFrom(module=str() as origin, level=0, names=names):
                found |= {inner if (inner := f"{origin}.{alias.name}") in known else origin for alias in names}
            case ast.ImportFrom():
                raise AssertionError(f"{module}:{node.lineno}: a relative import hides the room it leads to")
            case ast.Constant(value=str() as text) if text in known and "." in text:
                found.add(text)
    return {name for name in found if name in known} - {module}


def a_cycle(graph: dict[str, set[str]]) -> list[str]:
    """Return the modules of one cycle, in order; nothing if there is none."""
    done: set[str] = set()

    def search(module: str, path: list[str]) -> list[str]:
        if module in path:
            return [*path[path.index(module) :], module]
        if module in done:
            return []
        for inner in sorted(graph[module]):
            if found := search(inner, [*path, module]):
                return found
        done.add(module)
        return []

    return next((found for module in sorted(graph) if (found := search(module, []))), [])


def test_no_module_imports_itself_by_any_way_round() -> None:
    graph = {module: imports_of(module, tree) for module, tree in modules().items()}
    assert sum(map(len, graph.values())) > 200
    assert a_cycle(graph) == []


def test_the_search_for_cycles_finds_one() -> None:
    assert a_cycle({"a": {"b"}, "b": {"c"}, "c": {"b"}, "d": set()}) == ["b", "c", "b"]
    assert a_cycle({"a": {"b", "c"}, "b": {"c"}, "c": set()}) == []


def test_the_top_level_holds_exactly_what_a_reader_expects() -> None:
    assert {name_of(path).partition("/")[0] for path in tracked()} == TOP_LEVEL


def test_the_licence_is_the_whole_apache_licence() -> None:
    text = (ROOT / "LICENSE").read_text(encoding="utf-8")
    assert text.lstrip().startswith("Apache License\n                           Version 2.0, January 2004\n")
    assert "END OF TERMS AND CONDITIONS" in text
    # The nine numbered sections of https://www.apache.org/licenses/LICENSE-2.0
    assert re.findall(r"^   ([1-9])\. ", text, re.MULTILINE) == [*"123456789"]


def test_no_file_names_a_place_on_somebodys_machine() -> None:
    found = [
        f"{name_of(path)}:{number}: {match[0]}"
        for path in tracked()
        if path.suffix not in NOT_TEXT
        for number, line in enumerate(path.read_text(encoding="utf-8", errors="replace").splitlines(), start=1)
        if (match := MACHINE_PATHS.search(line))
    ]
    assert found == []


@pytest.mark.parametrize("line", ["cd [/]work/main", "see ..[/]shared[/]trade", "[/]home/ann/x", "C:[\\]Users[\\]ann"])
def test_the_search_for_places_finds_them(line: str) -> None:
    assert MACHINE_PATHS.search(line.replace("[", "").replace("]", ""))


def test_every_test_file_is_found_by_its_name() -> None:
    tests = [name for name, tree in python_files().items() if name.startswith("tests/") and has_tests(tree)]
    assert [name for name in tests if not Path(name).name.startswith("test_")] == []


def has_tests(tree: ast.Module) -> bool:
    return any(isinstance(node, ast.FunctionDef) and node.name.startswith("test_") for node in tree.body)
