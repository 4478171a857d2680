#!/usr/bin/env python3
"""Stands in for the program: passes everything on to it and does one wrong thing on the way, as PUMPWRIGHT_TAMPER says.

    drop-message    one message of an event stream is not passed on
    double-message  one message of an event stream is passed on twice
    lose-event      when the server has stopped, the last event of a job is taken out of the store
"""

import os
import re
import signal
import socket
import sqlite3
import subprocess
import sys
import threading

PROGRAM = os.environ["PUMPWRIGHT"]
WHAT = os.environ["PUMPWRIGHT_TAMPER"]
tampered = threading.Lock()  # held for good by the one connection that was tampered with


def with_one_wrong(messages):
    """`messages` is text of an event stream; the third message that is whole in one piece is dropped or doubled."""
    parts = messages.split(b"\n\n")
    if len(parts) < 2 or not parts[0].startswith(b"id: ") or not tampered.acquire(blocking=False):
        return messages
    return b"\n\n".join(parts[1:] if WHAT == "drop-message" else [parts[0], *parts])


def pump(source, target, tamper):
    streams = False
    try:
        while piece := source.recv(65536):
            if tamper and streams:
                piece = with_one_wrong(piece)
            streams = streams or b"text/event-stream" in piece
            target.sendall(piece)
    except OSError:
        pass
    for end in (source, target):
        try:
            end.shutdown(socket.SHUT_RDWR)
        except OSError:
            pass


def pass_on(listening, port):
    while True:
        client, _ = listening.accept()
        server = socket.create_connection(("127.0.0.1", port))
        threading.Thread(target=pump, args=(client, server, False), daemon=True).start()
        threading.Thread(target=pump, args=(server, client, WHAT.endswith("-message")), daemon=True).start()


def lose_event(data):
    store = sqlite3.connect(os.path.join(data, "shop.sqlite"))
    for (trigger,) in store.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'").fetchall():
        store.execute(f'DROP TRIGGER "{trigger}"')
    lost = store.execute(
        "DELETE FROM event WHERE id = (SELECT max(e.id) FROM event e JOIN stream s ON s.id = e.stream_id WHERE s.name = 'job/L-0001')"
    ).rowcount
    store.commit()
    store.close()
    assert lost == 1


def serve(arguments):
    process = subprocess.Popen([PROGRAM, *arguments], stderr=subprocess.PIPE, text=True)
    signal.signal(signal.SIGINT, lambda *_: process.send_signal(signal.SIGINT))
    listening = socket.create_server(("127.0.0.1", 0), backlog=256)
    for line in process.stderr:
        if found := re.match(r"Listening on http://127\.0\.0\.1:(\d+)", line):
            threading.Thread(target=pass_on, args=(listening, int(found.group(1))), daemon=True).start()
            line = f"Listening on http://127.0.0.1:{listening.getsockname()[1]}\n"
        print(line, end="", file=sys.stderr, flush=True)
    status = process.wait()
    if WHAT == "lose-event":
        lose_event(arguments[arguments.index("--data") + 1])
    sys.stderr.flush()
    os._exit(status)


if __name__ == "__main__":
    if sys.argv[1] != "serve":
        os.execv(PROGRAM, [PROGRAM, *sys.argv[1:]])
    serve(sys.argv[1:])
