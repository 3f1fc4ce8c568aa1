"""The shape of the program: one direction of flow, one home for each library, no hidden state."""

import ast
import functools
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path, PurePosixPath

import pytest

from bindoff.document.techniques.pictures import SOURCES as TECHNIQUES

ROOT = Path(__file__).parents[1]
PACKAGE = ROOT / "generator" / "bindoff"
MODULES = {
    path.relative_to(PACKAGE).as_posix(): ast.parse(path.read_text("utf-8"))
    for path in sorted(PACKAGE.rglob("*.py"))
}

STAGES = ("source", "plan", "document", "render")

# What a stage may know of the program: itself, what comes before it, and the common ground.
KNOWN = {
    "craft": ("craft", "english", "regex", "records"),
    "source": (
        "source",
        "light",
        "english",
        "kept",
        "regex",
        "craft",
        "diagnostics",
        "files",
        "records",
        "remembered",
    ),
    "plan": (
        "plan",
        "light",
        "english",
        "kept",
        "regex",
        "source",
        "craft",
        "diagnostics",
        "records",
        "remembered",
    ),
    "document": (
        "document",
        "light",
        "english",
        "kept",
        "regex",
        "plan",
        "source",
        "craft",
        "diagnostics",
        "files",
        "records",
        "remembered",
    ),
    "render": (
        "render",
        "light",
        "english",
        "kept",
        "regex",
        "document.tree",
        "document.drawing",
        "document.discs",
        "diagnostics",
        "records",
    ),
    "diagnostics": ("diagnostics", "regex", "records"),
    "light": ("light",),
    "english": ("english", "regex"),
    "installed": ("installed",),
    "kept": ("kept", "installed"),
    "regex": ("regex", "kept"),
    "files": ("files", "diagnostics", "regex", "records"),
    "report": ("report", "diagnostics"),
    "records": ("records",),
    "remembered": ("remembered",),
}

# Each library outside the standard one is spoken to in one place.
HOMES: dict[str, str | tuple[str, ...]] = {
    "PIL": (
        "render/",
        "source/imagegrid.py",
        "source/flatcolours.py",
        "source/ruledpicture.py",
    ),
    "click": (
        "cli.py",
        "commands/",
        "report.py",
    ),
    "coloraide": ("plan/colour/", "source/imagegrid.py"),
    "filelock": "render/output.py",
    "hunspell": "checks/texts/misspelt.py",
    "jinja2": "document/braces.py",
    "lark": ("source/formula/", "source/rowlang/"),
    "markdown_it": "document/markdown.py",
    "msgspec": ("records.py", "jsontext.py", "desk/beside.py", "desk/commenting.py"),
    "openpyxl": "source/sheet.py",
    "platformdirs": "desk/launcher.py",
    "pikepdf": ("render/pdf/", "desk/proofnotes.py"),
    "pydantic": "source/",
    "pydantic_core": "source/",
    "pypdfium2": "render/shoppictures.py",
    "pyphen": "render/pdf/",
    "reportlab": "render/pdf/",
    "starlette": "desk/",
    "uharfbuzz": "render/pdf/",
    "uvicorn": "desk/",
    "yaml": ("source/", "desk/beside.py"),
}

# Modules that read or write files, the clock, chance or other machines.
CLOCK_AND_CHANCE = frozenset({"random", "secrets", "time", "uuid"})
TELLS_THE_TIME = frozenset({"now", "today", "utcnow"})
OUTER_WORLD = frozenset(
    {
        "asyncio",
        "ctypes",
        "datetime",
        "glob",
        "http",
        "importlib",
        "io",
        "locale",
        "multiprocessing",
        "os",
        "pathlib",
        "random",
        "secrets",
        "shutil",
        "socket",
        "sqlite3",
        "ssl",
        "subprocess",
        "tempfile",
        "threading",
        "time",
        "urllib",
        "uuid",
    }
)
MUTATORS = frozenset(
    {
        "add",
        "append",
        "clear",
        "discard",
        "extend",
        "insert",
        "pop",
        "popitem",
        "remove",
        "reverse",
        "setdefault",
        "sort",
        "update",
    }
)


def imports(tree: ast.AST) -> Iterator[str]:
    """Every module that ``tree`` imports, wherever in it."""
    for node in ast.walk(tree):
        match node:
            case ast.Import(names):
                yield from (name.name for name in names)
            case ast.ImportFrom(module, names, 0):
                yield str(module)
                yield from (f"{module}.{name.name}" for name in names)
            case ast.ImportFrom():
                raise AssertionError("imports name the whole path")


def roots(tree: ast.AST) -> set[str]:
    """The top packages that ``tree`` imports."""
    return {name.split(".")[0] for name in imports(tree)}


def part(path: str) -> str:
    """``source`` for ``source/grid.py``, ``files`` for ``files.py``."""
    return PurePosixPath(path).parts[0].removesuffix(".py")


Rule = Callable[[str, ast.Module], None]


