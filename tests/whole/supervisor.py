"""As much of systemd as `deploy/` asks for: reads its units and does what they say, without root.

A root of its own stands for `/`: units, settings and state lie below it, at the paths that the
documents name. What a unit says of sandboxes and bounds is left to systemd itself (see
test_deploy.py); a directive that neither is honoured here nor is one of those is an error, so
that none is passed over unseen. The manual pages meant are systemd.service(5), systemd.exec(5)
and systemd.unit(5).
"""

from __future__ import annotations

import asyncio
import os
import re
import shlex
import shutil
import signal
import stat
import time
from asyncio.subprocess import DEVNULL, PIPE, STDOUT, Process
from collections.abc import Iterable, Sequence
from pathlib import Path

HONOURED = {
    "CacheDirectory", "DynamicUser", "Environment", "ExecStart", "ExecStartPost", "ExecStartPre",
    "LoadCredential", "Restart", "RestartSec", "SetCredential", "StateDirectory",
    "StateDirectoryMode", "TimeoutStopSec", "Type", "UMask", "WorkingDirectory",
}  # fmt: skip
LEFT_TO_SYSTEMD = re.compile(
    "AmbientCapabilities|CapabilityBoundingSet|LockPersonality|Memory(High|Max)|NoNewPrivileges"
    "|Private[A-Z]|Proc[A-Z]|Protect[A-Z]|RemoveIPC|Restrict[A-Z]|SystemCall[A-Z]|TasksMax"
)
RESTARTED_AFTER = {"no": (), "on-failure": ("failure",), "always": ("failure", "success")}
STOPS = (signal.SIGTERM, signal.SIGINT, signal.SIGHUP, signal.SIGPIPE)
"""systemd.service(5), SuccessExitStatus=: ended by one of these is no failure."""

NO_CREDENTIALS = 243
"""systemd.exec(5), Process Exit Codes: EXIT_CREDENTIALS."""

LIKE_ROOT = re.compile(r"(?<![\w./])/(?=(?:opt|etc|var)/)")
"""Where a path begins that lies below the root of its own here."""


def below(root: Path, text: str) -> str:
    """A text with its paths in /opt, /etc and /var moved below a root of its own."""
    return LIKE_ROOT.sub(f"{root}/", text)


class Unit:
    """A service's file: the values of each directive of [Service], in their order."""

    def __init__(self, text: str) -> None:
        self._told: dict[str, list[str]] = {}
        section = ""
        for line in text.replace("\\\n", " ").splitlines():
            if line.startswith("["):
                section = line
            elif section == "[Service]" and line and line[0] not in "#;":
                name, _, value = line.partition("=")
                if name not in HONOURED and not LEFT_TO_SYSTEMD.match(name):
                    raise ValueError(f"{name}= is neither honoured here nor left to systemd")
                self._told.setdefault(name, []).append(value.strip())

    def all(self, name: str) -> list[str]:
        """Every value of a directive."""
        return self._told.get(name, [])

    def one(self, name: str, otherwise: str = "") -> str:
        """The value that counts: the last."""
        return (self.all(name) or [otherwise])[-1]

    def is_on(self, name: str) -> bool:
        """Whether a directive says yes."""
        return self.one(name) in ("yes", "true", "on", "1")


