"""A server that is killed in the middle of a save loses nothing.

The child process below serves the folder and dies, without any clean-up, at one chosen step of
the save: as power that goes off would leave it.
"""

import json
import subprocess
import sys
from pathlib import Path

import httpx
import pytest

from beltwright.build.editing import set_value
from beltwright.build.saving import list_history, version_text
from beltwright.web.door import TOKEN_HEADER

CHILD = """
import os, sys
from pathlib import Path
from beltwright.web.serving import make_server, serve, take_place

step, turn = sys.argv[2], int(sys.argv[3])
usual = getattr(os, step)

def dies(*given, **named):
    global turn
    turn -= 1
    if turn == 0:
        os._exit(9)
    return usual(*given, **named)

place = take_place(lan=False, port=0)

def started():
    setattr(os, step, dies)
    print(place.entrance(), flush=True)

serve(make_server(Path(sys.argv[1]), place), place, started)
"""


@pytest.mark.parametrize("step", ["replace", "fsync", "chmod"])
@pytest.mark.parametrize("turn", [1, 2, 3, 4, 5])
def test_a_kill_in_mid_save_leaves_a_whole_file(folder: Path, step: str, turn: int) -> None:
    file = folder / "orchard.toml"
    old = file.read_text()
    arguments = [sys.executable, "-c", CHILD, str(folder), step, str(turn)]
    with subprocess.Popen(arguments, stdout=subprocess.PIPE, text=True) as child:
        assert child.stdout is not None
        answered = _edit(child.stdout.readline().strip())
        child.kill()
        died_by_itself = child.wait() == 9
    new = set_value(old, "story", "new story")
    assert answered or died_by_itself
    assert file.read_text() in ({new} if answered else {old, new})
    kept = {version_text(file, version.version) for version in list_history(file)}
    assert kept <= {old, new}
    assert old in kept | {file.read_text()}


def _edit(entrance: str) -> bool:
    """Edits the story; whether the server lived to say that it is saved."""
    address = entrance.partition("/enter")[0]
    with httpx.Client(base_url=address, timeout=30.0, follow_redirects=True) as page:
        token = page.get(entrance).text.partition('name="token" content="')[2].partition('"')[0]
        version = page.get("/api/builds/orchard").json()["version"]
        body = {"version": version, "edits": [{"key": "story", "text": "new story"}]}
        try:
            answer = page.post(
                "/api/builds/orchard/edit",
                content=json.dumps(body),
                headers={TOKEN_HEADER: token, "Content-Type": "application/json"},
            )
        except httpx.TransportError:
            return False
        return answer.status_code == 200