def each_module(rule: Rule) -> Callable[[str], None]:
    """A rule for one module as a test of a part of the program: what breaks it says its module."""

    @pytest.mark.parametrize("place", sorted({part(path) for path in MODULES}))
    @functools.wraps(rule)
    def judged(place: str) -> None:
        for path, tree in MODULES.items():
            if within(path, place):
                try:
                    rule(path, tree)
                except AssertionError as fault:
                    fault.add_note(f"in {path}")
                    raise

    del judged.__wrapped__  # pytest would read its arguments
    return judged


def within(path: str, *parts: str) -> bool:
    return part(path) in parts


def test_all_stages_are_looked_at() -> None:
    assert {part(path) for path in MODULES} >= {*STAGES, "diagnostics"}


def strangers(path: str, tree: ast.Module) -> set[str]:
    """What a module imports of the program though its stage may not know it."""
    known = KNOWN.get(part(path))
    if known is None:  # the command line and what runs the stages in order
        return set()
    ours = {name.removeprefix("bindoff.") for name in imports(tree) if "bindoff." in name}
    parents = {each.split(".")[0] for each in known if "." in each}  # named on the way to a known
    return {
        name
        for name in ours - parents
        if not any(f"{name}.".startswith(f"{each}.") for each in known)
    }


def test_what_is_kept_of_stripes_is_made_by_what_its_shelf_names() -> None:
    """A change of anything else can't change the ways that are found."""
    named = ("bindoff.plan.colour", "bindoff.craft.lengths", "bindoff.records")
    idle = ("bindoff.diagnostics", "bindoff.kept")  # refuse, and keep
    for path, tree in MODULES.items():
        if path.startswith("plan/colour/") or path in ("craft/lengths.py", "records.py"):
            ours = {name for name in imports(tree) if name.startswith("bindoff")}
            assert all(name.startswith((*named, *idle)) for name in ours), path


def test_what_is_kept_of_techniques_is_made_by_what_its_shelf_names() -> None:
    """A change of anything else can't change their drawings."""
    drawers = ("board", "edges", "machine", "shaping", "threads", "wrongside")
    known = {"records.py", "regex.py", "kept.py", "installed.py"}  # make nothing, and keep
    named = {PurePosixPath(source) for source in TECHNIQUES}
    todo = {f"document/techniques/{name}.py" for name in drawers} | {"document/keptdrawings.py"}
    while todo:
        path = todo.pop()
        known.add(path)
        assert {PurePosixPath(path), PurePosixPath(path).parent} & named, path
        places = [name[8:].replace(".", "/") for name in imports(MODULES[path])]
        files = {f"{place}{end}" for place in places for end in (".py", "/__init__.py")}
        todo |= (files & MODULES.keys()) - known


PLANS = ("plan_", "choose_", "price_", "make_plan", "work_")


@each_module
def test_the_document_plans_nothing(path: str, tree: ast.Module) -> None:
    """Every number is computed once, in ``plan``; the document puts it into words."""
    if within(path, "document"):
        named = {
            name.rpartition(".")[2] for name in imports(tree) if name.startswith("bindoff.plan")
        }
        assert not [name for name in named if name.startswith(PLANS)]


@each_module
def test_a_module_knows_only_what_comes_before_its_stage(path: str, tree: ast.Module) -> None:
    assert not strangers(path, tree)


@pytest.mark.parametrize(
    ("path", "line", "found"),
    [
        ("plan/a.py", "from bindoff.render.text import b", "render.text"),
        ("source/a.py", "import bindoff.plan.values", "plan.values"),
        (
            "plan/a.py",
            "def f():\n    from bindoff.document import tree",
            "document",
        ),
        ("render/a.py", "from bindoff.document.prose import b", "document.prose"),
        ("render/a.py", "from bindoff.plan.values import Kind", "plan.values"),
        ("document/a.py", "from bindoff import pipeline", "pipeline"),
        ("diagnostics.py", "from bindoff.files import Files", "files"),
    ],
)
def test_an_import_against_the_flow_is_noticed(path: str, line: str, found: str) -> None:
    assert found in strangers(path, ast.parse(line))


@each_module
def test_a_library_is_spoken_to_in_one_place(path: str, tree: ast.Module) -> None:
    foreign = roots(tree) - set(sys.stdlib_module_names) - {"bindoff"}

    assert foreign <= HOMES.keys()
    assert all(path.startswith(HOMES[name]) for name in foreign)


@each_module
def test_no_output_depends_on_clock_or_chance(path: str, tree: ast.Module) -> None:
    """Commands may wait and say how long they took; what they build may not know the time. The desk
    only shows what is built, and needs a secret."""
    if within(path, "commands", "catalogue", "desk"):
        return
    named = {node.attr for node in ast.walk(tree) if isinstance(node, ast.Attribute)}
    assert not roots(tree) & CLOCK_AND_CHANCE
    assert not named & TELLS_THE_TIME


@each_module
def test_the_plan_meets_no_outer_world(path: str, tree: ast.Module) -> None:
    if not within(path, "plan"):
        return
    called = {
        node.func.id
        for node in ast.walk(tree)
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)
    }
    assert not roots(tree) & OUTER_WORLD
    assert not called & {"open", "print", "input", "exec", "eval", "__import__"}