class Service:
    """One service: started, watched, started again as its unit says, and stopped."""

    def __init__(self, name: str, root: Path) -> None:
        self.name = name
        self.journal: list[str] = []
        self.starts = 0
        self.result = ""
        self.stopped_within_its_time = True
        self._root = root
        self._heard = asyncio.Event()
        self._read = 0
        self._process: Process | None = None
        self._watching: asyncio.Task[None] | None = None
        self._stopping = False

    @property
    def unit(self) -> Unit:
        """The unit as it is installed, its paths below the root."""
        file = self._root / "etc/systemd/system" / f"{self.name}.service"
        return Unit(below(self._root, file.read_text(encoding="utf-8")))

    async def start(self) -> None:
        """Start it; a oneshot is over when this returns, and raises RuntimeError if it failed."""
        unit = self.unit
        if unit.one("Type") == "oneshot":
            for step in ("ExecStartPre", "ExecStart", "ExecStartPost"):
                for command in unit.all(step):
                    await self._launched(unit, command)
                    await self._ended()
                    if self.result != "success":
                        raise RuntimeError(f"{command}: {self.result}: {self.journal}")
            return
        self._stopping = False
        self._watching = asyncio.create_task(self._kept_up(unit))

    async def _kept_up(self, unit: Unit) -> None:
        while True:
            try:
                await self._launched(unit, unit.one("ExecStart"))
                await self._ended()
            except OSError as error:
                self._note(str(error))
                self.result = f"exit {NO_CREDENTIALS}"
            kind = "success" if self.result == "success" else "failure"
            if self._stopping or kind not in RESTARTED_AFTER[unit.one("Restart", "no")]:
                return
            await asyncio.sleep(float(unit.one("RestartSec", "0.1")))

    async def _launched(self, unit: Unit, command: str) -> None:
        told = self._surroundings(unit)
        words = [
            re.sub(r"\$\{(\w+)\}", lambda name: told[name[1]], word).replace("%%", "%")
            for word in shlex.split(command)
        ]
        if unit.is_on("DynamicUser"):
            self._hold_to_what_others_can_read(words, told)
        self._process = await asyncio.create_subprocess_exec(
            *words,
            env=told,
            cwd=unit.one("WorkingDirectory", str(self._root)),
            umask=int(unit.one("UMask", "0022"), 8),
            stdin=DEVNULL,
            stdout=PIPE,
            stderr=STDOUT,
            start_new_session=True,
        )
        self.starts += 1

    async def _ended(self) -> None:
        process = self._process
        assert process is not None
        assert process.stdout is not None
        while line := await process.stdout.readline():
            self._note(line.decode().rstrip("\n"))
        status = await process.wait()
        if status == 0 or (status < 0 and -status in STOPS):
            self.result = "success"
        else:
            self.result = f"exit {status}" if status > 0 else signal.Signals(-status).name
        self._process = None

    def _note(self, line: str) -> None:
        self.journal.append(line)
        self._heard.set()

    def _surroundings(self, unit: Unit) -> dict[str, str]:
        told = {"PATH": "/usr/local/sbin:/usr/local/bin:/usr/sbin:/usr/bin:/sbin:/bin"}
        if unit.is_on("DynamicUser"):
            told["HOME"] = "/"  # systemd.exec(5), Environment Variables: of a user without a home
        if state := unit.one("StateDirectory"):
            mode = unit.one("StateDirectoryMode", "0755")
            told["STATE_DIRECTORY"] = str(self._own("var/lib", state, unit, mode))
        if cache := unit.one("CacheDirectory"):
            told["CACHE_DIRECTORY"] = str(self._own("var/cache", cache, unit, "0755"))
        if unit.all("LoadCredential"):
            told["CREDENTIALS_DIRECTORY"] = str(self._credentials(unit))
        for line in unit.all("Environment"):
            told |= dict(word.split("=", 1) for word in shlex.split(line))
        return told

    def _own(self, place: str, name: str, unit: Unit, mode: str) -> Path:
        """A folder of the service's own; a dynamic user's lies in `private`, with a link to it."""
        public = self._root / place / name
        if unit.is_on("DynamicUser"):
            private = self._root / place / "private" / name
            private.parent.mkdir(mode=0o700, exist_ok=True)
            if public.is_dir() and not public.is_symlink():
                public.rename(private)
            private.mkdir(exist_ok=True)
            if not public.is_symlink():
                public.symlink_to(Path("private") / name)
        public.mkdir(exist_ok=True)
        public.chmod(int(mode, 8))
        return public

    def _credentials(self, unit: Unit) -> Path:
        """A fresh folder of them; raises FileNotFoundError for one that has no default."""
        folder = self._root / "run/credentials" / self.name
        shutil.rmtree(folder, ignore_errors=True)
        folder.mkdir(parents=True)
        otherwise = dict(each.split(":", 1) for each in unit.all("SetCredential"))
        for each in unit.all("LoadCredential"):
            name, _, source = each.partition(":")
            try:
                secret = Path(source).read_bytes()
            except FileNotFoundError:
                if name not in otherwise:
                    raise
                secret = otherwise[name].encode().decode("unicode_escape").encode()
            (folder / name).write_bytes(secret)
            (folder / name).chmod(0o400)
        return folder

    def _hold_to_what_others_can_read(self, words: Iterable[str], told: dict[str, str]) -> None:
        """A user that exists only now reads what all may, and what systemd lays down for it."""
        given = (told.get("CREDENTIALS_DIRECTORY"), told.get("STATE_DIRECTORY"))
        for word in words:
            path = Path(word)
            if path.is_relative_to(self._root) and not word.startswith(tuple(filter(None, given))):
                below_root = [path, *path.parents][: len(path.relative_to(self._root).parts)]
                shut = [each for each in below_root if not each.stat().st_mode & stat.S_IROTH]
                if shut:
                    raise PermissionError(f"{path} is closed to the service's user at {shut[-1]}")

    async def stop(self) -> None:
        """Stop it by SIGTERM, and by SIGKILL where that takes longer than TimeoutStopSec=."""
        self._stopping = True
        if self._watching is None:
            return
        if self._process is None:  # it waits to be started again
            self._watching.cancel()
        else:
            self._process.send_signal(signal.SIGTERM)
        bound = float(self.unit.one("TimeoutStopSec", "90"))
        done, _ = await asyncio.wait({self._watching}, timeout=bound)
        self.stopped_within_its_time = bool(done)
        await self.kill()
        await asyncio.wait({self._watching})

    async def kill(self) -> None:
        """End it as a machine that is out of memory does."""
        if self._process is not None and self._process.returncode is None:
            os.killpg(self._process.pid, signal.SIGKILL)

    async def says(self, pattern: str, seconds: float = 60.0) -> re.Match[str]:
        """Wait for a line of the journal that matches, after the one last waited for."""
        until = time.monotonic() + seconds
        while True:
            for line in self.journal[self._read :]:
                self._read += 1
                if found := re.search(pattern, line):
                    return found
            self._heard.clear()
            try:
                await asyncio.wait_for(self._heard.wait(), until - time.monotonic())
            except TimeoutError:
                raise AssertionError(f"{pattern!r} was not said: {self.journal}") from None


