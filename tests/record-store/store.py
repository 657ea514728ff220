#!/usr/bin/env python3
"""A record store (LRS) of xAPI that others wrote, ralph, over HTTP on this machine.

Usage: store.py FOLDER PORT USER PASSWORD

Keeps statements as lines of JSON in FOLDER. tests/browser/record-store.mjs makes the environment that this runs in.
"""

import json
import os
import sys
from pathlib import Path

import bcrypt

folder, port, user, password = Path(sys.argv[1]), int(sys.argv[2]), sys.argv[3], sys.argv[4]
who = {
    "username": user,
    # As few rounds as there can be: this guards nothing.
    "hash": bcrypt.hashpw(password.encode(), bcrypt.gensalt(4)).decode(),
    "scopes": ["all"],
    "agent": {"mbox": "mailto:store@example.org"},
}
(folder / "auth.json").write_text(json.dumps([who]))
os.environ.update(
    RALPH_AUTH_FILE=str(folder / "auth.json"),
    RALPH_RUNSERVER_BACKEND="fs",
    RALPH_RUNSERVER_MAX_SEARCH_HITS_COUNT="10000",
    RALPH_BACKENDS__LRS__FS__DEFAULT_DIRECTORY_PATH=str(folder),
)

# Read the above as they are imported.
import uvicorn  # noqa: E402
from ralph.backends.data.base import BaseOperationType  # noqa: E402
from ralph.backends.lrs.fs import FSLRSBackend  # noqa: E402

# Its file takes one statement only, unless it is told to add to it.
FSLRSBackend.default_operation_type = BaseOperationType.APPEND
uvicorn.run("ralph.api:app", host="127.0.0.1", port=port, log_level="error")
