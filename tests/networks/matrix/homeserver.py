"""A real Synapse homeserver for a test session: on loopback alone, without federation.

This file decides how it is set up, started, stopped and given accounts. It knows nothing of
Drawbar.
"""

from __future__ import annotations

import hashlib
import hmac
import json
import socket
import subprocess
import sys
import time
import urllib.request
from pathlib import Path

NAME = "chat.example"
SECRET = "a secret of the test session"
PASSWORD = "clover and thyme"
READY_WITHIN = 300.0
SIGNING_KEY = "ed25519 a_test AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA\n"
SETUP = """
server_name: {name}
pid_file: {folder}/pid
listeners:
  - {{port: {port}, type: http, tls: false, bind_addresses: ["127.0.0.1"],
      resources: [{{names: [client], compress: false}}]}}
database: {{name: sqlite3, args: {{database: "{folder}/homeserver.db"}}}}
log_config: "{folder}/log.yaml"
media_store_path: "{folder}/media"
signing_key_path: "{folder}/signing.key"
registration_shared_secret: "{secret}"
macaroon_secret_key: "{secret}"
form_secret: "{secret}"
report_stats: false
trusted_key_servers: []
federation_domain_whitelist: []
enable_registration: false
presence: {{enabled: false}}
bcrypt_rounds: 4
max_upload_size: 10M
url_preview_enabled: false
rc_message: {{per_second: 20, burst_count: 60}}
rc_login:
  address: {{per_second: 50, burst_count: 100}}
  account: {{per_second: 50, burst_count: 100}}
rc_joins: {{local: {{per_second: 50, burst_count: 100}}}}
rc_invites:
  per_room: {{per_second: 50, burst_count: 100}}
  per_user: {{per_second: 50, burst_count: 100}}
  per_issuer: {{per_second: 50, burst_count: 100}}
"""
LOGGING = """
version: 1
formatters: {{plain: {{format: "%(asctime)s %(levelname)s %(name)s %(message)s"}}}}
handlers: {{file: {{class: logging.FileHandler, filename: "{folder}/homeserver.log",
                    formatter: plain}}}}
root: {{level: WARNING, handlers: [file]}}
disable_existing_loggers: false
"""


def free_port() -> int:
    """A port of loopback that is free now."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port: int = probe.getsockname()[1]
    return port


class Homeserver:
    """One Synapse, with its data in a folder; the same port and data after a restart."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._port = free_port()
        self._process: subprocess.Popen[bytes] | None = None
        (folder / "homeserver.yaml").write_text(
            SETUP.format(name=NAME, folder=folder, port=self._port, secret=SECRET)
        )
        (folder / "log.yaml").write_text(LOGGING.format(folder=folder))
        (folder / "signing.key").write_text(SIGNING_KEY)

    @property
    def url(self) -> str:
        """Where clients connect to."""
        return f"http://127.0.0.1:{self._port}"

    def start(self) -> None:
        """Start it, and wait until it answers; raises RuntimeError with its log where it won't."""
        with (self._folder / "output.log").open("ab") as output:
            self._process = subprocess.Popen(
                (
                    *(sys.executable, "-m", "synapse.app.homeserver"),
                    *("--config-path", str(self._folder / "homeserver.yaml")),
                ),
                stdout=output,
                stderr=output,
            )
        until = time.monotonic() + READY_WITHIN
        while not self._answers():
            if self._process.poll() is not None or time.monotonic() > until:
                raise RuntimeError((self._folder / "output.log").read_text())

    def _answers(self) -> bool:
        try:
            with urllib.request.urlopen(f"{self.url}/_matrix/client/versions") as response:
                return bool(response.status == 200)
        except OSError:
            # There is nothing to wait for but the port itself.
            time.sleep(0.05)
            return False

    def stop(self) -> None:
        """Stop it as an operator would."""
        if self._process is not None:
            self._process.terminate()
            self._process.wait()
            self._process = None

    def register(self, name: str) -> str:
        """A new account with the session's password: its user id."""
        address = f"{self.url}/_synapse/admin/v1/register"
        with urllib.request.urlopen(address) as response:
            nonce = json.load(response)["nonce"]
        signed = "\0".join((nonce, name, PASSWORD, "notadmin")).encode()
        mac = hmac.new(SECRET.encode(), signed, hashlib.sha1).hexdigest()
        account = {"nonce": nonce, "username": name, "password": PASSWORD, "mac": mac}
        with urllib.request.urlopen(address, json.dumps(account).encode()) as response:
            user: str = json.load(response)["user_id"]
        return user