class Systemctl:
    """The commands of systemctl(1) that the documents use, on the units below a root."""

    def __init__(self, root: Path) -> None:
        self._root = root
        self._services: dict[str, Service] = {}
        self._known: set[str] = set()
        self.enabled: set[str] = set()

    def service(self, name: str) -> Service:
        """A service by its name, as it was started or not yet."""
        return self._services.setdefault(name, Service(name, self._root))

    async def run(self, words: Sequence[str]) -> None:
        """Do what a command says; raises ValueError for one that is not known."""
        verb, *names = [word for word in words if not word.startswith("--")]
        at_once = "--now" in words
        if verb == "daemon-reload":
            self._known = {path.name for path in (self._root / "etc/systemd/system").iterdir()}
            return
        for name in names:
            file = name if "." in name else f"{name}.service"
            if file not in self._known:
                raise ValueError(f"Unit {file} not found.")
            if verb in ("enable", "disable"):
                (self.enabled.add if verb == "enable" else self.enabled.discard)(file)
            if verb in ("stop", "restart") or (verb == "disable" and at_once):
                await self._stop(file)
            if verb in ("start", "restart") or (verb == "enable" and at_once):
                await self._start(file)
            elif verb not in ("enable", "disable", "stop"):
                raise ValueError(f"systemctl {verb} is not known here")

    async def _start(self, file: str) -> None:
        name, _, kind = file.rpartition(".")
        if kind == "service":
            await self.service(name).start()
        elif f"{name}.service" not in self._known:
            raise ValueError(f"{file} has no service.")

    async def _stop(self, file: str) -> None:
        name, _, kind = file.rpartition(".")
        if kind == "service":
            await self.service(name).stop()

    async def close(self) -> None:
        """End whatever still runs."""
        for each in self._services.values():
            await each.stop()
