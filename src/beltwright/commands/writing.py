"""Writing what a command has made, whole or not at all."""

import os
from pathlib import Path

from beltwright.build.errors import NotSaved


def name_after(build: Path) -> str:
    """What the files made from a build file begin with: its name, or its folder's if that says
    more ("orchard-hauler/build.toml" is the orchard hauler's)."""
    return build.resolve().parent.name if build.stem == "build" else build.stem


def write_whole(path: Path, data: bytes) -> Path:
    """Write a file beside its place and move it there, so that no half of it is ever found."""
    aside = path.with_name(f"{path.name}.part")
    if path.is_dir():
        raise NotSaved(path, "this is a folder")
    if path.parent.is_file():
        raise NotSaved(path, f"{path.parent} is a file, not a folder")
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        aside.write_bytes(data)
        os.replace(aside, path)
    except OSError as error:
        if aside.exists():
            aside.unlink()
        raise NotSaved(path, error.strerror or str(error)) from error
    return path
