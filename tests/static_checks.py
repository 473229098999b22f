"""Runs clang-tidy over src/, the files of a folder joined into one, so that Eigen is parsed and matched once for all of them.

    python tests/static_checks.py CLANG_TIDY BUILD JOBS

BUILD holds the compile commands. A folder is checked again only when one of its files, a header or the list of checks has
changed. A joined file and not one that includes the others, because the analyser looks only into what stands in the file it is
given. Prints findings with the file and line they are in and returns 1 if there are any.
"""

from __future__ import annotations

import hashlib
import json
import os
import re
import subprocess
import sys
from collections.abc import Iterable
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
# Names in them are unique in a file only: lenses of keys, requests of commands.
ALONE = re.compile(r"src/(cli/.*|case/keys_[a-z]+)\.cpp$")
INCLUDE = re.compile(r"^#include [<\"](.*)[>\"]", re.MULTILINE)


def digest(parts: Iterable[bytes]) -> str:
    sums = hashlib.sha256()
    for part in parts:
        sums.update(hashlib.sha256(part).digest())
    return sums.hexdigest()


def groups_of(commands: list[dict[str, str]]) -> dict[str, list[dict[str, str]]]:
    """Compile commands by what is joined: a folder's files compiled with the same options, or one file."""
    groups: dict[str, list[dict[str, str]]] = {}
    for one in sorted(commands, key=lambda one: one["file"]):
        path = Path(one["file"])
        if not path.is_relative_to(ROOT / "src"):
            continue
        name = path.relative_to(ROOT).as_posix()
        options = re.sub(r" -o \S+ -c \S+", "", one["command"])
        folder = name if ALONE.search(name) else f"{path.parent.relative_to(ROOT)} {digest([options.encode()])}"
        groups.setdefault(folder, []).append(one)
    return groups


def repeated_includes(path: Path) -> list[str]:
    """Joined files repeat each other's includes, so that this one check is made here."""
    found = INCLUDE.findall(path.read_text())
    return [f"{path.relative_to(ROOT)}: {name} is included twice" for name in sorted(set(found)) if found.count(name) > 1]


def check(tidy: str, build: Path, members: list[dict[str, str]], context: str) -> list[str]:
    files = [Path(one["file"]) for one in members]
    mark = build / "clean" / digest([context.encode(), *(file.read_bytes() for file in files)])[:40]
    if mark.exists():
        return []
    folder = build / "joined" / mark.name
    folder.mkdir(parents=True, exist_ok=True)
    joined = folder / "joined.cpp"
    lines: list[tuple[str, int]] = []  # of the joined file: where each stands
    text = ""
    for file in files:
        content = file.read_text()
        text += content
        lines += [(str(file.relative_to(ROOT)), n) for n in range(1, content.count("\n") + 1)]
    joined.write_text(text)
    command = members[0]["command"].replace(f"-c {files[0]}", f"-I{files[0].parent} -c {joined}")
    (folder / "compile_commands.json").write_text(
        json.dumps([{"directory": members[0]["directory"], "command": command, "file": str(joined)}])
    )
    run = subprocess.run(
        [tidy, "-p", str(folder), f"--config-file={ROOT / '.clang-tidy'}", "--quiet",
         "--checks=-readability-duplicate-include", str(joined)],
        capture_output=True, text=True, check=False,
    )  # fmt: skip

    def place(match: re.Match[str]) -> str:
        file, line = lines[min(int(match.group(1)), len(lines)) - 1]
        return f"{file}:{line}"

    found = [fault for file in files for fault in repeated_includes(file)]
    if run.returncode != 0:
        found.append(re.sub(re.escape(str(joined)) + r":(\d+)", place, run.stdout + run.stderr))
    if not found:
        mark.touch()
    return found


def main() -> int:
    tidy, build, jobs = sys.argv[1], Path(sys.argv[2]).resolve(), int(sys.argv[3])
    (build / "clean").mkdir(exist_ok=True)
    version = subprocess.run([tidy, "--version"], capture_output=True, check=True).stdout
    headers = sorted([*(ROOT / "include").rglob("*.hpp"), *(ROOT / "src").rglob("*.hpp")])
    context = digest([version, (ROOT / ".clang-tidy").read_bytes(), *(header.read_bytes() for header in headers)])
    groups = groups_of(json.loads((build / "compile_commands.json").read_text()))
    # The longest first, so that none is left alone at the end.
    order = sorted(groups, key=lambda name: -sum(os.path.getsize(one["file"]) for one in groups[name]))
    with ThreadPoolExecutor(jobs) as pool:
        findings = [f for found in pool.map(lambda name: check(tidy, build, groups[name], context), order) for f in found]
    print("\n".join(findings) if findings else f"{len(groups)} groups of files are clean")
    return 1 if findings else 0


if __name__ == "__main__":
    sys.exit(main())
