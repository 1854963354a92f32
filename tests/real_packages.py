"""Real packages for tests: written to a folder, found by an interpreter of their own."""

import os
import subprocess
import sys
from collections.abc import Iterable, Mapping
from pathlib import Path

ROOT = Path(__file__).parents[1]
BRIEF = str(ROOT / "docs" / "examples" / "garden.toml")
STOCK = ROOT / "catalogs" / "hobbleden.toml"


def install(
    site: Path,
    name: str,
    files: Mapping[str, str],
    *,
    plugin: str = "",
    points: str = "",
    group: str = "drylay.v1",
) -> None:
    """Write an installed package: its files, its record, and the entry points in it.

    Its one entry point is `plugin = module`; `points` is the whole list where it is another.
    """
    module = name.replace("-", "_")
    for path, text in files.items():
        file = site / module / path
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(text, encoding="utf-8")
    record = site / f"{module}-1.0.dist-info"
    record.mkdir(parents=True)
    about = f"Metadata-Version: 2.1\nName: {name}\nVersion: 1.0\n"
    (record / "METADATA").write_text(about, encoding="utf-8")
    told = points or f"[{group}]\n{plugin or module} = {module}\n"
    (record / "entry_points.txt").write_text(told, encoding="utf-8")


def run(site: Path | None, argv: Iterable[str]) -> subprocess.CompletedProcess[str]:
    """Run Python with a folder of packages on its path, and without the network."""
    paths = [str(site)] if site else []
    paths += [path for path in os.environ.get("PYTHONPATH", "").split(os.pathsep) if path]
    env = os.environ | {"PYTHONPATH": os.pathsep.join(paths), "PYTHONDONTWRITEBYTECODE": "1"}
    return subprocess.run(
        [sys.executable, *argv], capture_output=True, text=True, env=env, check=False, timeout=120
    )


def drylay(site: Path | None, *argv: str) -> subprocess.CompletedProcess[str]:
    """Run the command line with a folder of packages on its path."""
    return run(site, ["-m", "drylay", *argv])