def string_paths(tree: ast.AST) -> list[str]:
    """Calls in which keys written as text lead to a value or a place through more than one group.

    A model has the place of each of its keys: ``step.place.of("to")``. What is further in is asked
    of the model there.
    """

    def is_key(node: ast.expr) -> bool:
        return isinstance(node, ast.Constant) and isinstance(node.value, str)

    found = []
    for node in ast.walk(tree):
        match node:
            case ast.Call(ast.Attribute(ast.Call(ast.Attribute(_, "of")), "of"), [key]):
                if is_key(key):
                    found.append(ast.unparse(node))
            case ast.Call(ast.Attribute(_, "span" | "key_span" | "text" | "at"), [*arguments]):
                keys = [k for a in arguments for k in (a.elts if isinstance(a, ast.Tuple) else [a])]
                if any(map(is_key, keys)):
                    found.append(ast.unparse(node))
            case ast.ImportFrom("bindoff.source.yamltree", names):
                found += [name.name for name in names if name.name == "YamlTree"]
    return found


@each_module
def test_no_value_is_found_by_a_path_of_keys_after_the_source(path: str, tree: ast.Module) -> None:
    if within(path, "plan", "document", "checks", "render"):
        assert string_paths(tree) == []


@pytest.mark.parametrize(
    ("line", "noticed"),
    [
        ("source.span('pieces', key, 'tube')", True),
        ("tree.text(('yarns', key))", True),
        ("pattern.place.of('pieces').of('hat')", True),
        ("from bindoff.source.yamltree import Place, YamlTree", True),
        ("step.place.of('to').span", False),
        ("pattern.place.of('notions').of(index)", False),
        ("grid.span(1, 2)", False),
    ],
)
def test_a_path_of_keys_is_noticed(line: str, noticed: bool) -> None:
    assert bool(string_paths(ast.parse(line))) == noticed


def top_names(tree: ast.Module) -> dict[str, ast.expr]:
    """Names bound at the top of a module, with their values."""
    found: dict[str, ast.expr] = {}
    for node in tree.body:
        match node:
            case ast.Assign(targets, value):
                found |= {each.id: value for each in targets if isinstance(each, ast.Name)}
            case ast.AnnAssign(ast.Name(name), _, value) if value is not None:
                found[name] = value
    return found


@each_module
def test_tables_at_the_top_of_a_module_are_constants(path: str, tree: ast.Module) -> None:
    """A table is named in capitals, and no line of the module changes it."""
    tables = {
        name
        for name, value in top_names(tree).items()
        if isinstance(value, ast.Dict | ast.List | ast.Set | ast.DictComp | ast.ListComp)
        or (
            isinstance(value, ast.Call)
            and isinstance(value.func, ast.Name)
            and value.func.id in ("dict", "list", "set", "defaultdict", "Counter", "deque")
        )
    }
    assert all(name.isupper() or name == "__all__" for name in tables)
    assert not changed(tree) & set(top_names(tree))


def changed(tree: ast.Module) -> set[str]:
    """Names of which an item or an attribute is set, or on which a changing method is called."""
    found: set[str] = set()
    for node in ast.walk(tree):
        match node:
            case ast.Global(names):
                found |= set(names)
            case ast.Subscript(ast.Name(name), _, ast.Store() | ast.Del()):
                found.add(name)
            case ast.Attribute(ast.Name(name), _, ast.Store() | ast.Del()):
                found.add(name)
            case ast.Call(ast.Attribute(ast.Name(name), method)) if method in MUTATORS:
                found.add(name)
    return found


@pytest.mark.parametrize(
    ("code", "names"),
    [
        ("X = {}\ndef f():\n    X['a'] = 1", {"X"}),
        ("X = []\ndef f():\n    X.append(1)", {"X"}),
        ("X = 1\ndef f():\n    global X\n    X = 2", {"X"}),
        ("X = {}\ndef f():\n    return X['a'], X.get('b')", set()),
    ],
)
def test_a_change_is_noticed(code: str, names: set[str]) -> None:
    assert changed(ast.parse(code)) == names


@each_module
def test_a_public_thing_says_what_it_is(path: str, tree: ast.Module) -> None:
    named = [
        node
        for node in tree.body
        if isinstance(node, ast.FunctionDef | ast.ClassDef) and not node.name.startswith("_")
    ]
    assert ast.get_docstring(tree)
    assert [node.name for node in named if not ast.get_docstring(node)] == []


def test_reading_a_pattern_loads_no_render_and_no_text_engine() -> None:
    code = (
        "import sys, bindoff.cli, bindoff.pipeline\n"
        "late = {'jinja2', 'markdown_it', 'reportlab', 'pikepdf', 'filelock', 'PIL', 'starlette'}\n"
        "loaded = late & set(sys.modules)\n"
        "assert not loaded, sorted(loaded)"
    )
    subprocess.run([sys.executable, "-c", code], check=True, cwd=ROOT)
