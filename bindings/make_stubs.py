"""Write the type stubs of the installed extension module: ``python bindings/make_stubs.py FOLDER``.

The committed ones are in bindings/wingnose/_core; a test compares them with what this makes.
"""

import re
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path


def tidy(text: str) -> str:
    """Drop what changes from build to build, and say in plain types what type checkers trip over."""
    text = re.sub(r"(__commit__|__version__): str = .*", r"\1: str", text)
    text = text.replace("typing.SupportsFloat | typing.SupportsIndex", "float")
    text = text.replace("typing.SupportsInt | typing.SupportsIndex", "int")
    # Defaults have one home, the C++ header.
    text = re.sub(r"(: (?:float|int|bool|str)) = (?:'[^']*'|[-+.\w]+)(?=[,)])", r"\1 = ...", text)
    # Members of an enum, in the form the typing specification asks for.
    for enum in re.findall(r"(?m)^class (\w+)\(enum\.Enum\)", text):
        text = re.sub(rf"(?m)^    (\w+): typing\.ClassVar\[{enum}\].*$", r"    \1 = ...", text)
    text = text.replace("    @classmethod\n    def __new__(cls, value):\n        ...\n", "")
    # A value with == and no hash: correct, but not what `object` promises.
    text = text.replace("__hash__: typing.ClassVar[None] = None", "__hash__: typing.ClassVar[None] = None  # type: ignore[assignment]")
    for plain, full in {"tuple": "tuple[typing.Any, ...]", "list": "list[typing.Any]", "dict": "dict[str, typing.Any]"}.items():
        text = re.sub(rf"(: |-> ){plain}\b(?!\[)", rf"\1{full}", text)
    text = re.sub(r"os\.PathLike\b(?!\[)", "os.PathLike[str]", text)
    text = re.sub(r"(: [\w.]+) = None(?=[,)])", r"\1 | None = None", text)
    return text.replace("**kwargs)", "**kwargs: typing.Any)")


def main(target: Path) -> None:
    with tempfile.TemporaryDirectory() as folder:
        subprocess.run(
            [sys.executable, "-m", "pybind11_stubgen", "wingnose._core", "-o", folder, "--exit-code"], check=True
        )
        made = Path(folder) / "wingnose" / "_core"
        for stub in made.rglob("*.pyi"):
            stub.write_text(tidy(stub.read_text(encoding="utf-8")), encoding="utf-8")
        shutil.rmtree(target / "_core", ignore_errors=True)
        shutil.copytree(made, target / "_core")


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    main(Path(sys.argv[1]))
