"""Rooms: no two folders of `core/src` import each other, and files do so only where DEVELOPERS.md says why."""

import ast
import functools
import re
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
CRATES = {
    "core/src": "tenths",
    "core/macros/src": "tenths_macros",
    "ffi/src": "tenths_ffi",
    "python/src": "_tenths",
    "generate/src": "tenths_generate",
}
DEFINES = re.compile(r"\b(?:fn|struct|enum|trait|type|const|static|macro_rules!)\s+(\w+)")
BRACES = re.compile(r"[{}]")
NOT_CODE = re.compile(
    r"""//[^\n]*|/\*.*?\*/|r(\#*)".*?"\1|"(?:\\.|[^"\\])*"|'(?:\\[^']+|[^\\'])'|pub\(in [^)]*\)""", re.S
)
USE = re.compile(r"\buse\s+([^;]+);")
PATH = re.compile(r"(?<![\w:])[a-z]\w*(?:::\w+)+")


def without_tests(code):
    """The code of a file without comments, texts and its modules of tests."""
    code = NOT_CODE.sub(" ", code)
    while found := re.search(r"#\[cfg\(test\)\]\s*(?:#\[[^\]]*\]\s*)*(?:pub(?:\([^)]*\))?\s+)?mod\s+\w+\s*([{;])", code):
        end, depth = found.end(), found[1] == "{"
        while depth:
            brace = BRACES.search(code, end)
            depth += 1 if brace[0] == "{" else -1
            end = brace.end()
        code = code[: found.start()] + code[end:]
    return code


def paths_of_use(tree, before=()):
    """Each path that a `use` names, with the name that it gets."""
    tree = tree.strip()
    if tree.endswith("}"):
        head, _, body = tree.partition("{")
        before = (*before, *filter(None, head.replace(" ", "").split("::")))
        depth, part = 0, ""
        for letter in body[:-1] + ",":
            depth += {"{": 1, "}": -1}.get(letter, 0)
            if letter == "," and depth == 0:
                if part.strip():
                    yield from paths_of_use(part, before)
                part = ""
            else:
                part += letter
        return
    path, _, name = tree.partition(" as ")
    path = (*before, *(step.strip() for step in path.split("::")))
    path = path[:-1] if path[-1] == "self" else path
    if path:
        yield path, name.strip() or path[-1]


class Rust:
    """The modules of the crates, and which file defines what a path names."""

    def __init__(self, root):
        self.files, self.place, self.code, self.uses, self.defined = {}, {}, {}, {}, {}
        for source in CRATES:
            for file in sorted((root / source).rglob("*.rs")):
                parts = file.relative_to(root / source).with_suffix("").parts
                module = parts[:-1] if parts[-1] in ("mod", "lib", "main") else parts
                if "tests" in parts:
                    continue
                name = str(file.relative_to(root))
                self.files[source, module], self.place[name] = name, (source, module)
                self.code[name] = without_tests(file.read_text())
                self.defined[name] = set(DEFINES.findall(self.code[name]))
                self.uses[name] = [use for tree in USE.findall(self.code[name]) for use in paths_of_use(tree)]

    def absolute(self, file, path):
        """The crate of a path and its steps from there; nothing if the path leaves the repository."""
        source, module = self.place[file]
        named = {name: folder for folder, name in CRATES.items()}
        if path[0] in named:
            return named[path[0]], path[1:]
        if path[0] == "crate":
            return source, path[1:]
        if path[0] in ("self", "super"):
            while path and path[0] in ("self", "super"):
                module, path = module[:-1] if path[0] == "super" else module, path[1:]
            return source, module + path
        return (source, module + path) if (source, (*module, path[0])) in self.files else None

    def defining(self, source, path, seen=()):
        """The file in which a path ends: where the name is defined, not where it is only passed on."""
        if (source, path) in seen:
            return None
        depth = max(k for k in range(len(path) + 1) if (source, path[:k]) in self.files)
        file = self.files[source, path[:depth]]
        if depth == len(path):
            return file
        name, rest, seen = path[depth], path[depth + 1 :], (*seen, (source, path))
        if name in self.defined[file]:
            return file
        for used, known in self.uses[file]:
            place = self.absolute(file, used)
            if place and known == name and (found := self.defining(place[0], place[1] + rest, seen)):
                return found
        for used, known in self.uses[file]:
            place = self.absolute(file, used) if known == "*" else None
            if place and (found := self.defining(place[0], (*place[1][:-1], name, *rest), seen)):
                if found != file and name in self.defined[found]:
                    return found
        return file

    def imports(self):
        """Each file with the files that it imports from."""
        graph = {}
        for file, code in self.code.items():
            paths = [path for path, _ in self.uses[file]]
            paths += [tuple(path.split("::")) for path in PATH.findall(USE.sub("", code))]
            places = {place for path in paths if (place := self.absolute(file, path))}
            graph[file] = {self.defining(*place) for place in places} - {file, None}
        return graph


