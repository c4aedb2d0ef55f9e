#!/usr/bin/env python3
"""README.md and the pages of docs/ say what the library does.

    python3 tests/check_guides.py --compile "g++ -std=c++20 -Iinclude -I/usr/include/eigen3" --work /tmp/guides
    python3 tests/check_guides.py ... --link FILE  the library barwright::compiled, if those options ask for it
    python3 tests/check_guides.py ... --write      puts what the blocks print into the pages

Code     The ```cpp blocks of a page are one function, in their order, with the names of barwright and
         its literals in reach: a later block knows what an earlier one made. One with a main is a
         program by itself; one that begins with `// examples/NAME.cpp` is that file. All are compiled
         in one go and run.
Output   The ```text block after a ```cpp block is what that block prints; without one it prints
         nothing. After a ```sh block that runs an example (build/mine/examples/NAME ...) it is what
         examples/expected/ holds for those arguments; elsewhere it is part of what some example
         prints. A line "..." stands for lines that are left out.
Links    A link within the repository leads to a file that is there, and to a heading that it has.
Charts   The drawing of a loaded bar is the one that the example makes. (sh docs/charts/draw.sh
         draws all of them again.)
Evidence docs/evidence.md names every file of tests/data/, and no test that is not there.
"""
import argparse
import collections
import pathlib
import re
import shlex
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parent.parent
UNCHECKED_OUTPUT = {"benchmarks.md", "include-cost.md"}  # what was measured on one day
FENCE = re.compile(r"^```(\w*)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
Block = collections.namedtuple("Block", "language text line start end")

problems = []


def complain(page, line, what):
    problems.append(f"{page.relative_to(ROOT)}:{line}: {what}")


def blocks_of(text):
    return [Block(found[1], found[2], text.count("\n", 0, found.start()) + 2, found.start(2), found.end(2))
            for found in FENCE.finditer(text)]


# ---- code

def source_of(pages):
    """One program of all blocks. Each ends by printing a mark, so that the output can be divided."""
    includes = {"#include <barwright/barwright.hpp>", "#include <barwright/learning.hpp>",
                "#include <iostream>"}
    bodies = []
    calls = []
    marks = [r"""std::cout << "\x1e\n";"""]
    for number, (page, blocks) in enumerate(pages.items()):
        snippets = []
        for index, block in enumerate(blocks):
            if block.language != "cpp":
                continue
            lines = block.text.split("\n")
            includes.update(line for line in lines if line.startswith("#include"))
            code = "\n".join("" if line.startswith("#include") else line for line in lines)
            code = f'#line {block.line} "{page.relative_to(ROOT)}"\n' + code
            if "int main()" in code:
                space = f"page_{number}_block_{index}"
                bodies.append(f"namespace {space} {{\n"
                              + code.replace("int main()", "void whole_program()") + "}")
                snippets.append(f"{space}::whole_program();")
            else:
                snippets.append(code)
            snippets += marks
        if snippets:
            bodies.append(f"void page_{number}() {{\n" + "\n".join(snippets) + "\n}")
            calls.append(f"  page_{number}();")
    return "\n".join(sorted(includes) + ["using namespace barwright;",
                                         "using namespace barwright::literals;"]
                     + bodies + ["int main() {"] + calls + ["}"]) + "\n"


def outputs_of(pages, compiler, libraries, work):
    """What each ```cpp block prints, in the order of the pages."""
    work.mkdir(parents=True, exist_ok=True)
    source = work / "guides.cpp"
    source.write_text(source_of(pages))
    program = work / "guides"
    built = subprocess.run([*compiler, "-O0", "-Wno-unused", str(source), *libraries, "-o", str(program)], cwd=ROOT)
    if built.returncode != 0:
        sys.exit("the code of the pages does not compile")
    ran = subprocess.run([program], cwd=ROOT, stdout=subprocess.PIPE, text=True)
    if ran.returncode != 0:
        sys.exit(f"the code of the pages ends with status {ran.returncode} after\n{ran.stdout[-2000:]}")
    return ran.stdout.split("\x1e\n")[:-1]


# ---- output

def is_part(quoted, whole):
    """Whether the lines of `quoted` are in `whole`, those between two "..." next to each other."""
    place = 0
    for piece in re.split(r"^ *\.\.\.\n", quoted, flags=re.MULTILINE):
        found = ("\n" + whole).find("\n" + piece, place)
        if found < 0:
            return False
        place = found + len(piece)
    return True


def is_quoted(quoted, whole):
    return is_part(quoted, whole) if "...\n" in quoted else quoted == whole


def printed_by(command):
    """What examples/expected holds for a command; None for one that is not there."""
    name, *arguments = shlex.split(command)
    for file in sorted((ROOT / "examples/expected").glob(f"{name}.*txt")):
        kept = file.with_suffix(".args")
        if (kept.read_text().splitlines() if kept.exists() else []) == arguments:
            return file.read_text()
    return None


def check_output(page, blocks, outputs):
    """Takes from `outputs` those of this page."""
    printed = [re.sub(r"[ \t]+$", "", p.read_text(), flags=re.MULTILINE)
               for p in sorted((ROOT / "examples").rglob("*.txt"))]
    wanted = None  # what the next ```text block is to be
    changes = []
    for number, block in enumerate(blocks):
        following = blocks[number + 1].language if number + 1 < len(blocks) else ""
        if block.language == "cpp":
            example = re.match(r"// (examples/\w+\.cpp)", block.text)
            if example and block.text != (ROOT / example[1]).read_text():
                complain(page, block.line, f"is not {example[1]} as it is now")
            wanted = re.sub(r"[ \t]+$", "", outputs.pop(0), flags=re.MULTILINE)
            if wanted and following != "text":
                complain(page, block.line, f"prints what no text block after it says:\n{wanted}")
        elif block.language == "sh":
            commands = re.findall(r"^build/mine/examples/(.+)$", block.text, re.MULTILINE)
            wanted = "".join(filter(None, map(printed_by, commands))) if commands else None
            for command in commands:
                if printed_by(command) is None:
                    complain(page, block.line, f"examples/expected has no case of: {command}")
        elif block.language == "text" and page.name not in UNCHECKED_OUTPUT:
            if wanted is None and not any(is_part(block.text, whole) for whole in printed):
                complain(page, block.line, f"no example prints this:\n{block.text}")
            elif wanted is not None and not is_quoted(block.text, wanted):
                complain(page, block.line, f"says\n{block.text}but it is\n{wanted}")
                changes.append((block.start, block.end, wanted))
            wanted = None
    return changes


# ---- links and evidence

def anchors_of(page):
    text = FENCE.sub("", page.read_text())
    headings = re.findall(r"^#+ (.+)$", text, re.MULTILINE)
    return {re.sub(r"[^\w\- ]", "", heading.lower()).replace(" ", "-") for heading in headings}


def check_links(page, text):
    text = FENCE.sub(lambda found: "\n" * found[0].count("\n"), text)
    for found in re.finditer(r"\]\(([^)#\s]*)(?:#([^)\s]*))?\)", text):
        line = text.count("\n", 0, found.start()) + 1
        if "://" in found[1]:
            continue
        target = (page.parent / found[1]).resolve() if found[1] else page
        if not target.exists():
            complain(page, line, f"leads to {found[1]}, which is not there")
        elif found[2] and target.suffix == ".md" and found[2] not in anchors_of(target):
            complain(page, line, f"leads to the heading #{found[2]} of {target.name}, which has none")


def check_evidence(page):
    text = page.read_text()
    for file in sorted(p for p in (ROOT / "tests/data").rglob("*") if p.is_file()):
        name = str(file.relative_to(ROOT / "tests/data"))
        folder = name.split("/")[0] + "/"
        if f"`{name}`" not in text and f"`{folder}`" not in text:
            complain(page, 1, f"says nothing of tests/data/{name}")
    for found in re.finditer(r"`([\w/]+\.(?:cpp|cmake|py|hpp))`", text):
        if not any((ROOT / "tests").rglob(found[1])) and not (ROOT / found[1]).exists():
            complain(page, text.count("\n", 0, found.start()) + 1, f"names {found[1]}, which is not there")


def main():
    arguments = argparse.ArgumentParser(description="checks README.md and the pages of docs/")
    arguments.add_argument("--compile", required=True, help="compiler and options, divided by ; or blanks")
    arguments.add_argument("--link", action="append", default=[], help="a library to link with")
    arguments.add_argument("--work", required=True, type=pathlib.Path, help="folder to build in")
    arguments.add_argument("--write", action="store_true", help="put what is printed into the pages")
    options = arguments.parse_args()

    pages = {page: blocks_of(page.read_text())
             for page in [ROOT / "README.md", *sorted((ROOT / "docs").glob("*.md"))]}
    compiler = options.compile.split(";") if ";" in options.compile else shlex.split(options.compile)
    outputs = outputs_of(pages, compiler, options.link, options.work)
    for page, blocks in pages.items():
        changes = check_output(page, blocks, outputs)
        text = page.read_text()
        check_links(page, text)
        if options.write and changes:
            for start, end, new in reversed(changes):
                text = text[:start] + new + text[end:]
            page.write_text(text)
    check_links(ROOT / "DEVELOPERS.md", (ROOT / "DEVELOPERS.md").read_text())
    check_evidence(ROOT / "docs/evidence.md")
    print("\n".join(problems) or f"{sum(map(len, pages.values()))} blocks on {len(pages)} pages checked")
    sys.exit(1 if problems else 0)


main()