def python_imports(root):
    """Each module of the package with those that it imports."""
    files = {file.stem: str(file.relative_to(root)) for file in (root / "python/tenths").glob("*.py")}
    graph = {}
    for name in files.values():
        found = set()
        for node in ast.walk(ast.parse((root / name).read_text())):
            if isinstance(node, ast.ImportFrom) and node.level:
                found |= {node.module} if node.module else {alias.name for alias in node.names}
        graph[name] = {files[module] for module in found if module in files} - {name}
    return graph


def circles(graph):
    """The sets of nodes that reach each other."""

    @functools.cache
    def reached(start):
        found, rest = set(), [start]
        while rest:
            rest += (new := graph.get(rest.pop(), set()) - found)
            found |= new
        return found

    return {frozenset(n for n in reached(a) if a in reached(n)) for a in graph if a in reached(a)}


def room(file):
    """The folder of `core/src` that a file is in; a file that stands there by itself is a room too."""
    parts = Path(file).parts
    return Path(parts[2]).stem if parts[:2] == ("core", "src") else None


@functools.cache
def rust():
    return Rust(ROOT).imports()


def test_no_two_rooms_import_each_other():
    graph = {}
    for file, imported in rust().items():
        if room(file) not in (None, "lib"):
            graph.setdefault(room(file), set()).update({room(other) for other in imported} - {room(file), "lib"})
    assert len(graph) > 20 and "quantity" in graph["size"]
    assert circles(graph) == set()


def test_files_that_import_each_other_are_justified():
    found = circles(rust()) | circles(python_imports(ROOT))
    text = (ROOT / "DEVELOPERS.md").read_text()
    section = text.split("## Files that import each other\n")[1].split("\n## ")[0]
    justified = re.findall(r"^- `([^`]+)`", section, re.M)
    unlisted = [sorted(circle) for circle in found if not any(file in circle for file in justified)]
    assert not unlisted, f"untie these files, or say in DEVELOPERS.md why not: {unlisted}"
    assert len(justified) == len(found) <= 2


def test_circles_are_seen(tmp_path):
    """A made-up crate: a name that is passed on leads to its file, and tests and comments count for nothing."""
    for name, code in {
        "lib.rs": "mod a;\nmod b;\npub use a::{First, deep::*};",
        "a.rs": "pub mod deep;\npub struct First;\n// use crate::b::Second;\n#[cfg(test)]\nmod tests { use crate::b::Second; }",
        "a/deep.rs": "pub fn under() -> crate::b::Second { crate::b::Second }",
        "b.rs": "use crate::First;\npub struct Second;\nfn of() { crate::under(); }",
    }.items():
        file = tmp_path / "core/src" / name
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(code)
    graph = Rust(tmp_path).imports()
    assert graph["core/src/b.rs"] == {"core/src/a.rs", "core/src/a/deep.rs"}
    assert graph["core/src/a.rs"] == set()
    assert circles(graph) == {frozenset({"core/src/b.rs", "core/src/a/deep.rs"})}
